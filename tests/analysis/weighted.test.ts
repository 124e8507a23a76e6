import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { kernelWeights, weightedMean, WeightedMean } from '#analysis/pieces.ts';
import { sharesByScript } from '#analysis/time-in-band.ts';
import { timelineOf, type Rows, type Timeline } from '#analysis/timeline.ts';
import type { Hold } from '#analysis/hold.ts';
import type { Log } from '#formats/log.ts';
import { weightedShares, weightedSums } from '#signal/weighted-sums.ts';
import { longColumn, type LongColumn } from '../signal/long-column.ts';

const timeline = ({ time_s, gaps }: LongColumn, medianInterval_s: number): Timeline =>
  timelineOf({ time_s, gaps, medianInterval_s, clockSteps: [] } as unknown as Log);
/** Some pieces of the log, in order. */
const piecesOf = (rows: number, cuts: readonly number[]): Rows[] => {
  const borders = [...new Set([0.01, ...cuts, 1].map((share) => Math.floor(share * rows)))].sort(
    (a, b) => a - b,
  );
  return borders.slice(1).map((to, i) => ({ from: borders[i] ?? 0, to }));
};
const cases = fc.tuple(
  longColumn(60_000),
  fc.constantFrom(0.01, 0.1, 1),
  fc.array(fc.double({ min: 0, max: 1, noNaN: true }), { maxLength: 4 }),
);

describe('sums by weight: kernels and scripts give the same bits', () => {
  it('mean, lowest, highest', () => {
    let byKernel = 0;
    fc.assert(
      fc.property(cases, ([column, interval_s, cuts]) => {
        const line = timeline(column, interval_s),
          pieces = piecesOf(column.values.length, cuts),
          plain = new WeightedMean(line);
        for (const { from, to } of pieces) plain.add(from, to, column.values.subarray(from, to));
        expect(weightedMean(line, column.values, pieces)).toEqual(plain.found());
        if (
          kernelWeights(line, (weights) =>
            weightedSums({ ...weights, values: column.values, rows: pieces }, 0),
          ) !== null
        )
          byKernel++;
      }),
      { numRuns: 150 },
    );
    expect(byKernel).toBeGreaterThan(20);
  });
  it('shares within limits', () => {
    let byKernel = 0;
    fc.assert(
      fc.property(
        cases,
        fc.constantFrom(-Infinity, 0, 405, 410.3),
        fc.constantFrom(Infinity, 100, 415),
        ([column, interval_s, cuts], least, most) => {
          const line = timeline(column, interval_s),
            pieces = piecesOf(column.values.length, cuts),
            found = kernelWeights(line, (weights) =>
              weightedShares({ ...weights, values: column.values, rows: pieces }, least, most),
            );
          if (found === null) return;
          byKernel++;
          expect(found).toEqual(
            sharesByScript(line, { pieces } as unknown as Hold, column.values, least, most),
          );
        },
      ),
      { numRuns: 150 },
    );
    expect(byKernel).toBeGreaterThan(20);
  });
});
