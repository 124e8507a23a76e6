import { z } from 'zod';
import { isoDate, pressureUnit, unitName } from './shared-shapes.ts';

const number = z.number();
const maybe = number.nullable();
const remarks = z.array(z.strictObject({ code: z.string(), text: z.string() })).optional();

/** A gauge held against a reference: the line of its correction (JCGM 100:2008, H.3) and what a rig file can take over. */
export const gaugeReadingsCheck = z.strictObject({
  format: z.literal('overdrive-bench/gauge-check'),
  version: z.literal(1),
  unit: unitName,
  points: z.number().int(),
  /** Correction b(t) = intercept + slope · (t − t0), t the reading. */
  t0: number,
  intercept: number,
  interceptStandardUncertainty: maybe,
  slope: number,
  slopeStandardUncertainty: maybe,
  correlation: maybe,
  residualStandardDeviation: maybe,
  degreesOfFreedom: z.number().int().optional(),
  residuals: z.array(z.strictObject({ reading: number, correction: number, residual: number })).optional(),
  /** Largest difference between rising and falling at one reference. */
  hysteresis: maybe,
  /** Largest |reading − reference| over the span of the references. */
  largestErrorShareOfSpan: number,
  /** Finest accuracy class (± per cent of the span) that holds the largest error; null where none does. */
  accuracyClass: maybe.optional(),
  /** Against the class that dial, data sheet or rig file state; left out where none was said. */
  stated: z
    .strictObject({
      percentOfSpan: number,
      range: z.strictObject({ low: number, high: number }),
      /** Largest |reading − reference| that the class allows, and the one that was found. */
      allowed: number,
      largestError: number,
      holds: z.boolean(),
    })
    .optional(),
  /** To be pasted into a rig file's channel; null without standard errors. */
  rigChannel: z
    .strictObject({
      correction: z.strictObject({ offset: number, slope: number }),
      uncertainty: z.strictObject({
        name: z.string(),
        expanded: number,
        coverageFactor: number,
        distribution: z.literal('normal'),
        degreesOfFreedom: number,
      }),
      calibratedOn: isoDate.optional(),
      dueOn: isoDate.optional(),
    })
    .nullable(),
  /** Present where something is null: why. */
  reason: z.string().optional(),
  remarks,
});
export type GaugeReadingsCheck = z.infer<typeof gaugeReadingsCheck>;

/** What a gauge leaves of a band, before any run. */
export const gaugeBandCheck = z.strictObject({
  format: z.literal('overdrive-bench/gauge-check'),
  version: z.literal(1),
  unit: pressureUnit,
  expandedUncertainty: number,
  /** null for an open side, and both null where nothing can pass. */
  passFrom: maybe,
  passTo: maybe,
  canPass: z.boolean(),
  /** Width of what is left; null for a one-sided band. */
  room: maybe.optional(),
  /** Accuracy in ± per cent of the span that would leave half of the band; null where none of the usual classes does. */
  accuracyThatWouldDo: maybe.optional(),
  remarks,
});
export type GaugeBandCheck = z.infer<typeof gaugeBandCheck>;

export const gaugeCheckSchema = z.union([gaugeReadingsCheck, gaugeBandCheck]);
