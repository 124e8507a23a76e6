import * as fc from 'fast-check';
import { evenly } from '../statistics/generator.ts';

/** A column of some thousand rows: long enough that it goes to the kernels in several pieces. */
export interface LongColumn {
  time_s: Float64Array;
  values: Float64Array;
  gaps: { start_s: number; end_s: number }[];
}

/** How readings go, from a reading's place in the log (0 to 1) and a source of chance. */
const courses = {
  noise: (_: number, chance: () => number) => 410 + 4 * (chance() + chance() + chance() - 1.5),
  'two levels': (_: number, chance: () => number) => (chance() < 0.5 ? 0 : 410.3),
  'now one, now the other': (place: number) => (Math.round(1000 * place) % 2 === 0 ? -3 : 900),
  steps: (place: number, chance: () => number) => 100 * Math.floor(7 * place) + chance(),
  ramp: (place: number) => 500 * place,
  'quiet with spikes': (_: number, chance: () => number) =>
    chance() < 0.01 ? 300 * chance() : 80 + 0.1 * Math.round(chance()),
  'single value': () => 5.25,
  wide: (_: number, chance: () => number) => 9000 * (chance() - 0.5),
  falling: (place: number, chance: () => number) => 100 - 90 * place + (chance() < 0.02 ? 50 : 0),
} satisfies Record<string, (place: number, chance: () => number) => number>;
type Course = keyof typeof courses;

/** The digits that are written, and another unit that they are converted to. */
const grids = [1, 10, 100, 1000].flatMap((digits) => [
  { digits, factor: 1 },
  { digits, factor: 0.0689475729316836 },
]);

export const longColumn = (most = 9000): fc.Arbitrary<LongColumn> =>
  fc
    .record({
      rows: fc.integer({ min: 1, max: most }),
      seed: fc.integer({ min: 1, max: 1e9 }),
      course: fc.constantFrom(...(Object.keys(courses) as Course[])),
      grid: fc.constantFrom(...grids),
      missing: fc.constantFrom(0, 0, 0.02, 0.5, 1),
      times: fc.constantFrom('even', 'uneven', 'shared', 'bursts'),
      interval_s: fc.constantFrom(0.01, 0.1, 1),
      gapShare: fc.constantFrom(0, 0.001, 0.05),
    })
    .map(({ rows, seed, course, grid, missing, times, interval_s, gapShare }) => {
      const chance = evenly(seed),
        time_s = new Float64Array(rows),
        gaps: LongColumn['gaps'] = [];
      for (let i = 1; i < rows; i++) {
        const before = time_s[i - 1] ?? 0;
        const interval =
          times === 'uneven'
            ? interval_s * 2 * chance()
            : times === 'shared'
              ? (i % 4 === 0 ? 4 : 0) * interval_s
              : times === 'bursts' && i % 300 === 0
                ? 60
                : interval_s;
        const gap = chance() < gapShare;
        time_s[i] = before + (gap ? 100 * interval_s : interval);
        if (gap || interval === 60) gaps.push({ start_s: before, end_s: time_s[i] ?? 0 });
      }
      const values = Float64Array.from({ length: rows }, (_, i) =>
        chance() < missing
          ? NaN
          : (Math.round(grid.digits * courses[course](i / rows, chance)) / grid.digits) * grid.factor,
      );
      return { time_s, values, gaps };
    });
