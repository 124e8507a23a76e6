import { z } from 'zod';

export const recordCheckIds = [
  'log',
  'named-log',
  'limits-and-bench',
  'assessment',
  'first-test-log',
  'first-test-assessment',
  'printed',
  'file',
] as const;
export type RecordCheckId = (typeof recordCheckIds)[number];

const difference = z.strictObject({
  /** A file of the record, a place within one ("assessment.json: criteria[0].value"), a page. */
  where: z.string(),
  recorded: z.string().nullable(),
  found: z.string().nullable(),
});
export type RecordDifference = z.infer<typeof difference>;

export const recordCheck = z.strictObject({
  id: z.enum(recordCheckIds),
  result: z.enum(['agrees', 'differs', 'not-checked']),
  differences: z.array(difference),
  /** Differences that were found beyond those listed. */
  more: z.number().int().nonnegative(),
  /** Of what could not be checked: why. */
  reason: z.string().optional(),
});
export type RecordCheck = z.infer<typeof recordCheck>;

/** What came of holding a record against its own log (`verify`). */
export const verificationSchema = z.strictObject({
  format: z.literal('overdrive-bench/verification'),
  version: z.literal(1),
  program: z.strictObject({ version: z.string() }),
  record: z.strictObject({
    fileName: z.string().nullable(),
    recordNumber: z.string().nullable(),
    issuedOn: z.string().nullable(),
    serial: z.string().nullable(),
    verdict: z.string().nullable(),
    /** Version of the program that made it. */
    madeBy: z.string(),
  }),
  /** true: everything agrees; false: something does not; null: nothing does not, but not all could be checked. */
  agrees: z.boolean().nullable(),
  checks: z.array(recordCheck),
});
export type Verification = z.infer<typeof verificationSchema>;

/** What each check holds against what. */
export const recordSubjects: Readonly<Record<RecordCheckId, string>> = {
  log: 'The log in the record has the hash that was recorded',
  'named-log': 'The log that you named is the one of the record',
  'limits-and-bench': 'Limits, bench and all else that is attached',
  assessment: 'The assessment is what the log gives',
  'first-test-log': 'The log of the first test',
  'first-test-assessment': 'The assessment of the first test is what its log gives',
  printed: 'What is printed is what the log gives',
  file: 'The file is the one that this program wrote, byte for byte',
};

/** "page 1: it says 412.3 psi, its log gives 410.9 psi" */
export function recordDifferenceSentence({ where, recorded, found }: RecordDifference): string {
  if (recorded === null) return found === null ? `${where}: missing` : `${where}: lacks ${found}`;
  return found === null ? `${where}: ${recorded}` : `${where}: it says ${recorded}, its log gives ${found}`;
}
