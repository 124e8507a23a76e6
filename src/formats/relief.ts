import { z } from 'zod';
import { pressureUnits } from '#units/pressure.ts';
import { positive, pressureUnit } from './shared-shapes.ts';
import { adjustment } from './unit-record.ts';

/** Pressure per length of spring travel, "psi/mm" and so on. */
export const pressurePerLengthUnits = pressureUnits.map((unit) => `${unit}/mm` as const);
export const springRateUnits = ['N/mm', 'N/m', 'lbf/in'] as const;
export const areaUnits = ['mm2', 'cm2', 'in2'] as const;

const uncertainty = z.number().nonnegative().optional();
/** Wider than any relief is, narrow enough that a slip of the keyboard is named and no sum runs out of numbers. */
const shim_mm = z.number().min(0.001).max(50);
const height_mm = z.number().positive().max(200);
const rateOrArea = z.number().min(1e-6).max(1e9);
const SHIMS_AT_MOST = 200;

/** What is known of a relief valve and of what the shop has to set it with (contract, "Relief"). */
export const reliefSchema = z
  .strictObject({
    format: z.literal('overdrive-bench/relief'),
    version: z.literal(1),
    name: z.string().optional(),
    /** Spring rate over seat area gives the pressure per millimetre. */
    valve: z
      .strictObject({
        springRate: z.strictObject({
          value: rateOrArea,
          unit: z.enum(springRateUnits),
          standardUncertainty: uncertainty,
        }),
        pressureArea: z.strictObject({
          value: rateOrArea,
          unit: z.enum(areaUnits),
          standardUncertainty: uncertainty,
        }),
      })
      .optional(),
    /** From a manual or from experience; instead of the valve, or beside it. */
    pressurePerShim: z
      .strictObject({
        value: rateOrArea,
        unit: z.enum(pressurePerLengthUnits),
        standardUncertainty: uncertainty,
      })
      .optional(),
    /** What one taking apart and refitting adds to the pressure, as a standard uncertainty. */
    repeatability: z
      .strictObject({ standardUncertainty: z.number().nonnegative(), unit: pressureUnit })
      .optional(),
    fitted_mm: z.array(shim_mm).max(SHIMS_AT_MOST).optional(),
    /** `count` null: enough of them. */
    stock: z
      .array(z.strictObject({ thickness_mm: shim_mm, count: z.number().int().nonnegative().nullable() }))
      .max(SHIMS_AT_MOST)
      .optional(),
    stackAtMost_mm: height_mm.optional(),
    /** Instead of shims. Turning in, a positive number of turns, raises the pressure. */
    screw: z
      .strictObject({ pitch_mm: shim_mm, turnsAtMost: z.number().positive().max(1000).optional() })
      .optional(),
    target: z.strictObject({ value: positive, unit: pressureUnit }).optional(),
  })
  .check((context) => {
    const relief = context.value;
    const say = (message: string, path: string[]): void =>
      void context.issues.push({ code: 'custom', message, path, input: relief });
    if (relief.screw === undefined && relief.fitted_mm === undefined)
      say('give the shims that are fitted now ([] for none), or a screw', ['fitted_mm']);
    if (relief.screw !== undefined && (relief.stock !== undefined || relief.stackAtMost_mm !== undefined))
      say('a relief is set by a screw or by shims, not by both: leave out "stock" and "stackAtMost_mm"', [
        'screw',
      ]);
  });
export type Relief = z.infer<typeof reliefSchema>;

/** One change of a trail, with what was said of it beforehand. */
const trailedAdjustment = adjustment.extend({
  /** Of the unit that was changed; left out: the unit that the trail is read for. */
  serial: z.string().optional(),
  /** What was predicted when it was advised. */
  predicted: z
    .strictObject({ value: z.number(), standardUncertainty: z.number().nonnegative(), unit: pressureUnit })
    .optional(),
  /** Test and re-test are not like for like: in what. */
  notAlike: z.string().optional(),
});
export type TrailedAdjustment = z.infer<typeof trailedAdjustment>;

/** The trail of settings of a unit, or of a type (contract, "history"). */
export const adjustmentsSchema = z.strictObject({
  format: z.literal('overdrive-bench/adjustments'),
  version: z.literal(1),
  /** The unit that is to be set: changes of other serials tell of its type, not of itself. */
  serial: z.string().optional(),
  adjustments: z.array(trailedAdjustment),
});
export type Adjustments = z.infer<typeof adjustmentsSchema>;
