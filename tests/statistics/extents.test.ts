import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { EXTENT_ROWS, Extents, extentsOf } from '#statistics/extents.ts';

/** A column of a few blocks: steps and stretches without a reading, as they come out of a seed. */
const column = fc
  .record({
    rows: fc.integer({ min: 0, max: 4 * EXTENT_ROWS }),
    levels: fc.array(fc.oneof(fc.integer({ min: -50, max: 50 }), fc.constant(NaN)), {
      minLength: 1,
      maxLength: 12,
    }),
    holes: fc.integer({ min: 2, max: 40 }),
  })
  .map(({ rows, levels, holes }) =>
    Float64Array.from({ length: rows }, (_, row) =>
      row % holes === 0 ? NaN : (levels[Math.floor((row / rows) * levels.length)] ?? NaN) + (row % 7) / 10,
    ),
  );

describe('extents of a column', () => {
  it('are those of a plain look at every row, for any rows', () => {
    fc.assert(
      fc.property(column, fc.array(fc.nat(4 * EXTENT_ROWS), { maxLength: 6 }), (values, borders) => {
        const rows = borders.map((border) => Math.min(border, values.length)).toSorted((a, b) => a - b);
        const pieces = rows.flatMap((from, i) => (i % 2 === 0 ? [{ from, to: rows[i + 1] ?? from }] : []));
        const readings = pieces.flatMap(({ from, to }) =>
          [...values.subarray(from, to)].filter((value) => !Number.isNaN(value)),
        );
        const least = readings.toSorted((a, b) => a - b);
        expect(new Extents(values).of(pieces)).toEqual(
          least.length === 0 ? null : { min: least[0], max: least.at(-1) },
        );
      }),
    );
  });
  it('are gone over block by block, with bounds for each', () => {
    fc.assert(
      fc.property(column, (values) => {
        const extents = extentsOf(values);
        expect(extentsOf(values)).toBe(extents);
        let next = 3;
        extents.inBlocks({ from: 3, to: values.length }, (from, to, block) => {
          expect(from).toBe(next);
          expect(to).toBeGreaterThan(from);
          for (const value of values.subarray(from, to)) {
            expect(value < extents.least(block) || value > extents.most(block)).toBe(false);
          }
          next = to;
        });
        expect(next).toBe(Math.max(3, values.length));
      }),
      { numRuns: 20 },
    );
  });
});
