import { z } from 'zod';
import { roles } from './log.ts';
import { isoDate, text, unitName } from './shared-shapes.ts';
import { unitRecordSchema } from './unit-record.ts';

/** Sections of sheet 2 that a shop may leave out. What bears on the verdict (criteria, readings set aside, deviations, concession, cautions, release) always stays. */
export const leavableSections = ['budget', 'work', 'instruments', 'method', 'relief', 'later'] as const;
export type LeavableSection = (typeof leavableSections)[number];
export const papers = ['a4', 'letter'] as const;
export type Paper = (typeof papers)[number];

/** Units that a shop may have its records in; left out: those of the limits and the log. */
export const recordPressureUnits = ['psi', 'bar', 'kPa', 'kgf/cm2'] as const;
export const recordTemperatureUnits = ['degC', 'degF'] as const;
export const recordUnitsSchema = z.strictObject({
  pressure: z.enum(recordPressureUnits).optional(),
  temperature: z.enum(recordTemperatureUnits).optional(),
});
export type RecordUnits = z.infer<typeof recordUnitsSchema>;

const correctedColumns = z.array(
  z.strictObject({ column: text, role: z.enum(roles).optional(), unit: unitName.optional() }),
);

/** Files of one test within the record, by the names that they have there. */
const testFiles = z.strictObject({
  /** In the order in which they were read; a part that was read twice stands twice. */
  logs: z.array(text),
  assessment: text,
});

/**
 * What a record was made from beside log and assessment, kept within it (`record.json`), so that it can be made again and compared:
 * what the shop knows of the unit, and how the record was to look.
 */
export const recordDataSchema = z.strictObject({
  format: z.literal('overdrive-bench/record'),
  version: z.literal(1),
  date: isoDate.nullable(),
  paper: z.enum(papers),
  language: text,
  leaveOut: z.array(z.enum(leavableSections)),
  /** Units that it shows, where the shop chose them. */
  units: recordUnitsSchema.optional(),
  unitRecord: unitRecordSchema.nullable(),
  /** Roles and units of columns that were corrected by hand when the log was read. */
  columns: correctedColumns,
  files: testFiles,
  /** The test before an adjustment. */
  firstTest: testFiles
    .extend({
      /** As above, of the first test's log; left out: none. */
      columns: correctedColumns.optional(),
    })
    .nullable(),
  logo: text.nullable(),
});
export type RecordData = z.infer<typeof recordDataSchema>;
