import type { z } from 'zod';
import { jsonFault } from './json-fault.ts';
import { assessmentSchema, type Assessment } from './assessment.ts';
import { judgeSchema, type Judge } from './judge.ts';
import type { Problem, Result } from './problem.ts';
import { recordDataSchema, type RecordData } from './record-data.ts';
import { adjustmentsSchema, reliefSchema, type Adjustments, type Relief } from './relief.ts';
import { rigSchema, type Rig } from './rig.ts';
import { shopSchema, type Shop } from './shop.ts';
import { specSchema, type Spec } from './spec.ts';
import { unitRecordSchema, type UnitRecord } from './unit-record.ts';

/**
 * Reads one of our JSON files: text → JSON → format and version → shape. Every wrong key is named.
 * @param file name for the sentences, null for standard input
 */
function checkFile<T>(schema: z.ZodType<T>, expected: string, text: string, file: string | null): Result<T> {
  const json = text.replace(/^\uFEFF/, '');
  const fault = jsonFault(json);
  if (fault !== null) return { ok: false, problems: [{ code: 'not-json', file, ...fault }] };
  const data: unknown = JSON.parse(json);
  return checkData(schema, expected, data, file);
}

/** The same for data that is already parsed (a stored row, a message). */
export function checkData<T>(
  schema: z.ZodType<T>,
  expected: string,
  data: unknown,
  file: string | null,
): Result<T> {
  const format =
    typeof data === 'object' && data !== null && 'format' in data && typeof data.format === 'string'
      ? data.format
      : null;
  if (format !== expected)
    return { ok: false, problems: [{ code: 'wrong-format', file, expected, found: format }] };
  const checked = schema.safeParse(data);
  if (checked.success) return { ok: true, value: checked.data };
  const problems = checked.error.issues
    .flatMap((issue) => innermost(issue, []))
    .map(({ issue, path }): Problem => {
      const place = pathText(path);
      if (issue.code === 'unrecognized_keys')
        return {
          code: 'bad-field',
          file,
          path: issue.keys.map((key) => (place === '' ? key : `${place}.${key}`)).join(', '),
          reason: 'is not a key of this file; remove it or correct its spelling',
        };
      return { code: 'bad-field', file, path: place === '' ? 'the file' : place, reason: complaint(issue) };
    });
  return { ok: false, problems };
}

type Issue = z.core.$ZodIssue;
type Path = readonly PropertyKey[];

/**
 * Where a value may have one of several shapes, the complaints of the shape that it comes nearest to: the one that does not already
 * refuse its kind, and of those the one with the fewest complaints.
 */
function innermost(issue: Issue, above: Path): { issue: Issue; path: Path }[] {
  const path = [...above, ...issue.path];
  if (issue.code !== 'invalid_union' || issue.errors.length === 0) return [{ issue, path }];
  const kindFits = (issues: readonly Issue[]): boolean =>
    !issues.some((each) => each.code === 'invalid_type' && each.path.length === 0);
  const nearest = [...issue.errors].sort(
    (a, b) => Number(kindFits(b)) - Number(kindFits(a)) || a.length - b.length,
  )[0];
  return (nearest ?? []).flatMap((each) => innermost(each, path));
}

/** "channels[0].unit" */
function pathText(path: Path): string {
  return path
    .map((step, index) =>
      typeof step === 'number' ? `[${step}]` : index === 0 ? String(step) : `.${String(step)}`,
    )
    .join('');
}

/** What is wrong with a field and what would be right, as the end of a sentence that begins with the field. */
function complaint(issue: Issue): string {
  switch (issue.code) {
    case 'invalid_type':
      return issue.message.endsWith('received undefined')
        ? `is missing; ${anExample(issue.expected)} is expected`
        : `must be ${anExample(issue.expected)}`;
    case 'invalid_value':
      return issue.values.length === 1
        ? `must be ${JSON.stringify(issue.values[0])}`
        : `must be one of ${issue.values.map((value) => String(value)).join(', ')}`;
    case 'too_small':
      return issue.origin === 'string'
        ? 'must not be empty'
        : `must be ${issue.inclusive === true ? 'at least' : 'more than'} ${issue.minimum}`;
    case 'too_big':
      return issue.origin === 'array'
        ? `may have at most ${issue.maximum} entries`
        : `must be ${issue.inclusive === true ? 'at most' : 'less than'} ${issue.maximum}${issue.maximum === 1 ? ' (a share: 0.98 stands for 98 %)' : ''}`;
    default:
      return issue.message;
  }
}

function anExample(kind: string): string {
  if (kind === 'int') return 'a whole number';
  if (kind === 'array') return 'a list [ … ]';
  if (kind === 'object') return 'an object { … }';
  return kind === 'string' ? 'a text in quotes' : kind === 'boolean' ? 'true or false' : `a ${kind}`;
}

/** Reads a spec file; problems name every wrong key. */
export const readSpec = (text: string, file: string | null): Result<Spec> =>
  checkFile(specSchema, 'overdrive-bench/spec', text, file);
/** Reads a rig file. */
export const readRig = (text: string, file: string | null): Result<Rig> =>
  checkFile(rigSchema, 'overdrive-bench/rig', text, file);
/** Reads a file of hand-made choices. */
export const readJudge = (text: string, file: string | null): Result<Judge> =>
  checkFile(judgeSchema, 'overdrive-bench/judge', text, file);
/** Reads a unit record. */
export const readUnitRecord = (text: string, file: string | null): Result<UnitRecord> =>
  checkFile(unitRecordSchema, 'overdrive-bench/unit-record', text, file);
/** Reads a relief file. */
export const readRelief = (text: string, file: string | null): Result<Relief> =>
  checkFile(reliefSchema, 'overdrive-bench/relief', text, file);
/** Reads a trail of adjustments. */
export const readAdjustments = (text: string, file: string | null): Result<Adjustments> =>
  checkFile(adjustmentsSchema, 'overdrive-bench/adjustments', text, file);
/** Reads an assessment that was written before. */
export const readAssessment = (text: string, file: string | null): Result<Assessment> =>
  checkFile(assessmentSchema, 'overdrive-bench/assessment', text, file);
/** Reads what a record was made from (`record.json` within it). */
export const readRecordData = (text: string, file: string | null): Result<RecordData> =>
  checkFile(recordDataSchema, 'overdrive-bench/record', text, file);
/** Reads how a shop's records look. */
export const readShop = (text: string, file: string | null): Result<Shop> =>
  checkFile(shopSchema, 'overdrive-bench/shop', text, file);
