import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { withKernelsAnyway, type ColumnKernels } from '#kernels/column-kernels.ts';
import { spikesByKernel, spikesByScript, type SpikeSearch } from '#signal/hampel.ts';
import {
  countsByKernel,
  countsByScript,
  gridByKernel,
  gridByScript,
  levelsOf,
  type Levels,
} from '#signal/levels.ts';
import { blocksBy, meanStatistic, medianStatistic } from '#signal/block-medians.ts';
import { EXTENT_ROWS, extentsByKernel, extentsByScript } from '#statistics/extents.ts';
import { stepsByKernel, stepsByScript, type Steps } from '#statistics/steps.ts';
import { usualByKernel, usualRows, type Walked } from '#log/time-axis.ts';
import { meanByKernel, meanByScript } from '#statistics/mean.ts';
import {
  blocksOf,
  distanceBySample,
  medianDistance,
  medianOfMany,
  medianOfManyByKernel,
} from '#statistics/median.ts';
import { mediansByKernel, mediansByScript } from '#signal/running-median.ts';
import { powersByKernel, powersByScript } from '#signal/welch.ts';
import { sustainedByKernel, sustainedByScript } from '#signal/sustained-minimum.ts';
import { spansByKernel, spansByScript } from '#signal/window-spans.ts';
import { longColumn, type LongColumn } from './long-column.ts';

/** Long lists are compared as bytes, which is a thousand times faster. */
const sameBytes = (a: Int32Array | null, b: Int32Array): boolean =>
  a !== null && Buffer.from(a.buffer, a.byteOffset, a.byteLength).equals(Buffer.from(b.buffer));
const NO_COUNTS = new Int32Array(1 << 20);

/** What comes out of a kernel; a machine without kernels must not pass for one whose kernels are right. */
function kernel<T>(use: (kernels: ColumnKernels) => T): T {
  let called = false;
  const result = withKernelsAnyway((kernels) => {
    called = true;
    expect(sameBytes(kernels.counts, NO_COUNTS)).toBe(true);
    return use(kernels);
  });
  if (!called) throw new Error('no kernels');
  return result as T;
}
/** Rows that kernels go along: none where the grid has more levels than they hold. */
const within = (levels: Levels, values: Float64Array): number => (levels.count > 1 << 20 ? 0 : values.length);
const numRuns = 150;
const sizes = fc.record({
  width_s: fc.constantFrom(0, 2, 3, 30, 300),
  samples: fc.constantFrom(1, 3, 21, 301),
});

function medians(
  { time_s, values, gaps }: LongColumn,
  levels: Levels,
  size: { width_s: number; samples: number },
) {
  const windowed = { time_s, values, levels, gaps, size };
  const list = (): Float64Array => new Float64Array(values.length).fill(-1);
  const put = (all: Float64Array) => (from: number, to: number, some: Float64Array) =>
    all.set(some.subarray(0, to - from), from);
  const byKernel = list(),
    byScript = list(),
    done = kernel((kernels) => mediansByKernel(kernels, windowed, put(byKernel)));
  mediansByScript(windowed, put(byScript), 0);
  return { done, byKernel, byScript, windowed };
}

