import fc from 'fast-check';
import { expect, test, vi } from 'vitest';
import { blocksOf } from '../../src/drawing/blocks.ts';
import { columnsOf, Held, type Columns } from '../../src/app/chart/columns.ts';
import { LinePen } from '../../src/app/chart/line-pen.ts';
import { firstRowFrom, stretchesOf, type Stretch } from '../../src/app/chart/rows.ts';

const reading = fc.oneof({ weight: 6, arbitrary: fc.integer({ min: -500, max: 500 }) }, fc.constant(NaN));
/** Intervals of a log: mostly even, some far longer. */
const interval = fc.oneof(
  { weight: 20, arbitrary: fc.integer({ min: 1, max: 3 }) },
  fc.integer({ min: 4, max: 90 }),
);

/** Every column worked out by looking at each row. */
function plainly(time_s: Float64Array, values: Float64Array, { from, to }: Stretch, columns: Columns): void {
  for (let at = 0; at < columns.count; at++) {
    const rows: number[] = [];
    for (let row = from; row < to; row++) {
      const k = columns.from + at;
      if ((time_s[row] ?? NaN) >= k * columns.width_s && (time_s[row] ?? NaN) < (k + 1) * columns.width_s)
        rows.push(row);
    }
    const all = rows.map((row) => values[row] ?? NaN),
      kept = all.filter((value) => !Number.isNaN(value));
    const held = rows.length === 0 ? Held.noRow : kept.length === 0 ? Held.noValue : Held.values;
    expect(columns.held[at]).toBe(held);
    if (held !== Held.values) continue;
    expect(columns.lowest[at]).toBe(Math.min(...kept));
    expect(columns.highest[at]).toBe(Math.max(...kept));
    expect(columns.first[at]).toBe(all[0]);
    expect(columns.last[at]).toBe(all.at(-1));
  }
}

test('moved along, looked at closer and back, columns are those of looking at each row', () => {
  fc.assert(
    fc.property(
      fc.array(fc.tuple(reading, interval), { minLength: 2, maxLength: 400, size: 'max' }),
      fc.array(
        fc.tuple(fc.double({ min: 0, max: 1, noNaN: true }), fc.constantFrom(7, 7, 7, 7 * (1 + 1e-13), 13.5)),
        { minLength: 1, maxLength: 8 },
      ),
      (log, looks) => {
        let now = 0;
        const time_s = Float64Array.from(log, ([, step], index) => (now += index === 0 ? 0 : step));
        const values = Float64Array.from(log, ([value]) => value);
        const gaps = log.flatMap(([, step], index) =>
          step > 20 && index > 0 ? [{ start_s: time_s[index - 1] ?? NaN, end_s: time_s[index] ?? NaN }] : [],
        );
        const channel = blocksOf(values, null);
        const stretches = stretchesOf(time_s, gaps);
        for (const [share, width_s] of looks) {
          const from_s = share * now * 0.8,
            to_s = from_s + now * 0.2;
          for (const stretch of stretches) {
            const rows = {
              from: Math.max(stretch.from, firstRowFrom(time_s, from_s) - 1),
              to: Math.min(stretch.to, firstRowFrom(time_s, to_s) + 1),
            };
            if (rows.from >= rows.to) continue;
            const columns = columnsOf(time_s, channel, stretch, rows, width_s);
            expect(columns.width_s).toBeCloseTo(width_s, 6);
            // Both ends of what is shown are in it.
            expect(columns.from * columns.width_s).toBeLessThanOrEqual(time_s[rows.from] ?? NaN);
            expect((columns.from + columns.count) * columns.width_s).toBeGreaterThan(
              time_s[rows.to - 1] ?? NaN,
            );
            plainly(time_s, values, stretch, columns);
          }
        }
      },
    ),
    { numRuns: 300 },
  );
});

test('points left out of a line lie within a tenth of a pixel of it', () => {
  const drawn: { x: number; y: number; up: boolean }[] = [];
  vi.stubGlobal(
    'Path2D',
    class {
      moveTo(x: number, y: number): void {
        drawn.push({ x, y, up: true });
      }
      lineTo(x: number, y: number): void {
        drawn.push({ x, y, up: false });
      }
    },
  );
  try {
    fc.assert(
      fc.property(
        fc.array(
          fc.oneof(
            { weight: 9, arbitrary: fc.double({ min: -0.3, max: 0.3, noNaN: true }) },
            fc.integer({ min: -40, max: 40 }),
          ),
          { minLength: 2, maxLength: 200, size: 'max' },
        ),
        fc.double({ min: -0.5, max: 0.5, noNaN: true }),
        (steps, slope) => {
          drawn.length = 0;
          let v = 0;
          const points = steps.map((step, t) => ({
            t,
            v: (v += Math.abs(step) < 1 ? slope + step / 6 : step),
          }));
          const line = new LinePen({
            ratio: 1,
            x: (along: number) => along,
            y: (_: number, across: number) => across,
          });
          for (const point of points) line.to(point.t, point.v);
          line.lift();
          const corners = drawn.filter(({ x }) => Number.isInteger(x));
          expect(corners.at(-1)).toMatchObject({ x: points.at(-1)?.t, y: points.at(-1)?.v });
          for (const point of points) {
            const after = corners.findIndex(({ x }) => x >= point.t);
            const b = corners[after],
              a = corners[Math.max(0, after - 1)];
            if (a === undefined || b === undefined) throw new Error('the line ends before its points');
            const at = b.x === a.x ? b.y : a.y + ((point.t - a.x) / (b.x - a.x)) * (b.y - a.y);
            expect(Math.abs(at - point.v)).toBeLessThanOrEqual(0.1 + 1e-9);
          }
        },
      ),
      { numRuns: 300 },
    );
  } finally {
    vi.unstubAllGlobals();
  }
});

test('a line without bends is two points, however many it goes through', () => {
  let points = 0;
  vi.stubGlobal(
    'Path2D',
    class {
      moveTo(): void {
        points++;
      }
      lineTo(): void {
        points++;
      }
    },
  );
  try {
    const line = new LinePen({
      ratio: 1,
      x: (along: number) => along,
      y: (_: number, across: number) => across,
    });
    for (let t = 0; t < 1000; t++) line.to(t, 20 + t / 7);
    line.lift();
    // Its first point is a dot of two.
    expect(points).toBe(3);
  } finally {
    vi.unstubAllGlobals();
  }
});
