import { z } from 'zod';
import { criterion, verdicts } from './assessment.ts';
import { judgeSchema } from './judge.ts';
import { roles } from './log.ts';
import { reliefSchema } from './relief.ts';
import { rigSchema } from './rig.ts';
import { isoDate, pressureUnit, text, unitName } from './shared-shapes.ts';
import { specSchema } from './spec.ts';
import { unitRecordSchema } from './unit-record.ts';

/** An instant as ISO 8601 with Z, "2026-03-04T08:15:00.000Z". */
const instant = z
  .string()
  .regex(/^\d{4}-\d{2}-\d{2}T\d{2}:\d{2}:\d{2}(\.\d+)?Z$/, 'an instant is written like 2026-03-04T08:15:00Z');
/** Safe as a file name on every system: letters, digits, hyphen; at most 64. */
export const bookId = z
  .string()
  .regex(/^[a-zA-Z0-9-]{1,64}$/, 'an id is made of letters, digits and hyphens');
const count = z.number().int().nonnegative();

/** What every entry of the book carries. */
const entry = {
  id: bookId,
  /** Rises by one with every change; a change made on an older one is refused, so that no edit is lost between two windows. */
  revision: z.number().int().positive(),
  changedAt: instant,
  /** In the bin since then; null: in the book. */
  removedAt: instant.nullable(),
};

/** One rebuilt unit: what the shop knows of it. */
export const bookUnit = z.strictObject({
  format: z.literal('overdrive-bench/book-unit'),
  version: z.literal(1),
  ...entry,
  record: unitRecordSchema,
  /** The day it left the shop; null: on the bench. */
  goneOutOn: isoDate.nullable(),
  /** Its relief as it is set now and what is known of it; the shims in stock are the shop's. */
  relief: reliefSchema.optional(),
});
export type BookUnit = z.infer<typeof bookUnit>;

/** One verdict on a run, by one version of the program. None is ever overwritten. */
export const keptAssessment = z.strictObject({
  programVersion: z.string(),
  decidedAt: instant,
  verdict: z.enum(verdicts),
  operatingPressure: z.number().nullable(),
  expandedUncertainty: z.number().nullable(),
  unit: pressureUnit,
  /** The limit that the verdict hangs on, for the list; null where no limit was given. */
  deciding: criterion.nullable().optional(),
  /** SHA-256 of the assessment file, as written. */
  sha256: z.string(),
  /** Place of the assessment file within the run's folder. */
  file: z.string(),
});
export type KeptAssessment = z.infer<typeof keptAssessment>;

/** One run: the log's bytes unchanged, what it was judged with, and every verdict on it. */
export const bookRun = z.strictObject({
  format: z.literal('overdrive-bench/book-run'),
  version: z.literal(1),
  ...entry,
  /** null: not yet given to a unit. */
  unitId: bookId.nullable(),
  kind: z.enum(['as-found', 'test', 're-test', 'aborted']),
  broughtInAt: instant,
  log: z.strictObject({
    fileName: z.string().nullable(),
    bytes: count,
    sha256: z.string(),
    start: z.string().nullable(),
    duration_s: z.number(),
    rows: count,
    /** Files of a run that came in parts; empty for one. */
    parts: z.array(
      z.strictObject({ fileName: z.string().nullable(), bytes: count, sha256: z.string(), file: z.string() }),
    ),
  }),
  /** As used, whole: a later change of the kept spec or rig never changes what was judged with the old one. */
  spec: specSchema.nullable(),
  rig: rigSchema.nullable(),
  judge: judgeSchema.nullable(),
  overrides: z.array(
    z.strictObject({ column: text, role: z.enum(roles).optional(), unit: unitName.optional() }),
  ),
  /** Oldest first; the last is the one that counts. */
  assessments: z.array(keptAssessment),
  note: z.string(),
  /** The run as a thin line for the list: at most 200 lowest–highest pairs in the judged unit, evenly over the log; null where nothing was recorded. */
  outline: z
    .strictObject({
      unit: pressureUnit,
      low: z.array(z.number().nullable()),
      high: z.array(z.number().nullable()),
    })
    .nullable(),
});
export type BookRun = z.infer<typeof bookRun>;