describe('kernels and scripts give the same bits', () => {
  it('running medians', () => {
    let readings = 0;
    fc.assert(
      fc.property(longColumn(), sizes, (column, size) => {
        const levels = levelsOf(column.values);
        if (levels === null) return;
        const { done, byKernel, byScript } = medians(column, levels, size);
        expect(done).toBe(within(levels, column.values));
        expect(byKernel.subarray(0, done)).toEqual(byScript.subarray(0, done));
        readings += done;
      }),
      { numRuns },
    );
    expect(readings).toBeGreaterThan(1e5);
  });
  it('running medians where the script has to go on in the middle', () => {
    fc.assert(
      fc.property(longColumn(3000), sizes, fc.nat(3000), (column, size, row) => {
        const levels = levelsOf(column.values);
        if (levels === null) return;
        const { byScript, windowed } = medians(column, levels, size);
        const rest = byScript.slice().fill(-1, row);
        mediansByScript(windowed, (from, to, some) => rest.set(some.subarray(0, to - from), from), row);
        expect(rest).toEqual(byScript);
      }),
      { numRuns: 60 },
    );
  });
  it('spikes', () => {
    let spikes = 0;
    fc.assert(
      fc.property(
        longColumn(),
        fc.record({ width_s: fc.constantFrom(0, 2, 30), samples: fc.constantFrom(5, 21, 200) }),
        fc.constantFrom(1, 3, 6),
        fc.constantFrom(0, 0.1, 2),
        ({ time_s, values, gaps }, size, threshold, resolution) => {
          const levels = levelsOf(values);
          if (levels === null) return;
          const search = (): SpikeSearch => ({
            time_s,
            values,
            gaps,
            size,
            threshold,
            floor: threshold * resolution,
            spikes: new Uint8Array(values.length),
          });
          const byKernel = search(),
            byScript = search();
          const done = kernel((kernels) => spikesByKernel(kernels, byKernel));
          expect(done).toBe(within(levels, values));
          spikesByScript(byScript, 0);
          expect(byKernel.spikes.subarray(0, done)).toEqual(byScript.spikes.subarray(0, done));
          spikes += byScript.spikes.reduce((sum, mark) => sum + mark, 0);
        },
      ),
      { numRuns },
    );
    expect(spikes).toBeGreaterThan(1000);
  });
  it('grids and counts', () => {
    fc.assert(
      fc.property(
        longColumn(6000),
        fc.constantFrom(
          NaN,
          0.5,
          -0,
          0.000001,
          1 / 3,
          2147483648,
          -2147483647,
          2147.4836471,
          1e300,
          Infinity,
        ),
        fc.nat(6000),
        ({ values }, odd, row) => {
          if (odd === odd) values[row % values.length] = odd;
          const grid = gridByScript(values);
          expect(kernel((kernels) => gridByKernel(kernels, values))).toEqual(
            typeof grid === 'string' ? grid : { ...grid, low: grid.low + 0, high: grid.high + 0 },
          );
          const levels = levelsOf(values);
          if (levels === null) return;
          const counts = kernel((kernels) => countsByKernel(kernels, levels, values));
          if (levels.count > 1 << 20) expect(counts).toBeNull();
          else expect(sameBytes(counts, countsByScript(levels, values))).toBe(true);
        },
      ),
      { numRuns },
    );
  });
  it('grids that become finer on the way', () => {
    fc.assert(
      fc.property(
        fc.array(
          fc.record({
            decimals: fc.nat(7),
            readings: fc.array(fc.double({ min: -3000, max: 3000, noNaN: true }), { maxLength: 20 }),
          }),
          { maxLength: 6 },
        ),
        (stretches) => {
          const values = Float64Array.from(
            stretches.flatMap(({ decimals, readings }) => readings.map((x) => Number(x.toFixed(decimals)))),
          );
          const grid = gridByScript(values);
          expect(kernel((kernels) => gridByKernel(kernels, values))).toEqual(
            typeof grid === 'string' ? grid : { ...grid, low: grid.low + 0, high: grid.high + 0 },
          );
        },
      ),
      { numRuns: 1000 },
    );
  });
  it('sustained levels', () => {
    let found = 0;
    fc.assert(
      fc.property(
        longColumn(),
        fc.constantFrom(0, 0.05, 1, 10, 100, 1e6),
        fc.constantFrom(0.01, 1),
        fc.constantFrom(0.05, 5, Infinity),
        fc.nat(500),
        fc.constantFrom(0, 0, 30, 700),
        ({ time_s, ...column }, atLeast_s, interval_s, gap_s, from, away) => {
          // Here and there nothing for long.
          const values = column.values.map((value, i) => (i % 1000 < away ? NaN : value));
          const search = {
            time_s,
            values,
            from: Math.min(from, values.length),
            to: values.length,
            interval_s,
            gap_s,
            atLeast_s,
          };
          const byScript = sustainedByScript(search);
          expect(kernel((kernels) => sustainedByKernel(kernels, search))).toEqual(byScript);
          if (byScript.best > -Infinity) found++;
        },
      ),
      { numRuns: 3 * numRuns },
    );
    expect(found).toBeGreaterThan(numRuns / 4);
  });
});

/** As fast-check makes it, or with a few readings that are no numbers and one far away. */
const withOddReadings = (values: Float64Array, odd: number): Float64Array =>
  values.map((value, i) => (i % 997 === 5 ? odd : value));
const odd = fc.constantFrom(NaN, 0, Infinity, -1e6, 1e9);

const kindsOfSteps = ['falls', 'shared', 'shorter', 'equal', 'longer'] as const;

