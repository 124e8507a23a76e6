import { z } from 'zod';
import { operatingPressure } from './assessment.ts';
import { pressurePerLengthUnits } from './relief.ts';
import { pressureUnit, share } from './shared-shapes.ts';

const number = z.number();
const remarks = z.array(z.strictObject({ code: z.string(), text: z.string() }));

export const adviceOption = z.strictObject({
  /** As it stands: nothing is opened. */
  leave: z.boolean(),
  /** The whole stack to fit; null with a screw. */
  fit_mm: z.array(number).nullable(),
  /** Positive turns in; null with shims. */
  turns: number.nullable(),
  change_mm: number,
  predicted: z.strictObject({
    value: number,
    unit: pressureUnit,
    standardUncertainty: number,
    /** null: infinite. */
    degreesOfFreedom: number.nullable().optional(),
  }),
  /** The chance that the unit then lies in the band. */
  probabilityOfConformity: share,
  /** The chance that the re-test's verdict on the operating pressure is a pass, its own measurement error included. */
  probabilityOfPass: share,
  /** The same where the re-test is read by the same gauge, whose error is then the same again. */
  probabilityOfPassSameGauge: share.optional(),
  remark: z.string().optional(),
});
export type AdviceOption = z.infer<typeof adviceOption>;

export const heldBackCodes = [
  'no-settled-hot-hold',
  'leakage-suspected',
  'pressure-follows-speed',
  'gauge-clipped',
  'sensitivity-unknown',
  'not-assessed',
] as const;

/** What to change before the next test, how it should come out and how sure that is (contract, "advise"). */
export const adviceSchema = z.strictObject({
  format: z.literal('overdrive-bench/advice'),
  version: z.literal(1),
  operatingPressure,
  target: z.strictObject({ value: number, unit: pressureUnit }),
  pressurePerShim: z
    .strictObject({
      value: number,
      unit: z.enum(pressurePerLengthUnits),
      standardUncertainty: number,
      /** null: infinite. */
      degreesOfFreedom: number.nullable().optional(),
      /** "valve", "figure", "history" (this unit's), "type" (other units of the type) and their combinations, "valve and history". */
      from: z.string(),
      adjustmentsUsed: z.number().int().nonnegative(),
    })
    .nullable(),
  /** What would hit the target exactly; null where no sensitivity is known. */
  change_mm: number.nullable(),
  change_turns: number.nullable().optional(),
  /** Best first. */
  options: z.array(adviceOption).max(5),
  heldBack: z.strictObject({ code: z.enum(heldBackCodes), text: z.string() }).nullable(),
  /** How good earlier changes were predicted: found less predicted, in the unit of the operating pressure. */
  earlier: z
    .array(
      z.strictObject({
        date: z.string().optional(),
        change_mm: number,
        predicted: number,
        standardUncertainty: number,
        found: number,
        unit: pressureUnit,
        outlier: z.boolean(),
        /** Of another unit of the type. */
        serial: z.string().optional(),
        /** The prediction is the one that was kept when it was advised; else it is what everything known but this change tells of it. */
        kept: z.boolean().optional(),
        /** Test and re-test are not like for like: in what. */
        notAlike: z.string().optional(),
      }),
    )
    .optional(),
  /** Found less predicted over `earlier`. */
  earlierSummary: z
    .strictObject({
      changes: z.number().int(),
      /** Found further away than twice its standard uncertainty. */
      outside: z.number().int(),
      meanDifference: number,
      /** Sample standard deviation of the differences; null from one change. */
      standardDeviation: number.nullable(),
      unit: pressureUnit,
    })
    .nullable()
    .optional(),
  cautions: z.array(z.string()),
  remarks,
});
export type Advice = z.infer<typeof adviceSchema>;
