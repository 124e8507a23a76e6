import fc from 'fast-check';
import { expect, test } from 'vitest';
import { setAsideKind, setAsideOf, type SetAsideRun } from '../../src/app/chart/set-aside-runs.ts';
import type { Series } from '../../src/formats/series.ts';

/** A stretch of equal flags: mostly kept ones, long and short. */
const stretch = fc.record({
  flag: fc.oneof({ weight: 3, arbitrary: fc.constant(0) }, fc.integer({ min: 1, max: 5 })),
  rows: fc.oneof(fc.integer({ min: 1, max: 3 }), fc.integer({ min: 1, max: 40 })),
});

/** Row by row. */
function plainly(flags: Uint8Array, time_s: Float64Array, channel: 'pressure' | 'oil'): SetAsideRun[] {
  const runs: SetAsideRun[] = [];
  flags.forEach((flag, row) => {
    const kind = setAsideKind(flag),
      last = runs.at(-1);
    if (kind === null) return;
    const here = time_s[row] ?? NaN;
    if (last?.to === row && last.kind === kind) Object.assign(last, { to: row + 1, end_s: here });
    else runs.push({ channel, kind, from: row, to: row + 1, start_s: here, end_s: here });
  });
  return runs;
}

test('what was set aside is found as row by row, wherever the flags lie in memory', () => {
  let found = 0;
  fc.assert(
    fc.property(
      fc.array(stretch, { maxLength: 30, size: 'max' }),
      fc.array(stretch, { maxLength: 30, size: 'max' }),
      fc.nat({ max: 9 }),
      (first, second, offset) => {
        const flagsOf = (stretches: typeof first, rows: number): Uint8Array => {
          const flags = new Uint8Array(new ArrayBuffer(rows + offset + 8), offset, rows);
          let row = 0;
          for (const { flag, rows: count } of stretches) flags.fill(flag, row, (row += count));
          return flags;
        };
        const rowsOf = (stretches: typeof first): number =>
          stretches.reduce((sum, { rows }) => sum + rows, 0);
        const rows = Math.max(rowsOf(first), rowsOf(second));
        const time_s = Float64Array.from({ length: rows }, (_, row) => row / 4);
        const values = new Float64Array(rows);
        const pressure = flagsOf(first, rows),
          oil = flagsOf(second, rows);
        const runs = setAsideOf({
          time_s,
          pressure: { values, flags: pressure, smoothed: values },
          oil: { values, flags: oil, smoothed: values },
        } as unknown as Series);
        const plain = [...plainly(pressure, time_s, 'pressure'), ...plainly(oil, time_s, 'oil')];
        expect(runs).toEqual(plain.sort((a, b) => a.from - b.from));
        found += runs.length;
      },
    ),
    { numRuns: 500 },
  );
  expect(found).toBeGreaterThan(1000);
});
