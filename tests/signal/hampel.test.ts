import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { hampel } from '#signal/hampel.ts';
import { normally } from '../statistics/generator.ts';
import { madeColumn, plainMedian, present, rowsWithin, tenths, type MadeColumn } from './made-log.ts';

const seconds = (n: number): Float64Array => Float64Array.from({ length: n }, (_, i) => i);
const spikesOf = (mask: Uint8Array): number[] => Array.from(mask.keys()).filter((row) => mask[row] === 1);

/** Spikes row by row, as the definition has them. */
function plainHampel(
  column: MadeColumn,
  { threshold, samples, resolution }: { threshold: number; samples: number; resolution: number },
): number[] {
  return Array.from(column.values, (value, row) => {
    const list = present(column, rowsWithin(column, row, 2, samples));
    const median = plainMedian(list);
    const deviation = plainMedian(list.map((other) => Math.abs(other - median)));
    return !Number.isNaN(value) &&
      list.length >= 5 &&
      Math.abs(value - median) > threshold * Math.max(1.4826 * deviation, resolution)
      ? 1
      : 0;
  });
}

describe('by the letter of the definition', () => {
  it.each([
    ['on a grid', fc.oneof(fc.constantFrom(30, 30.1, 30.2, 30.3), tenths), 60, 300],
    ['on no grid', fc.double({ min: 0, max: 9, noNaN: true }), 60, 300],
    [
      'mostly quiet, over several blocks of rows',
      fc.oneof(
        { weight: 60, arbitrary: fc.constantFrom(30, 30.1, 30.2, 30.3) },
        { weight: 1, arbitrary: tenths },
      ),
      400,
      100,
    ],
  ])('%s', (_, reading, rows, numRuns) => {
    fc.assert(
      fc.property(
        madeColumn(reading, rows),
        fc.constantFrom(3, 6),
        fc.constantFrom(5, 7, 21),
        fc.constantFrom(0, 0.1),
        (column, threshold, samples, resolution) => {
          const { gaps } = column;
          const mask = hampel(column.time_s, column.values, {
            resolution,
            threshold,
            samples,
            width_s: 2,
            gaps,
          });
          expect(Array.from(mask)).toEqual(plainHampel(column, { threshold, samples, resolution }));
        },
      ),
      { numRuns },
    );
  });
});

describe('as the analysis uses it', () => {
  it('one wild reading in a quiet log; a step that stays is none', () => {
    const values = Float64Array.from({ length: 200 }, (_, i) => (i < 100 ? 30 : 400));
    values[50] = 900;
    values[150] = 0;
    expect(spikesOf(hampel(seconds(200), values, { resolution: 1 }))).toEqual([50, 150]);
  });
  it('white noise: hardly ever (six scales, 21 readings)', () => {
    const noise = normally(7);
    const values = Float64Array.from({ length: 100_000 }, () => Math.round(4100 + 10 * noise()) / 10);
    const share = spikesOf(hampel(seconds(100_000), values, { resolution: 0.1 })).length / 100_000;
    expect(share).toBeLessThan(5e-4);
  });
  it('protected rows are never spikes', () => {
    const values = new Float64Array(60).fill(30);
    values[20] = 400;
    values[40] = 400;
    expect(spikesOf(hampel(seconds(60), values, { resolution: 1, protect: [{ from: 18, to: 25 }] }))).toEqual(
      [40],
    );
    expect(spikesOf(hampel(seconds(60), values, { resolution: 1, protect: [{ from: -5, to: 99 }] }))).toEqual(
      [],
    );
  });
  it('under five readings nothing is tested', () => {
    expect(spikesOf(hampel(seconds(4), Float64Array.of(30, 30, 900, 30), { resolution: 1 }))).toEqual([]);
    expect(
      spikesOf(hampel(seconds(6), Float64Array.of(30, NaN, 900, NaN, 30, 30), { resolution: 1 })),
    ).toEqual([]);
    expect(spikesOf(hampel(seconds(5), Float64Array.of(30, 30, 900, 30, 30), { resolution: 1 }))).toEqual([
      2,
    ]);
  });
  it('at 100 samples a second the window is two seconds: a burst of fifteen readings is still set aside', () => {
    const time_s = Float64Array.from({ length: 1000 }, (_, i) => i / 100);
    const values = new Float64Array(1000).fill(30);
    values.fill(400, 500, 515);
    expect(spikesOf(hampel(time_s, values, { resolution: 1 }))).toHaveLength(15);
    expect(spikesOf(hampel(time_s, values, { resolution: 1, width_s: 0 }))).toHaveLength(0);
  });
});
