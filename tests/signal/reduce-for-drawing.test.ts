import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { envelopeForDrawing, reduceForDrawing } from '#signal/reduce-for-drawing.ts';
import { madeColumn, tenths } from './made-log.ts';

const range = (
  column: { time_s: Float64Array },
  columns: number,
): Parameters<typeof reduceForDrawing>[2] => ({
  from: 0,
  to: column.time_s.length,
  start_s: column.time_s[0] ?? 0,
  end_s: (column.time_s.at(-1) ?? 0) + 1,
  columns,
});

describe('what a column shows', () => {
  it('is its first, lowest, highest and last reading, and none that was not there', () => {
    fc.assert(
      fc.property(madeColumn(tenths), fc.integer({ min: 1, max: 12 }), (made, columns) => {
        const view = { ...range(made, columns), gaps: made.gaps };
        const line = reduceForDrawing(made.time_s, made.values, view);
        const columnOf = (at: number): number =>
          Math.min(columns - 1, Math.floor(((at - view.start_s) / (view.end_s - view.start_s)) * columns));
        const all = new Map<number, number[]>();
        made.values.forEach((value, row) => {
          if (Number.isNaN(value)) return;
          const column = columnOf(made.time_s[row] ?? NaN);
          all.set(column, [...(all.get(column) ?? []), value]);
        });
        const shown = new Map<number, number[]>();
        line.values.forEach((value, i) => {
          if (Number.isNaN(value)) return;
          const column = columnOf(line.time_s[i] ?? NaN);
          shown.set(column, [...(shown.get(column) ?? []), value]);
          expect(made.values[made.time_s.indexOf(line.time_s[i] ?? NaN)]).toBe(value);
        });
        expect([...shown.keys()]).toEqual([...all.keys()]);
        const { lowest, highest } = envelopeForDrawing(made.time_s, made.values, view);
        for (const [column, list] of all) {
          const kept = shown.get(column) ?? [];
          expect([kept[0], kept.at(-1), Math.min(...kept), Math.max(...kept)]).toEqual([
            list[0],
            list.at(-1),
            Math.min(...list),
            Math.max(...list),
          ]);
          expect([lowest[column], highest[column]]).toEqual([Math.min(...list), Math.max(...list)]);
        }
        expect(Array.from(line.time_s)).toEqual(Array.from(line.time_s).toSorted((a, b) => a - b));
      }),
    );
  });
  it('a long log becomes at most four points a column', () => {
    const n = 100_000;
    const time_s = Float64Array.from({ length: n }, (_, i) => i);
    const values = Float64Array.from({ length: n }, (_, i) => (i * 7919) % 1000);
    const line = reduceForDrawing(time_s, values, { from: 0, to: n, start_s: 0, end_s: n, columns: 500 });
    expect(line.values.length).toBeLessThanOrEqual(2000);
    expect(Math.max(...line.values)).toBe(999);
  });
});

describe('breaks', () => {
  const draw = (values: number[], gaps: { start_s: number; end_s: number }[] = []): number[] =>
    Array.from(
      reduceForDrawing(
        Float64Array.from(values, (_, i) => i),
        Float64Array.from(values),
        { from: 0, to: values.length, start_s: 0, end_s: values.length, columns: 100, gaps },
      ).values,
    );
  it('one NaN for a run of missing readings, none before the first', () => {
    expect(draw([NaN, NaN, 1, 2, NaN, NaN, 3])).toEqual([1, 2, NaN, 3]);
  });
  it('one NaN at a gap', () => {
    expect(draw([1, 2, 3], [{ start_s: 1, end_s: 2 }])).toEqual([1, 2, NaN, 3]);
  });
  it('a part of the rows', () => {
    const line = reduceForDrawing(Float64Array.of(0, 1, 2, 3), Float64Array.of(5, 6, 7, 8), {
      from: 1,
      to: 3,
      start_s: 1,
      end_s: 3,
      columns: 50,
    });
    expect(Array.from(line.values)).toEqual([6, 7]);
  });
});
