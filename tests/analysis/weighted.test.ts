import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { lineByScript } from '#analysis/operating-pressure.ts';
import { recordedByScript } from '#analysis/run-quantities.ts';
import { firstReading, kernelWeights, weightedMean, WeightedMean } from '#analysis/pieces.ts';
import { sharesByScript } from '#analysis/time-in-band.ts';
import { smoothedByScript, smoothedMean } from '#analysis/solenoid-current.ts';
import { timelineOf, type Rows, type Timeline } from '#analysis/timeline.ts';
import type { Hold } from '#analysis/hold.ts';
import type { Log } from '#formats/log.ts';
import { levelsOf } from '#signal/levels.ts';
import { weightedLine } from '#signal/weighted-line.ts';
import { weightedShares, weightedSums, weightOfMarked } from '#signal/weighted-sums.ts';
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
  it('the line through a hold, and its batches', () => {
    let byKernel = 0;
    fc.assert(
      fc.property(cases, fc.constantFrom(0, 1, 0.3, 2), ([column, interval_s, cuts], share) => {
        const line = timeline(column, interval_s),
          pieces = piecesOf(column.values.length, cuts),
          ends = pieces.map(({ from, to }) => [column.time_s[from] ?? NaN, column.time_s[to - 1] ?? NaN]);
        const choice = {
          middle_s: 0.4 * (column.time_s.at(-1) ?? 0),
          reference: firstReading(column.values, pieces),
          batches: 10,
          lengths_s: ends.map(([from = NaN, to = NaN]) => share * (to - from)),
        };
        const found = kernelWeights(line, (weights) =>
          weightedLine({ ...weights, values: column.values, rows: pieces }, choice),
        );
        if (found === null) return;
        byKernel++;
        expect(found).toEqual(lineByScript(line, pieces, column.values, choice));
      }),
      { numRuns: 150 },
    );
    expect(byKernel).toBeGreaterThan(20);
  });
  it('mean of running medians', () => {
    let byKernel = 0;
    fc.assert(
      fc.property(
        cases,
        fc.constantFrom(0, 2, 30),
        fc.constantFrom(0, 0.2),
        fc.constantFrom(0, 0.3),
        ([column, interval_s], window_s, before, behind) => {
          const line = timeline(column, interval_s),
            length = column.values.length,
            rows = { from: Math.floor(before * length), to: length - Math.floor(behind * length) },
            on = column.values.slice(rows.from, rows.to),
            situation = { timeline: line, smoothing: { method: 'median', window_s } } as const;
          if (line.shared_s === null && levelsOf(on) !== null && on.length >= 4096) byKernel++;
          expect(smoothedMean(situation, on, rows)).toEqual(smoothedByScript(situation, on, rows));
        },
      ),
      { numRuns: 150 },
    );
    expect(byKernel).toBeGreaterThan(20);
  });
  it('recorded time', () => {
    let byKernel = 0;
    fc.assert(
      fc.property(cases, fc.integer({ min: 2, max: 50 }), ([column, interval_s, cuts], every) => {
        const line = timeline(column, interval_s),
          flags = Uint8Array.from(column.values, (_, i) => (i % every === 0 ? (i / every) % 6 : 0));
        for (const rows of piecesOf(column.values.length, cuts)) {
          const found = kernelWeights(line, (weights) => weightOfMarked(weights, flags, rows, [0, 5]));
          if (found === null) continue;
          byKernel++;
          expect(found).toBe(recordedByScript(line, flags, rows));
        }
      }),
      { numRuns: 100 },
    );
    expect(byKernel).toBeGreaterThan(20);
  });
});