describe('statistics of long lists', () => {
  it('mean, with readings left out and without', () => {
    fc.assert(
      fc.property(longColumn(40_000), odd, fc.integer({ min: 2, max: 9 }), (column, far, every) => {
        const values = withOddReadings(column.values, far),
          leftOut = Uint8Array.from(values, (_, i) => (i % every === 0 ? 3 : 0));
        for (const marks of [null, leftOut])
          expect(kernel((kernels) => meanByKernel(kernels, values, marks))).toBe(meanByScript(values, marks));
      }),
      { numRuns: 60 },
    );
  });
  it('median, and median of distances', () => {
    let told = 0;
    fc.assert(
      fc.property(longColumn(60_000), odd, odd, (column, far, other) => {
        const values = withOddReadings(column.values, far),
          others = withOddReadings(column.values, other).map((value, i) => value + (i % 13)),
          distances = values.map((value, i) => Math.abs(value - (others[i] ?? NaN)));
        for (const [list, from] of [
          [values, null],
          [distances, others],
        ] as const) {
          const byScript = medianOfMany(list.length, blocksOf(list));
          expect(kernel((kernels) => medianOfManyByKernel(kernels, values, from))).toBe(byScript);
          if (byScript !== null) told++;
        }
      }),
      { numRuns: 60 },
    );
    expect(told).toBeGreaterThan(30);
  });
  it('median of distances by a sample: the one that sorting gives, or none', () => {
    let told = 0;
    fc.assert(
      fc.property(longColumn(60_000), odd, odd, (column, far, other) => {
        const values = withOddReadings(column.values, far),
          others = withOddReadings(column.values, other).map((value, i) => value + ((i * i) % 1013)),
          sorted = values
            .map((value, i) => Math.abs(value - (others[i] ?? NaN)))
            .filter(Number.isFinite)
            .sort(),
          half = sorted.length >> 1;
        const found = kernel((kernels) => distanceBySample(kernels, values, others));
        if (found === null) return;
        told++;
        expect(found).toBe(
          sorted.length % 2 === 1 ? sorted[half] : ((sorted[half - 1] ?? NaN) + (sorted[half] ?? NaN)) / 2,
        );
      }),
      { numRuns: 60 },
    );
    expect(told).toBeGreaterThan(20);
  });
  it('a sample that misleads tells nothing', () => {
    // Every place that is looked at is 1 off, all others 2 to 100.
    const places = new Set(Array.from({ length: 4096 }, (_, k) => Math.floor((k * 50_000) / 4096)));
    const values = Float64Array.from({ length: 50_000 }, (_, i) => (places.has(i) ? 1 : 2 + (i % 99))),
      none = new Float64Array(50_000);
    expect(kernel((kernels) => distanceBySample(kernels, values, none))).toBeNull();
    expect(medianDistance(values, none)).toBe(medianOfMany(values.length, blocksOf(values)));
  });
  it('squares of spectra', () => {
    let segments = 0;
    fc.assert(
      fc.property(longColumn(20_000), odd, fc.integer({ min: 1, max: 13 }), (column, far, power) => {
        const values = column.values.map((value, i) => (i === 4000 ? far : value)),
          window = Float64Array.from({ length: 2 ** power }, (_, i) => Math.sin(1 + i));
        const byScript = powersByScript(values, window);
        expect(kernel((kernels) => powersByKernel(kernels, values, window))).toEqual(byScript);
        segments += byScript.segments;
      }),
      { numRuns: 60 },
    );
    expect(segments).toBeGreaterThan(1000);
  });
  it('spans of windows of equal time', () => {
    let spans = 0;
    fc.assert(
      fc.property(
        longColumn(30_000),
        odd,
        fc.constantFrom(0.3, 1, 50),
        fc.constantFrom(0.5, 2, 50),
        fc.array(fc.nat(30_000), { maxLength: 3 }),
        ({ time_s, values: plain }, far, window_s, fewest, cuts) => {
          const rows = plain.length,
            borders = [0, ...cuts.map((cut) => cut % rows).sort((a, b) => a - b), rows],
            pieces = borders.slice(1).map((to, i) => ({ from: borders[i] ?? 0, to }));
          const search = { time_s, values: withOddReadings(plain, far), pieces, window_s, fewest };
          const byScript = spansByScript(search);
          expect(kernel((kernels) => spansByKernel(kernels, search))).toEqual(byScript);
          spans += byScript.length;
        },
      ),
      { numRuns: 100 },
    );
    expect(spans).toBeGreaterThan(1000);
  });
  it('extents of blocks', () => {
    fc.assert(
      fc.property(longColumn(40_000), odd, (column, far) => {
        const values = withOddReadings(column.values, far),
          blocks = Math.ceil(values.length / EXTENT_ROWS),
          list = (): Float64Array => new Float64Array(blocks).fill(1);
        const [low, high, lowest, highest] = [list(), list(), list(), list()] as const;
        extentsByScript(values, low, high);
        kernel((kernels) => extentsByKernel(kernels, values, lowest, highest));
        expect([lowest, highest]).toEqual([low, high]);
      }),
      { numRuns: 60 },
    );
  });
  it('steps from row to row', () => {
    const seen: Steps = { falls: 0, shared: 0, shorter: 0, equal: 0, longer: 0 };
    fc.assert(
      fc.property(longColumn(20_000), odd, (column, far) => {
        for (const values of [column.time_s, withOddReadings(column.values, far)]) {
          const usual = (values[2] ?? 0) - (values[1] ?? 0);
          const byScript = stepsByScript(values, usual);
          expect(kernel((kernels) => stepsByKernel(kernels, values, usual))).toEqual(byScript);
          for (const kind of kindsOfSteps) seen[kind] += byScript[kind];
        }
      }),
      { numRuns: 100 },
    );
    // Of each kind there were many.
    for (const kind of kindsOfSteps) expect(seen[kind], kind).toBeGreaterThan(1000);
  });
  it("the walk along a log's times", () => {
    let whole = 0,
      broken = 0;
    fc.assert(
      fc.property(
        longColumn(40_000),
        fc.nat(40_000),
        fc.constantFrom(1, 10, 1000),
        fc.constantFrom(0, 1, 30),
        ({ time_s }, from, ticksPerSecond, median) => {
          const all = time_s.map((t_s) => Math.round(t_s * 100)),
            start = 1 + (from % all.length);
          const usual = { ticksPerSecond, gapTicks: 5 * median, median };
          const state = (): Walked => ({
            last: all[start - 1] ?? 0,
            axis: 17,
            shift: 17 - (all[start - 1] ?? 0),
          });
          const [ticks, walked] = [all.slice(), all.slice()] as const,
            [one, other] = [state(), state()] as const;
          const to = usualRows(ticks, usual, one, start, ticks.length);
          expect(kernel((kernels) => usualByKernel(kernels, walked, usual, other, start))).toBe(to);
          expect(other).toEqual(one);
          expect(Buffer.from(walked.buffer).equals(Buffer.from(ticks.buffer))).toBe(true);
          if (to < ticks.length) broken++;
          else if (to > start) whole++;
        },
      ),
      { numRuns: 300 },
    );
    expect(Math.min(whole, broken)).toBeGreaterThan(10);
  });
  it('segments of other lengths are left to the script', () => {
    for (const length of [3, 100, 32_768])
      expect(
        kernel((kernels) => powersByKernel(kernels, new Float64Array(70_000), new Float64Array(length))),
      ).toBeNull();
  });
  it('medians and means of blocks', () => {
    let blocks = 0;
    fc.assert(
      fc.property(
        longColumn(50_000),
        odd,
        fc.constantFrom(1, 60, 600),
        fc.constantFrom(0, 0.1, 5),
        fc.constantFrom(1, 40),
        ({ time_s, values: plain }, far, block_s, step, atLeast) => {
          const values = withOddReadings(plain, far),
            choice = { start_s: 0.5, end_s: (time_s.at(-1) ?? 0) - 1, block_s, atLeast };
          for (const statistic of [medianStatistic(step), meanStatistic]) {
            const byScript = blocksBy(time_s, values, choice, statistic, null);
            expect(kernel((kernels) => blocksBy(time_s, values, choice, statistic, kernels))).toEqual(
              byScript,
            );
            blocks += byScript.values.length;
          }
        },
      ),
      { numRuns: 60 },
    );
    expect(blocks).toBeGreaterThan(1000);
  });
});

