import { z } from 'zod';
import { adviceSchema } from './advice.ts';
import { assessmentSchema, inspectionSchema } from './assessment.ts';
import { bookSchema } from './book.ts';
import { comparisonSchema } from './comparison.ts';
import { gaugeCheckSchema } from './gauge-check.ts';
import { judgeSchema } from './judge.ts';
import { recordDataSchema } from './record-data.ts';
import { adjustmentsSchema, reliefSchema } from './relief.ts';
import { rigSchema } from './rig.ts';
import { shopSchema } from './shop.ts';
import { specSchema } from './spec.ts';
import { unitRecordSchema } from './unit-record.ts';
import { verificationSchema } from './verification.ts';

/** Each of our JSON files by the name that the `schema` command takes. */
export const formatSchemas = {
  inspection: inspectionSchema,
  assessment: assessmentSchema,
  spec: specSchema,
  rig: rigSchema,
  judge: judgeSchema,
  relief: reliefSchema,
  adjustments: adjustmentsSchema,
  advice: adviceSchema,
  'gauge-check': gaugeCheckSchema,
  comparison: comparisonSchema,
  'unit-record': unitRecordSchema,
  shop: shopSchema,
  record: recordDataSchema,
  verification: verificationSchema,
  book: bookSchema,
} as const satisfies Record<string, z.ZodType>;
export type FormatName = keyof typeof formatSchemas;
export const formatNames: readonly string[] = Object.keys(formatSchemas);

/** Whether the `schema` command knows a format by this name. */
export const isFormatName = (name: string): name is FormatName => Object.hasOwn(formatSchemas, name);

/**
 * JSON Schema (draft 2020-12) of one of our files, from the same shapes that check it. Rules between fields (low below high, exactly one
 * size of uncertainty) are checked on reading and cannot be said in the schema.
 * Input files allow left-out keys, output files are described as written.
 */
export function jsonSchemaOf(name: FormatName): Record<string, unknown> {
  const { $schema, ...rest } = z.toJSONSchema(formatSchemas[name], { io: 'input' });
  return {
    $schema,
    title: `overdrive-bench ${name}, version 1`,
    ...rest,
  };
}
