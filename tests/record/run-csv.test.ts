import { expect, test } from 'vitest';
import { SetAside } from '#formats/log.ts';
import { runCsv, textCell } from '#record/run-csv.ts';
import { madeRun } from './made-run.ts';

const whole = (run: ReturnType<typeof madeRun>): string[] =>
  [...runCsv(run.assessment, run.series)].join('').split('\r\n');

test('a row a reading: time, pressure as read and smoothed, why set aside, phase, other channels', () => {
  const run = madeRun({ hours: 0.5, interval_s: 1, warmAt_s: 600, spikes: [{ at_s: 900, value: 470 }] });
  const lines = whole(run);
  expect(lines[0]).toBe('elapsed_s,pressure_psi,smoothed_psi,set_aside,phase,Oil (degC)');
  expect(lines).toHaveLength(run.series.time_s.length + 2);
  expect(lines.at(-1)).toBe('');
  expect(lines[901]).toMatch(/^900,470,4\d\d\.\d+,spike,hold,\d/);
  expect(lines[1]).toMatch(/^0,-?[\d.]+,-?[\d.]+,,idle,/);
  expect(lines.slice(1, -1).every((line) => line.split(',').length === 6)).toBe(true);
});

test('a number comes back as the reading that it was, to 12 digits', () => {
  const run = madeRun({ hours: 0.1, interval_s: 1, warmAt_s: 60 });
  const lines = whole(run).slice(1, -1);
  lines.forEach((line, row) => {
    const [time, pressure] = line.split(',').map(Number);
    expect(time).toBe(run.series.time_s[row]);
    expect(pressure).toBe(Number((run.series.pressure?.values[row] ?? NaN).toPrecision(12)));
  });
});

test('a unit that the column names already is not named twice', () => {
  const run = madeRun({ hours: 0.1, warmAt_s: 60 });
  const { oil } = run.series;
  if (!oil) throw new Error('no oil');
  oil.column = 'oil [degC]';
  expect(whole(run)[0]).toMatch(/,oil \[degC\]$/);
});

test('no reading is an empty cell, never NaN', () => {
  const run = madeRun({ hours: 0.1, interval_s: 1, warmAt_s: 60 });
  const { pressure } = run.series;
  if (!pressure) throw new Error('no pressure');
  pressure.values[5] = NaN;
  pressure.smoothed[5] = NaN;
  pressure.flags[5] = SetAside.faultToken;
  expect(whole(run)[6]).toMatch(/^5,,,fault-token,/);
  expect(whole(run).join()).not.toContain('NaN');
});

test('a log without pressure still has its other columns', () => {
  const run = madeRun({ hours: 0.1, warmAt_s: 60 });
  expect(whole({ ...run, series: { ...run.series, pressure: null } })[0]).toBe('elapsed_s,phase,Oil (degC)');
});

test.each([
  ['=1+1', "'=1+1"],
  ['+x', "'+x"],
  ['-x', "'-x"],
  ['@x', "'@x"],
  ['a,b', '"a,b"'],
  ['say "x"', '"say ""x"""'],
  ['=a,"b"', '"\'=a,""b"""'],
  ['Oil', 'Oil'],
])('a text cell %s becomes %s', (text, cell) => {
  expect(textCell(text)).toBe(cell);
});
