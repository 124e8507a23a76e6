import { describe, expect, test } from 'vitest';
import { readTable } from '#log/read-table.ts';

const table = (text: string): ReturnType<typeof readTable> =>
  readTable(new TextEncoder().encode(text), { fileName: 'check.csv' });

describe('a small table without time', () => {
  test('columns, units and numbers', () => {
    const result = table(
      'Gauge check, G-07\n\nReference [psi],Reading [psi],Way\n0,0.5,up\n100.0,101.0,up\n200.0,,up\n# pause\n100.0,102.5,down\n',
    );
    if (!result.ok) throw new Error(JSON.stringify(result.problems));
    expect(result.value.columns.map(({ column, unit }) => [column, unit])).toEqual([
      ['Reference [psi]', 'psi'],
      ['Reading [psi]', 'psi'],
      ['Way', null],
    ]);
    expect(result.value.lines).toEqual([4, 5, 6, 8]);
    expect([...(result.value.columns[1]?.values ?? [])]).toEqual([0.5, 101, NaN, 102.5]);
    expect(result.value.columns[2]?.texts).toEqual(['up', 'up', 'up', 'down']);
    expect(result.value.skipped).toEqual([{ line: 7, reason: 'no number' }]);
  });
  test('decimal comma and a unit row', () => {
    const result = table('Soll;Ist\nbar;bar\n0;0,02\n10,5;10,61\n');
    if (!result.ok) throw new Error(JSON.stringify(result.problems));
    expect(result.value.columns.map(({ unit, values }) => [unit, [...values]])).toEqual([
      ['bar', [0, 10.5]],
      ['bar', [0.02, 10.61]],
    ]);
  });
  test('what is no table is refused', () => {
    const code = (text: string): string[] => {
      const result = table(text);
      return result.ok ? [] : result.problems.map((problem) => problem.code);
    };
    expect(code('')).toEqual(['empty-file']);
    expect(code(' \n')).toEqual(['empty-file']);
    expect(code('Reference,Reading\n')).toEqual(['no-readings']);
    expect(code('nothing to see here\nnor here\n')).toEqual(['no-table']);
  });
});
