import { z } from 'zod';
import { verdicts } from './assessment.ts';
import { pressureUnit } from './shared-shapes.ts';

const number = z.number();
const maybe = number.nullable();

export const comparisonRow = z.strictObject({
  fileName: z.string().nullable(),
  serial: z.string().nullable().optional(),
  start: z.string().nullable().optional(),
  verdict: z.enum(verdicts),
  operatingPressure: z.strictObject({
    value: maybe,
    expandedUncertainty: maybe,
    unit: pressureUnit,
    reason: z.string().optional(),
  }),
  drift: z.strictObject({
    overHold: maybe,
    unit: pressureUnit,
    trend: z.enum(['rising', 'falling', 'none']).nullable(),
    reason: z.string().optional(),
  }),
  settling: z.strictObject({ time_s: maybe, reason: z.string().optional() }),
  /** Whether the operating pressure, or its distance from the one before, lies beyond the limits of the chart. */
  beyond: z.enum(['value', 'moving-range', 'both']).nullable(),
  /** A later test of a unit that was tested before in this list. */
  reTest: z.boolean().optional(),
});
export type ComparisonRow = z.infer<typeof comparisonRow>;

/** Several runs side by side, in the order given (contract, "Comparison"). */
export const comparisonSchema = z.strictObject({
  format: z.literal('overdrive-bench/comparison'),
  version: z.literal(1),
  unit: pressureUnit,
  runs: z.array(comparisonRow),
  /** Individuals and moving range, one value a run; null below two runs with a value. */
  limits: z
    .strictObject({
      center: number,
      low: number,
      high: number,
      meanMovingRange: number,
      movingRangeHigh: number,
      runs: z.number().int(),
    })
    .nullable(),
  /** From 10 runs on; cp null for a one-sided band. */
  capability: z.strictObject({
    cp: maybe,
    cpk: maybe,
    standardDeviation: maybe,
    runs: z.number().int(),
    reason: z.string().optional(),
  }),
  passedAtFirstTest: z.strictObject({ share: maybe, passed: z.number().int(), units: z.number().int() }),
  remarks: z.array(z.strictObject({ code: z.string(), text: z.string() })),
});
export type Comparison = z.infer<typeof comparisonSchema>;