describe('what is too much for the kernels', () => {
  const rows = 300_000;
  const time_s = Float64Array.from({ length: rows }, (_, i) => i / 1000);
  it('a window over more rows than the rings hold is left to the script, from where it came to', () => {
    const values = Float64Array.from({ length: rows }, (_, i) => (i * 7) % 500);
    const levels = levelsOf(values);
    if (levels === null) throw new Error('no grid');
    const size = { width_s: 280, samples: 3 };
    const { done } = medians({ time_s, values, gaps: [] }, levels, size);
    expect(done).toBeLessThan(rows);
    // A little narrower the rings grow as far as they can.
    const narrow = medians({ time_s, values, gaps: [] }, levels, { width_s: 255, samples: 3 });
    expect(narrow.done).toBe(rows);
    expect(narrow.byKernel).toEqual(narrow.byScript);
    const search = { time_s, values, from: 0, to: rows, interval_s: 0.001, gap_s: 1, atLeast_s: 280 };
    expect(kernel((kernels) => sustainedByKernel(kernels, search))).toBeNull();
    expect(kernel((kernels) => sustainedByKernel(kernels, { ...search, atLeast_s: 250 }))).toEqual(
      sustainedByScript({ ...search, atLeast_s: 250 }),
    );
  });
  it('so is a grid of more than a million levels', () => {
    const values = Float64Array.from({ length: 5000 }, (_, i) => (i % 2 === 0 ? 0 : 1_100_000));
    const levels = levelsOf(values);
    if (levels === null) throw new Error('no grid');
    const { done, byScript } = medians({ time_s: time_s.subarray(0, 5000), values, gaps: [] }, levels, {
      width_s: 0.002,
      samples: 3,
    });
    expect(done).toBe(0);
    expect(byScript.slice(10, 14)).toEqual(Float64Array.of(1_100_000, 0, 1_100_000, 0));
  });
});
