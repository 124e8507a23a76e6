import { describe, expect, it } from 'vitest';
import { problemSentence } from '#formats/problem.ts';
import { readTable } from '#log/read-table.ts';
import { checkGauge } from '#relief/check-gauge.ts';
import { gaugeReadingsOf } from '#relief/gauge-table.ts';

function table(text: string): Parameters<typeof gaugeReadingsOf>[0] {
  const result = readTable(new TextEncoder().encode(text), { fileName: 'readings.csv' });
  if (!result.ok) throw new Error(result.problems.map(problemSentence).join());
  return result.value;
}

describe('a table as a shop writes it', () => {
  it('unit in the heading, with directions', () => {
    const found = gaugeReadingsOf(
      table(
        'reference (psi),reading (psi),direction\n0,1,up\n100,102,up\n200,203,up\n200,204,down\n100,103,down\n0,1,down\n',
      ),
      'readings.csv',
    );
    if (!found.ok) throw new Error(found.problems.map(problemSentence).join());
    expect(found.value).toEqual({
      unit: 'psi',
      reference: [0, 100, 200, 200, 100, 0],
      reading: [1, 102, 203, 204, 103, 1],
      direction: ['up', 'up', 'up', 'down', 'down', 'down'],
    });
    const check = checkGauge(found.value);
    expect(check.ok && check.value.hysteresis).toBe(1);
  });
  it('semicolons, decimal comma, the reference in another unit of its kind: taken to the unit of the gauge', () => {
    const found = gaugeReadingsOf(
      table('Reference [kPa];Reading [bar]\n0;0,01\n1000;10,02\n2000;20,01\n'),
      null,
    );
    expect(found.ok && found.value.reference.map((value) => Number(value.toFixed(9)))).toEqual([0, 10, 20]);
    expect(found.ok && found.value.reading).toEqual([0.01, 10.02, 20.01]);
    expect(found.ok && found.value.unit).toBe('bar');
  });
});
describe('refused with a sentence', () => {
  it.each([
    ['reference (psi),other (psi)\n0,1\n1,2\n', 'needs the columns reference and reading'],
    ['a (psi),reading (psi)\n0,1\n1,2\n', 'it has "a (psi)", "reading (psi)"'],
    ['reference,reading\n0,1\n1,2\n', 'names no unit'],
    ['reference (psi),reading (degC)\n0,1\n1,2\n', 'which cannot be compared'],
    ['reference (psi),reading (psi),direction\n0,1,up\n1,2,over\n', 'line 3: the direction "over"'],
    ['reference (psi),reading (psi)\n0,1\n1,NaN\n3,4\n', 'line 3: has no number for the reading'],
    ['reference (psi),reading (psi)\n0,1\n,2\n3,4\n', 'line 3: has no number for the reference'],
    ['reference (psi),reading (psi)\n0,1\n1e308,2\n3,4\n', 'line 3: holds a number that no gauge shows'],
  ])('%j', (text, said) => {
    const found = gaugeReadingsOf(table(text), 'readings.csv');
    expect(found.ok).toBe(false);
    if (!found.ok) expect(found.problems.map(problemSentence).join()).toContain(said);
  });
});
