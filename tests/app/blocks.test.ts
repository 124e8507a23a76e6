import fc from 'fast-check';
import { expect, test } from 'vitest';
import { blocksOf, extentOf } from '../../src/drawing/blocks.ts';
import { firstRowFrom, nearestRow, stretchesOf } from '../../src/app/chart/rows.ts';

const reading = fc.oneof({ weight: 6, arbitrary: fc.integer({ min: -500, max: 500 }) }, fc.constant(NaN));

test('lowest and highest of any rows are those of looking at each row', () => {
  fc.assert(
    fc.property(
      fc.array(fc.tuple(reading, fc.integer({ min: 0, max: 5 })), {
        minLength: 1,
        maxLength: 3000,
        size: 'max',
      }),
      fc.nat(),
      fc.nat(),
      (rows, a, b) => {
        const values = Float64Array.from(rows, ([value]) => value);
        // Most readings are kept.
        const flags = Uint8Array.from(rows, ([, flag]) => (flag > 3 ? flag : 0));
        const from = Math.min(a, b) % rows.length,
          to = from + (Math.max(a, b) % (rows.length - from + 1));
        const kept = values
          .slice(from, to)
          .filter((value, index) => !Number.isNaN(value) && flags[from + index] === 0);
        const extent = { lowest: 0, highest: 0 };
        expect(extentOf(blocksOf(values, flags), from, to, extent)).toBe(kept.length > 0);
        if (kept.length > 0)
          expect(extent).toEqual({ lowest: Math.min(...kept), highest: Math.max(...kept) });
      },
    ),
    { numRuns: 300 },
  );
});

test('the row nearest to an instant is the one found by looking at each', () => {
  fc.assert(
    fc.property(
      fc.array(fc.integer({ min: 0, max: 20 }), { minLength: 1, maxLength: 60 }),
      fc.integer({ min: -10, max: 700 }),
      (steps, at_s) => {
        let t = 0;
        const time_s = Float64Array.from(steps, (step) => (t += step));
        const away = (row: number): number => Math.abs((time_s[row] ?? NaN) - at_s);
        const least = Math.min(...Array.from(time_s, (_, row) => away(row)));
        expect(away(nearestRow(time_s, at_s))).toBe(least);
        const first = time_s.findIndex((time) => time >= at_s);
        expect(firstRowFrom(time_s, at_s)).toBe(first < 0 ? time_s.length : first);
      },
    ),
  );
});

test('rows are parted at the gaps and nowhere else', () => {
  const time_s = Float64Array.from([0, 1, 2, 60, 61, 200, 201]);
  const gaps = [
    { start_s: 2, end_s: 60 },
    { start_s: 61, end_s: 200 },
  ];
  expect(stretchesOf(time_s, gaps)).toEqual([
    { from: 0, to: 3 },
    { from: 3, to: 5 },
    { from: 5, to: 7 },
  ]);
});