/** One change of the relief setting between two runs. */
export const bookAdjustment = z.strictObject({
  format: z.literal('overdrive-bench/book-adjustment'),
  version: z.literal(1),
  ...entry,
  unitId: bookId,
  date: isoDate,
  /** When it was noted: a run that came in later may be its re-test. */
  notedAt: instant.optional(),
  /** A screw has travel for shims: what it was turned out stands before, what it was turned in stands after. */
  before_mm: z.array(z.number().positive()),
  after_mm: z.array(z.number().positive()),
  /** Of a screw, positive in; left out for shims. */
  turns: z.number().optional(),
  by: z.string(),
  why: z.string(),
  runBefore: bookId.nullable(),
  /** null: waiting for the re-test. */
  runAfter: bookId.nullable(),
  predicted: z
    .strictObject({ value: z.number(), standardUncertainty: z.number(), unit: pressureUnit })
    .nullable(),
});
export type BookAdjustment = z.infer<typeof bookAdjustment>;

/** A spec or rig kept under a name; every version stays. */
export const keptSpec = z.strictObject({
  format: z.literal('overdrive-bench/book-spec'),
  version: z.literal(1),
  ...entry,
  versions: z.array(z.strictObject({ savedAt: instant, spec: specSchema })).min(1),
});
export type KeptSpec = z.infer<typeof keptSpec>;
export const keptRig = z.strictObject({
  format: z.literal('overdrive-bench/book-rig'),
  version: z.literal(1),
  ...entry,
  /** The header of the logs that this rig reads, by which it is recognised; null: not recognised by itself. */
  header: z.array(z.string()).nullable(),
  versions: z.array(z.strictObject({ savedAt: instant, rig: rigSchema })).min(1),
});
export type KeptRig = z.infer<typeof keptRig>;

/** The shop's own look and its shims in stock. */
export const bookShop = z.strictObject({
  format: z.literal('overdrive-bench/book-shop'),
  version: z.literal(1),
  ...entry,
  name: z.string(),
  address: z.string(),
  contact: z.string(),
  paper: z.enum(['a4', 'letter']),
  language: z.string(),
  /** Shims in the drawer, for every unit; `count` null: enough of them. */
  stock: z
    .array(
      z.strictObject({
        thickness_mm: z.number().positive(),
        count: z.number().int().nonnegative().nullable(),
      }),
    )
    .optional(),
});
export type BookShop = z.infer<typeof bookShop>;

export const bookEntry = z.discriminatedUnion('format', [
  bookUnit,
  bookRun,
  bookAdjustment,
  keptSpec,
  keptRig,
  bookShop,
]);
export type BookEntry = z.infer<typeof bookEntry>;
export type BookEntryFormat = BookEntry['format'];

/** What `book list` gives: the units of a book with their runs, newest last. */
export const bookSchema = z.strictObject({
  format: z.literal('overdrive-bench/book'),
  version: z.literal(1),
  units: z.array(
    z.strictObject({
      id: bookId,
      serial: z.string().nullable(),
      type: z.string().nullable(),
      customer: z.string().nullable(),
      goneOutOn: isoDate.nullable(),
      runs: z.array(
        z.strictObject({
          id: bookId,
          kind: z.string(),
          fileName: z.string().nullable(),
          start: z.string().nullable(),
          verdict: z.enum(verdicts).nullable(),
          operatingPressure: z.number().nullable(),
          expandedUncertainty: z.number().nullable(),
          unit: pressureUnit.nullable(),
        }),
      ),
    }),
  ),
  unassignedRuns: count,
});
export type BookListing = z.infer<typeof bookSchema>;
