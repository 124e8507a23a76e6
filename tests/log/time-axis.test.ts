import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { medianPositiveStep, timeAxis, type TimeAxis } from '#log/time-axis.ts';

/** Axis of times in seconds, kept in thousandths. */
function axisOf(times_s: number[], options: { isClock?: boolean; record?: number[] } = {}): TimeAxis {
  return timeAxis(
    {
      ticks: Float64Array.from(times_s, (time) => Math.round(time * 1000)),
      ticksPerSecond: 1000,
      origin_s: times_s[0] ?? 0,
      start: null,
      dateOrders: [],
      isClock: options.isClock ?? true,
      unusable: null,
      unusableLines: [],
      form: 'time-of-day',
      turned: false,
      fallsThroughout: false,
      remarks: [],
    },
    options.record === undefined ? null : Float64Array.from(options.record),
  );
}
const from = (start: number, count: number, step = 1): number[] =>
  Array.from({ length: count }, (_, i) => start + i * step);

// The words of the definitions: what a gap is, what a clock step is.
describe('the axis', () => {
  test('counts from the first row', () => {
    expect([...axisOf([100, 101, 102]).time_s]).toEqual([0, 1, 2]);
  });
  test('five steps of the clock are told, more are counted', () => {
    const axis = axisOf(
      Array.from({ length: 9 }, (_, i) => [7 * i, 7 * i + 4]).flatMap(([a = 0, b = 0]) => [a, b, a + 2]),
      { isClock: true },
    );
    expect(axis.clockSteps).toHaveLength(9);
    expect(axis.remarks.map(({ code }) => code)).toEqual([
      ...Array.from({ length: 5 }, () => 'clock-step-cuts'),
      'clock-steps-more',
    ]);
    expect(axis.remarks.at(-1)?.text).toContain('not named here: 4.');
  });
  test('a gap is an interval of five medians or more', () => {
    expect(axisOf([0, 1, 2, 3, 7.999, 9]).gaps).toEqual([]);
    expect(axisOf([0, 1, 2, 3, 8, 9]).gaps).toEqual([{ start_s: 3, end_s: 8 }]);
  });
  test('the median interval is that of the positive ones: doubled stamps do not count', () => {
    expect(axisOf([0, 0, 0, 2, 2, 4, 4]).medianInterval_s).toBe(2);
    expect(axisOf([0, 1, 3]).medianInterval_s).toBe(1.5);
    expect(axisOf([5]).medianInterval_s).toBe(0);
    expect(axisOf([5, 5]).medianInterval_s).toBe(0);
  });
  test('a clock set back by an hour is taken out and goes on one interval later', () => {
    const axis = axisOf([...from(10_000, 10), ...from(10_010 - 3600, 10)]);
    expect([...axis.time_s]).toEqual(from(0, 20));
    expect(axis.clockSteps).toEqual([{ at_s: 9, step_s: -3600, cuts: false }]);
    expect(axis.gaps).toEqual([]);
  });
  test('within two intervals of the hour, and no further', () => {
    const stepped = (by: number): boolean | undefined =>
      axisOf([...from(10_000, 10), ...from(10_010 - 3600 + by, 10)]).clockSteps[0]?.cuts;
    expect([0, 1.9, 2, -2].map(stepped)).toEqual([false, false, false, false]);
    expect([2.1, -2.1, 600].map(stepped)).toEqual([true, true, true]);
  });
  test('and five seconds at most', () => {
    const stepped = (by: number): boolean | undefined =>
      axisOf([...from(10_000, 10, 10), ...from(10_100 - 3600 + by, 10, 10)]).clockSteps[0]?.cuts;
    expect([0, 5, -5, 5.1, 19].map(stepped)).toEqual([false, false, false, true, true]);
  });
  test('a clock set forward by hours is taken out where sampling is 10 s or faster; slower, it is a gap', () => {
    const fast = axisOf([...from(0, 10, 10), ...from(7300, 10, 10)]);
    expect(fast.clockSteps).toEqual([{ at_s: 90, step_s: 7200, cuts: false }]);
    expect(fast.gaps).toEqual([]);
    expect(fast.remarks[0]?.text).toContain('power cut of exactly that length');
    const slow = axisOf([...from(0, 10, 11), ...from(7310, 10, 11)]);
    expect(slow.clockSteps).toEqual([]);
    expect(slow.gaps).toEqual([{ start_s: 99, end_s: 7310 }]);
  });
  test('a count has no clock to set: its jump forward is a gap, its fall cuts', () => {
    expect(axisOf([...from(0, 10), ...from(3610, 10)], { isClock: false }).gaps.length).toBe(1);
    expect(axisOf([...from(0, 10), ...from(0, 10)], { isClock: false }).clockSteps).toEqual([
      { at_s: 9, step_s: -10, cuts: true },
    ]);
  });
  test('forward by other than hours is a gap', () => {
    const axis = axisOf([...from(0, 10), ...from(1800, 10)]);
    expect(axis.clockSteps).toEqual([]);
    expect(axis.gaps).toEqual([{ start_s: 9, end_s: 1800 }]);
  });
  test('record numbers that go on join a fall, with the rows that they count as missing', () => {
    const times = [...from(1000, 5), ...from(700, 5)];
    expect(axisOf(times, { record: from(1, 10) }).clockSteps).toEqual([
      { at_s: 4, step_s: -305, cuts: false },
    ]);
    expect(axisOf(times, { record: [1, 2, 3, 4, 5, 1, 2, 3, 4, 5] }).clockSteps[0]?.cuts).toBe(true);
    expect([...axisOf(times, { record: [1, 2, 3, 4, 5, 8, 9, 10, 11, 12] }).time_s].slice(4, 7)).toEqual([
      4, 7, 8,
    ]);
  });
  test('record numbers that jump with the clock say that an hour is missing, not that the clock was set', () => {
    const axis = axisOf([...from(0, 5), ...from(3605, 5)], {
      record: [1, 2, 3, 4, 5, 3606, 3607, 3608, 3609, 3610],
    });
    expect(axis.clockSteps).toEqual([]);
    expect(axis.gaps).toEqual([{ start_s: 4, end_s: 3605 }]);
  });
  test('never goes back and loses no row, whatever the clock did', () => {
    fc.assert(
      fc.property(
        fc.array(fc.integer({ min: -8_000_000, max: 8_000_000 }), { minLength: 1, maxLength: 60 }),
        fc.boolean(),
        (stamps, isClock) => {
          const axis = axisOf(
            stamps.map((stamp) => stamp / 1000),
            { isClock },
          );
          expect(axis.time_s.length).toBe(stamps.length);
          expect(axis.time_s.every((time, i) => i === 0 || time >= (axis.time_s[i - 1] ?? Infinity))).toBe(
            true,
          );
        },
      ),
      { seed: 7 },
    );
  });
});

describe('the median of the positive steps', () => {
  test('is the sorted one', () => {
    fc.assert(
      fc.property(fc.array(fc.integer({ min: -3, max: 5 }), { maxLength: 1500 }), (steps) => {
        const times = new Float64Array(steps.length + 1);
        for (const [i, step] of steps.entries()) times[i + 1] = (times[i] ?? 0) + step;
        const sorted = steps.filter((step) => step > 0).toSorted((a, b) => a - b);
        const middle = sorted.length >> 1;
        const expected =
          sorted.length === 0
            ? 0
            : sorted.length % 2 === 1
              ? (sorted[middle] ?? NaN)
              : ((sorted[middle - 1] ?? NaN) + (sorted[middle] ?? NaN)) / 2;
        expect(medianPositiveStep(times)).toBe(expected);
      }),
      { seed: 7 },
    );
  });
});
