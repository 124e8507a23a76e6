import { z } from 'zod';
import { isoDate, positive, pressureUnit } from './shared-shapes.ts';

export const pressureReading = z.strictObject({
  value: z.number(),
  unit: pressureUnit,
  standardUncertainty: z.number().nonnegative().optional(),
});
/** One change of the relief setting: shims before and after, and what the pressure did. */
export const adjustment = z.strictObject({
  date: isoDate.optional(),
  before_mm: z.array(positive),
  after_mm: z.array(positive),
  pressureBefore: pressureReading,
  pressureAfter: pressureReading,
  by: z.string().optional(),
  why: z.string().optional(),
  verdictBefore: z.enum(['pass', 'fail', 'undecided', 'not-assessed']).optional(),
});
export type Adjustment = z.infer<typeof adjustment>;

/** What the shop knows of the unit and its test (contract, "Unit record"). What is missing is left out of the record, never filled in. */
export const unitRecordSchema = z.strictObject({
  format: z.literal('overdrive-bench/unit-record'),
  version: z.literal(1),
  recordNumber: z.string().optional(),
  /** A corrected record says which one it replaces, and why. */
  replaces: z.strictObject({ recordNumber: z.string(), reason: z.string() }).optional(),
  shop: z
    .strictObject({
      name: z.string().optional(),
      address: z.string().optional(),
      contact: z.string().optional(),
    })
    .optional(),
  customer: z.string().optional(),
  unit: z
    .strictObject({
      serial: z.string().optional(),
      type: z.string().optional(),
      receivedOn: isoDate.optional(),
      condition: z.string().optional(),
      complaint: z.string().optional(),
    })
    .optional(),
  oil: z
    .strictObject({
      grade: z.string().optional(),
      quantity_l: positive.optional(),
      leftIn: z.boolean().optional(),
    })
    .optional(),
  shaftSpeed: z.string().optional(),
  ambient: z.string().optional(),
  workDone: z.array(z.string()).optional(),
  partsRenewed: z.array(z.string()).optional(),
  builtBy: z.string().optional(),
  testedBy: z.string().optional(),
  testedOn: isoDate.optional(),
  issuedOn: isoDate.optional(),
  instruments: z
    .array(
      z.strictObject({
        name: z.string(),
        identification: z.string().optional(),
        calibratedOn: isoDate.optional(),
        dueOn: isoDate.optional(),
        certificate: z.string().optional(),
      }),
    )
    .optional(),
  setting: z.strictObject({ shims_mm: z.array(positive).optional() }).optional(),
  asFound: z
    .strictObject({
      pressure: pressureReading.optional(),
      shims_mm: z.array(positive).optional(),
      notes: z.string().optional(),
    })
    .optional(),
  adjustments: z.array(adjustment).optional(),
  releasedBy: z.string().optional(),
  releasedOn: isoDate.optional(),
  concession: z.strictObject({ reason: z.string(), agreedBy: z.string(), on: isoDate }).optional(),
  warranty: z.string().optional(),
  notes: z.string().optional(),
});
export type UnitRecord = z.infer<typeof unitRecordSchema>;
