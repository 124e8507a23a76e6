import { expect, test } from 'vitest';
import { beforeIssue } from '#formats/before-issue.ts';
import { madeRun } from './made-run.ts';
import { concession, fullUnitRecord } from './unit-records.ts';

const { assessment } = madeRun({ interval_s: 20 });
const codes = (...given: Parameters<typeof beforeIssue>): string[] =>
  beforeIssue(...given).map(({ code }) => code);
const rig = {
  format: 'overdrive-bench/rig' as const,
  version: 1 as const,
  name: 'Bench 1',
  channels: [
    {
      column: 'P',
      role: 'pressure' as const,
      unit: 'psi' as const,
      uncertainty: { absolute: 1, distribution: 'rectangular' as const },
      identification: 'G-07',
      calibratedOn: '2026-01-20',
      dueOn: '2027-01-20',
    },
  ],
};
const whole = { ...assessment, rig };

test('a record that lacks nothing is told nothing', () => {
  expect(codes(whole, fullUnitRecord, '2026-03-06')).toEqual([]);
});
test('what nobody said is listed, the gravest first', () => {
  expect(codes({ ...assessment, rig: null }, null, null)).toEqual([
    'no-gauge-uncertainty',
    'no-calibration-date',
    'no-serial',
    'no-record-number',
    'no-day-of-issue',
    'no-customer',
    'no-shop',
    'oil-not-said',
    'nobody-released',
  ]);
});
test('a calibration that was over on the day of the test, by name', () => {
  const late = { ...rig, channels: rig.channels.map((channel) => ({ ...channel, dueOn: '2026-03-03' })) };
  const [found] = beforeIssue({ ...assessment, rig: late }, fullUnitRecord, '2026-03-06');
  expect(found?.code).toBe('calibration-over');
  expect(found?.text).toContain('G-07 (due 2026-03-03)');
});
test('an open verdict, a fail without a concession, and one with it', () => {
  expect(codes({ ...whole, verdict: 'undecided' }, fullUnitRecord, '2026-03-06')).toEqual(['verdict-open']);
  expect(codes({ ...whole, verdict: 'fail' }, fullUnitRecord, '2026-03-06')).toEqual([
    'fail-without-concession',
  ]);
  expect(codes({ ...whole, verdict: 'fail' }, { ...fullUnitRecord, concession }, '2026-03-06')).toEqual([]);
});

test('dates that do not fit together, each pair by name', () => {
  const found = beforeIssue(
    { ...whole, log: { ...whole.log, start: '2026-03-05T08:00:00' } },
    {
      ...fullUnitRecord,
      unit: { ...fullUnitRecord.unit, receivedOn: '2027-05-05' },
      testedOn: '2026-03-04',
      releasedOn: '2019-01-01',
      instruments: [{ name: 'Probe', calibratedOn: '2028-01-01', dueOn: '2027-01-01' }],
      concession: { ...concession, on: '2026-03-03' },
    },
    '2020-01-01',
  );
  expect(found.map(({ code }) => code)).toEqual(['dates-out-of-order']);
  for (const words of [
    'the log begins on 2026-03-05, the record says tested on 2026-03-04',
    'tested (2026-03-04) before received (2027-05-05)',
    'released (2019-01-01) before tested (2026-03-04)',
    'issued (2020-01-01) before tested (2026-03-04)',
    'concession agreed (2026-03-03) before tested (2026-03-04)',
    'Probe calibrated (2028-01-01) after the test (2026-03-04)',
    'Probe due (2027-01-01) before it was calibrated (2028-01-01)',
  ])
    expect(found[0]?.text).toContain(words);
});
test('dates on one day, or in their order, are nothing to tell', () => {
  expect(
    codes(
      whole,
      {
        ...fullUnitRecord,
        unit: { ...fullUnitRecord.unit, receivedOn: '2026-03-04' },
        testedOn: '2026-03-04',
        releasedOn: '2026-03-04',
      },
      '2026-03-04',
    ),
  ).toEqual([]);
});
