import { describe, expect, it } from 'vitest';
import { problemSentence, type Problem } from '#formats/problem.ts';

const problems: Problem[] = [
  { code: 'empty-file', file: 'run.csv' },
  { code: 'no-table', file: 'run.csv', reason: 'it holds binary data' },
  { code: 'no-readings', file: 'run.csv' },
  { code: 'no-usable-time', file: 'run.csv', line: null, text: null },
  {
    code: 'no-usable-time',
    file: 'run.csv',
    line: null,
    text: '8.15',
    column: 'Time',
    reason: 'numbers that may be hours and minutes as well as hours',
  },
  { code: 'no-usable-time', file: 'run.csv', line: 12, text: '25:61' },
  { code: 'file-not-readable', file: 'run.csv', reason: 'no such file' },
  { code: 'output-not-writable', file: 'run.csv', reason: 'the disk is full' },
  { code: 'no-pressure-column', file: 'run.csv', columns: ['Oil', 'rpm'] },
  { code: 'several-pressure-columns', file: 'run.csv', columns: ['P1', 'P2'] },
  { code: 'role-used-twice', file: 'run.csv', role: 'pressure', columns: ['P1', 'P2'] },
  { code: 'pressure-without-unit', file: 'run.csv', column: 'P', median: 411 },
  { code: 'unit-of-wrong-kind', file: 'run.csv', column: 'P', unit: 'degC', role: 'pressure' },
  { code: 'signal-of-wrong-kind', file: 'run.csv', column: 'U (V)', unit: 'V', signal: '4-20mA' },
  { code: 'column-not-in-log', file: 'run.csv', column: 'P9', columns: ['P1'] },
  { code: 'not-json', file: 'run.csv', line: 3, reason: 'unexpected end' },
  { code: 'wrong-format', file: 'run.csv', expected: 'overdrive-bench/spec', found: null },
  { code: 'bad-field', file: 'run.csv', path: 'drift.atMost', reason: 'must be more than 0' },
  { code: 'bad-band', text: '400', reason: 'the unit is missing' },
  { code: 'judge-refused', choice: 0, reason: 'it would leave less than 10 min of hold' },
  { code: 'no-book', place: 'shop', reason: 'the folder is empty' },
  { code: 'cancelled' },
];
const facts = (problem: Problem): string[] =>
  Object.entries(problem).flatMap(([key, value]) =>
    key === 'code' || key === 'choice' || value === null
      ? []
      : Array.isArray(value)
        ? value
        : [String(value)],
  );

describe.each(problems.map((problem) => [problem.code, problem] as const))('%s', (_, problem) => {
  it('says what, where and what would mend it, in whole sentences', () => {
    const sentence = problemSentence(problem);
    for (const fact of facts(problem)) expect(sentence).toContain(fact);
    expect(sentence).toMatch(/[.]$/);
    expect(sentence).not.toMatch(/undefined|null|NaN|\[object|\n/);
  });
});
it('names the form of a time that cannot be read', () => {
  expect(
    problemSentence({
      code: 'no-usable-time',
      file: 'run.csv',
      line: null,
      text: '8.15',
      column: 'Time',
      reason: 'numbers that may be hours and minutes as well as hours',
    }),
  ).toBe(
    'run.csv has no column that can be read as time: "Time" holds numbers that may be hours and minutes as well as hours ("8.15"). Name the column of the time and its form in a rig file ("time": { "column": …, "form": … }), or give "interval_s" there if each row is one sample.',
  );
});
it('speaks of the input where there is no file name', () => {
  expect(problemSentence({ code: 'empty-file', file: null })).toBe(
    'The input is empty. Export the run again and bring that file in.',
  );
});
