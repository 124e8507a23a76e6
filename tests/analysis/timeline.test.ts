import { describe, expect, it } from 'vitest';
import {
  breakBetween,
  rowAfter,
  rowFrom,
  span_s,
  splitAtBreaks,
  timelineOf,
  weight_s,
  within,
  without,
} from '#analysis/timeline.ts';
import { evenTimes, makeLog, pressureColumn } from './synthetic-run.ts';

const log = (times: number[], clockSteps: Parameters<typeof makeLog>[0]['clockSteps'] = []) =>
  makeLog({ times, columns: [pressureColumn(() => 0)], clockSteps });

describe('the time axis', () => {
  it('gives a row the time to the next one as its weight, one median interval before a gap and at the end', () => {
    const timeline = timelineOf(log([0, 1, 2, 5, 6, 12, 13]));
    // Median interval 1 s: 3 s is no gap, 6 s is one.
    expect([...timeline.time_s.keys()].map((row) => weight_s(timeline, row))).toEqual([1, 1, 3, 1, 1, 1, 1]);
    expect(timeline.breaks).toEqual([{ row: 5, kind: 'gap' }]);
  });
  it('rows that share a time share the weight, before a gap and at the end too', () => {
    const timeline = timelineOf(log([0, 0, 2, 2, 2, 2, 4, 14, 14]));
    expect([...timeline.time_s.keys()].map((row) => weight_s(timeline, row))).toEqual([
      1, 1, 0.5, 0.5, 0.5, 0.5, 2, 1, 1,
    ]);
  });
  it('takes five median intervals for a gap, and less for none', () => {
    expect(timelineOf(log([0, 1, 2, 7, 8])).breaks).toEqual([{ row: 3, kind: 'gap' }]);
    expect(timelineOf(log([0, 1, 2, 6.9, 7.9])).breaks).toEqual([]);
  });
  it('finds rows by time', () => {
    const { time_s } = timelineOf(log([0, 1, 1, 2]));
    expect([rowFrom(time_s, 1), rowAfter(time_s, 1), rowFrom(time_s, 0.5), rowFrom(time_s, 9)]).toEqual([
      1, 3, 1, 4,
    ]);
  });
  it('judges the longest part between clock steps that cut the log', () => {
    const times = evenTimes(100);
    const timeline = timelineOf(
      log(times, [
        { at_s: 20, step_s: 100, cuts: true },
        { at_s: 70, step_s: -500, cuts: true },
      ]),
    );
    expect(timeline.part).toEqual({ from: 21, to: 71 });
    expect(timeline.cut).toBe(true);
  });
  it('does not cut at a step by whole hours', () => {
    const timeline = timelineOf(log(evenTimes(100), [{ at_s: 20, step_s: 3600, cuts: false }]));
    expect(timeline.part).toEqual({ from: 0, to: 101 });
    expect(timeline.breaks).toEqual([{ row: 21, kind: 'step' }]);
  });
});

describe('stretches of rows', () => {
  const timeline = timelineOf(log([0, 1, 2, 10, 11, 12]));
  it('are cut at breaks and summed without them', () => {
    const pieces = splitAtBreaks(timeline, { from: 1, to: 6 });
    expect(pieces).toEqual([
      { from: 1, to: 3 },
      { from: 3, to: 6 },
    ]);
    expect(span_s(timeline, pieces)).toBe(1 + 2);
    expect(breakBetween(timeline, 2, 3)).toBe(true);
    expect(breakBetween(timeline, 0, 2)).toBe(false);
  });
  it('lose what is taken out of them and what lies outside', () => {
    expect(
      without(
        [{ from: 0, to: 10 }],
        [
          { from: 2, to: 4 },
          { from: 8, to: 20 },
        ],
      ),
    ).toEqual([
      { from: 0, to: 2 },
      { from: 4, to: 8 },
    ]);
    expect(without([{ from: 0, to: 3 }], [{ from: 0, to: 3 }])).toEqual([]);
    expect(
      within(
        [
          { from: 0, to: 4 },
          { from: 6, to: 9 },
        ],
        { from: 3, to: 7 },
      ),
    ).toEqual([
      { from: 3, to: 4 },
      { from: 6, to: 7 },
    ]);
  });
});
