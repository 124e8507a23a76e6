import { readdirSync, readFileSync } from 'node:fs';
import path from 'node:path';
import { describe, expect, test } from 'vitest';
import type { Channel, Log, SetAsideKind } from '#formats/log.ts';
import { SetAside } from '#formats/log.ts';
import { problemSentence, type Problem } from '#formats/problem.ts';
import { rigSchema, type Rig } from '#formats/rig.ts';
import { readLog } from '#log/read-log.ts';
import { readings, refusals, type Found } from './dialects-expected.ts';

const folder = path.join(import.meta.dirname, 'dialects');
const bytesOf = (file: string): Uint8Array => readFileSync(path.join(folder, file));
const bytesAsText = (file: string): string => readFileSync(path.join(folder, file), 'utf8');
const samples = readdirSync(folder).filter((file) => !file.startsWith('.') && file !== 'README.md');
const rigOf = (parts: Partial<Rig> | undefined): Rig | null =>
  parts === undefined
    ? null
    : rigSchema.parse({ format: 'overdrive-bench/rig', version: 1, name: 'test', ...parts });
const read = (file: string, rig: Partial<Rig> | undefined, name = file): ReturnType<typeof readLog> =>
  readLog(bytesOf(file), { fileName: name, rig: rigOf(rig), sha256: '' });

function logOf(file: string, rig: Partial<Rig> | undefined): Log {
  const result = read(file, rig);
  if (!result.ok) throw new Error(result.problems.map(problemSentence).join('\n'));
  return result.value;
}

const reasons = Object.entries(SetAside) as [SetAsideKind | 'kept', number][];
/** Kept readings as numbers, the others as why they are set aside. */
const spelled = ({ values, flags }: Channel): (number | string)[] =>
  Array.from(values, (value, i) => {
    const reason = reasons.find(([, flag]) => flag === flags[i])?.[0] ?? 'unknown';
    return reason === 'kept' ? value + 0 : reason;
  });

/** What the sample must show, taken from the log with only the keys that are expected. */
function shown(log: Log, expected: Found): Found {
  const all: Required<Found> = {
    rig: expected.rig ?? {},
    encoding: log.dialect.encoding,
    delimiter: log.dialect.delimiter,
    decimal: log.dialect.decimal,
    headerLine: log.dialect.headerLine,
    unitLine: log.dialect.unitLine,
    form: log.timeForm,
    start: log.start,
    time_s: [...log.time_s],
    median_s: log.medianInterval_s,
    gaps: log.gaps.map((gap) => [gap.start_s, gap.end_s]),
    steps: log.clockSteps,
    skipped: log.skippedRows.map(({ line, reason }) => `${line}: ${reason}`),
    timeColumns: log.timeColumns,
    remarks: log.remarks.map((remark) => remark.code),
    candidates: log.roleCandidates,
    channels: Object.fromEntries(
      log.channels.map((channel) => {
        const { role, unit, unitFrom, decimals, faultTokens } = channel;
        const wanted = expected.channels?.[channel.column] ?? {};
        const facts = {
          role,
          unit,
          unitFrom,
          decimals,
          tokens: faultTokens.map((f) => `${f.token}×${f.count}`),
          values: spelled(channel),
        };
        return [channel.column, Object.fromEntries(Object.entries(facts).filter(([key]) => key in wanted))];
      }),
    ),
  };
  return Object.fromEntries(Object.entries(all).filter(([key]) => key in expected));
}

describe('a sample of each dialect', () => {
  test.each(Object.entries(readings))('%s', (file, expected) => {
    expect(shown(logOf(file, expected.rig), expected)).toEqual(expected);
  });

  test.each(Object.entries(readings))('%s reads the same under a wrong name', (file, expected) => {
    const named = logOf(file, expected.rig);
    const result = read(file, expected.rig, 'photo.jpeg');
    if (!result.ok) throw new Error('refused under another name');
    expect({ ...result.value, source: null }).toEqual({ ...named, source: null });
  });

  test.each(Object.entries(readings))('%s gives the same log by papaparse alone', (file, expected) => {
    const options = { fileName: file, rig: rigOf(expected.rig), sha256: '' };
    const log = readLog(bytesOf(file), options);
    expect(readLog(bytesOf(file), options, 'papaparse')).toEqual(log);
    expect(readLog(bytesOf(file), options, 'script')).toEqual(log);
  });

  test('the table beside them names every sample, and none that is not there', () => {
    const named = [...bytesAsText('README.md').matchAll(/`([a-z0-9-]+(?:-[a-zA-Z]+)?\.(?:csv|txt))`/gu)].map(
      ([, name]) => name ?? '',
    );
    expect([...new Set(named)].toSorted()).toEqual(samples.toSorted());
  });

  test('no sample lies about unread', () => {
    const known = new Set([...Object.keys(readings), ...Object.keys(refusals)]);
    expect(samples.filter((file) => !known.has(file))).toEqual([]);
  });
});

describe('a sample of each file that is refused', () => {
  test.each(Object.entries(refusals))('%s', (file, expected) => {
    const result = read(file, expected.rig);
    const problems: Problem[] = result.ok ? [] : result.problems;
    expect(problems.map((problem) => problem.code)).toEqual([expected.code]);
    const sentence = problems.map(problemSentence).join('');
    expect(sentence).toContain(file);
    if (expected.saying !== undefined) expect(sentence).toContain(expected.saying);
  });
});
