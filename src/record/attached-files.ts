import { writeJson } from '#formats/number.ts';
import type { LeavableSection, RecordData } from '#formats/record-data.ts';
import type { UnitRecord } from '#formats/unit-record.ts';
import { logoMediaType } from './logo.ts';
import type { RecordInput, RecordedTest } from './record-input.ts';

/** A file within the record. */
export interface RecordFile {
  name: string;
  bytes: Uint8Array;
  type: string;
  relationship: 'Source' | 'Data' | 'Supplement';
  description: string;
}

/** Name of the file that says what the record was made from; no other file of a record can have it. */
export const DATA_FILE = 'record.json';

/** Every file that goes into a record, under names that differ: what it was made from first, then each test's log and assessment. */
export function attachedFiles(input: RecordInput): RecordFile[] {
  const files: RecordFile[] = [];
  const names = new Set([DATA_FILE]);
  const add = (name: string, file: Omit<RecordFile, 'name'>): string => {
    let own = name;
    for (let count = 2; names.has(own); count++) own = name.replace(/(\.[^.]*)?$/, `-${count}$1`);
    names.add(own);
    files.push({ name: own, ...file });
    return own;
  };
  const json = (data: unknown, relationship: RecordFile['relationship'], description: string) => ({
    bytes: new TextEncoder().encode(writeJson(data)),
    type: 'application/json',
    relationship,
    description,
  });
  const test = ({ assessment, logs }: RecordedTest, prefix: string): RecordData['files'] => {
    const known: { bytes: Uint8Array; file: string }[] = [];
    const own = logs.map(({ fileName, bytes }) => {
      // A part that was given twice is attached once.
      const same = known.find((other) => sameBytes(other.bytes, bytes));
      const file =
        same?.file ??
        add(fileName, {
          bytes,
          type: typeOf(fileName),
          relationship: 'Source',
          description: 'Log as imported',
        });
      known.push({ bytes, file });
      return file;
    });
    const name = add(`${prefix}assessment.json`, json(assessment, 'Data', 'Assessment of the log'));
    if (assessment.spec) add(`${prefix}spec.json`, json(assessment.spec, 'Supplement', 'Limits as used'));
    if (assessment.rig)
      add(`${prefix}rig.json`, json(assessment.rig, 'Supplement', 'Bench and gauges as used'));
    return { logs: own, assessment: name };
  };
  const own = test(input, '');
  const { earlier } = input;
  const firstTest = earlier
    ? {
        ...test(earlier, 'first-test-'),
        ...(earlier.columns?.length ? { columns: [...earlier.columns] } : {}),
      }
    : null;
  const { logo } = input;
  const picture = logo
    ? add(`logo.${logo.kind === 'jpeg' ? 'jpg' : logo.kind}`, {
        bytes: logo.bytes,
        type: logoMediaType(logo),
        relationship: 'Supplement',
        description: "The shop's logo",
      })
    : null;
  const leaveOut = [...(input.leaveOut ?? [])];
  const data: RecordData = {
    format: 'overdrive-bench/record',
    version: 1,
    date: input.date,
    paper: input.paper,
    language: input.language,
    leaveOut,
    ...namedUnits(input),
    unitRecord: input.unitRecord === null ? null : withoutLeftOut(input.unitRecord, leaveOut),
    columns: [...(input.columns ?? [])],
    files: own,
    firstTest,
    logo: picture,
  };
  return [{ name: DATA_FILE, ...json(data, 'Data', 'What the record was made from') }, ...files];
}

/** In one order, whoever named them: the same record has the same bytes. */
function namedUnits({ units }: RecordInput): Pick<RecordData, 'units'> {
  const { pressure, temperature } = units ?? {};
  return pressure === undefined && temperature === undefined
    ? {}
    : { units: { ...(pressure ? { pressure } : {}), ...(temperature ? { temperature } : {}) } };
}

/** What only a left-out section would print does not go out in the file either. */
export function withoutLeftOut(record: UnitRecord, leaveOut: readonly LeavableSection[]): UnitRecord {
  const rest: UnitRecord = { ...record };
  if (leaveOut.includes('work')) {
    delete rest.workDone;
    delete rest.partsRenewed;
    delete rest.notes;
    delete rest.warranty;
    if (rest.unit) {
      rest.unit = { ...rest.unit };
      delete rest.unit.condition;
    }
    if (rest.asFound) {
      rest.asFound = { ...rest.asFound };
      delete rest.asFound.notes;
    }
  }
  if (leaveOut.includes('instruments')) delete rest.instruments;
  return rest;
}

const typeOf = (fileName: string): string =>
  /\.xlsx$/i.test(fileName)
    ? 'application/vnd.openxmlformats-officedocument.spreadsheetml.sheet'
    : 'text/csv';

function sameBytes(a: Uint8Array, b: Uint8Array): boolean {
  if (a === b) return true;
  return a.length === b.length && a.every((byte, index) => byte === b[index]);
}
