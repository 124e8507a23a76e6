import { describe, expect, it } from 'vitest';
import { analysed, codes } from './analysed.ts';
import {
  engagedBetween,
  evenTimes,
  makeLog,
  oilColumn,
  pressureColumn,
  spec,
  type Column,
} from './synthetic-run.ts';

const made = (times: number[], at: Column['at'], more: Partial<Parameters<typeof makeLog>[0]> = {}) =>
  makeLog({ times, columns: [pressureColumn(at)], ...more });
/** Times with stretches left out. */
const timesWithout = (end_s: number, ...gaps: [number, number][]): number[] =>
  evenTimes(end_s).filter((t) => !gaps.some(([from, to]) => t > from && t < to));

describe('the run', () => {
  it('is the longest engagement', () => {
    const analysis = analysed(
      made(evenTimes(2000), (t) => ((t >= 100 && t < 500) || (t >= 700 && t < 1900) ? 411 : 0)),
      { spec: spec() },
    );
    expect(analysis.judged).toMatchObject({ start_s: 700, end_s: 1899, joined: 1 });
    expect(analysis.quantities.engagements).toHaveLength(2);
    expect(analysis.judged.shareOfLog).toBeCloseTo(1199 / 2000, 9);
  });
  it('goes on through a gap with pressure on both sides, and its length is less the gap', () => {
    const analysis = analysed(
      made(timesWithout(2000, [800, 1000]), (t) => (t >= 100 && t < 1900 ? 411 : 0)),
      { spec: spec() },
    );
    expect(analysis.judged).toMatchObject({ start_s: 100, end_s: 1899, joined: 1 });
    expect(analysis.quantities.runLength?.length_s).toBe(1799 - 200);
    // 1,800 rows less those of the gap stand for a second each, the last one ends the run: 1,599 + 1 before the gap, of 1,799 s.
    expect(analysis.quantities.recordCoverage?.share).toBeCloseTo(1600 / 1799, 9);
    expect(analysis.phases.map(({ kind }) => kind)).toContain('gap');
  });
  it('is joined over a power cut that struck while it was engaged, and released stretches do not count', () => {
    const analysis = analysed(
      made(timesWithout(4000, [1000, 2000]), (t) =>
        (t >= 100 && t <= 1000) || (t >= 2100 && t < 3900) ? 411 : 0,
      ),
      { spec: spec() },
    );
    expect(analysis.judged).toMatchObject({ start_s: 100, end_s: 3899, joined: 2 });
    expect(analysis.quantities.runLength?.length_s).toBe(900 + 1799);
    expect(codes(analysis)).toContain('engagements-joined');
  });
  it('is not joined over a gap that came after the unit was stopped on purpose', () => {
    const analysis = analysed(
      made(timesWithout(4000, [1200, 2000]), (t) =>
        (t >= 100 && t < 1000) || (t >= 2100 && t < 3900) ? 411 : 0,
      ),
      { spec: spec() },
    );
    expect(analysis.judged).toMatchObject({ start_s: 2100, joined: 1 });
  });
  it('goes on through a whole-hour step of the clock without losing time', () => {
    const analysis = analysed(
      made(evenTimes(2000), (t) => (t >= 100 && t < 1900 ? 411 : 0), {
        clockSteps: [{ at_s: 900, step_s: -3600, cuts: false }],
      }),
      { spec: spec() },
    );
    expect(analysis.quantities.runLength?.length_s).toBe(1799);
    expect(analysis.quantities.recordCoverage?.share).toBe(1);
  });
  it('is judged in the longest part where a step cuts the log, and its length is then not known', () => {
    const log = made(evenTimes(4000), (t) => (t >= 100 && t < 3900 ? 411 : 0), {
      clockSteps: [{ at_s: 1500, step_s: 1234, cuts: true }],
    });
    const analysis = analysed(log, { spec: spec({ runLength: { atLeast_h: 1 } }) });
    expect(analysis.judged).toMatchObject({ start_s: 1501, end_s: 3899 });
    expect(analysis.quantities.runLength).toMatchObject({ length_s: null });
    expect(codes(analysis)).toContain('longest-part-judged');
    // The longest part alone is 2,398 s: enough for half an hour.
    const enough = analysed(log, { spec: spec({ runLength: { atLeast_h: 0.5 } }) });
    expect(enough.quantities.runLength?.length_s).toBe(2398);
  });
  it('ends at its last reading above nine tenths of the final value: a falling edge is not judged', () => {
    const analysis = analysed(
      made(
        evenTimes(2000),
        engagedBetween(100, 1900, () => 411, { fall_s: 8 }),
      ),
      { spec: spec() },
    );
    // 0.3 + 410.7 · e^(−t/8) is above 369.9 up to 0.84 s after release: the reading at 1,900 s, not the one a second later.
    expect(analysis.judged.end_s).toBe(1900);
    expect(analysis.quantities.settling.finalValue).toBeCloseTo(411, 6);
  });
  it('does not trim away a unit that gives way before it is released', () => {
    const analysis = analysed(
      made(evenTimes(9000), (t) => (t < 100 || t >= 8900 ? 0 : t < 8300 ? 411 : 300)),
      { spec: spec() },
    );
    expect(analysis.judged.end_s).toBe(8899);
    expect(codes(analysis)).toContain('gave-way');
    expect(analysis.quantities.holdRange.min).toBe(300);
  });
  it('has the median over its last third for its final value', () => {
    const analysis = analysed(
      made(evenTimes(3200), (t) => (t < 100 || t >= 3100 ? 0 : t < 2100 ? 430 : 411)),
      { spec: spec() },
    );
    expect(analysis.quantities.settling.finalValue).toBe(411);
  });
  it('carries a remark where it stands under half of the band, and is judged all the same', () => {
    const analysis = analysed(
      made(evenTimes(2000), (t) => (t < 100 ? 0 : 148)),
      { spec: spec() },
    );
    expect(codes(analysis)).toContain('run-far-below-band');
    expect(analysis.quantities.operatingPressure.value).toBe(148);
  });
  it('ends where the shaft stops, on a unit that holds its charge', () => {
    const log = makeLog({
      times: evenTimes(2000),
      columns: [
        pressureColumn((t) => (t < 100 ? 0 : t < 1500 ? 412 : 412 * Math.exp(-(t - 1500) / 2000))),
        { column: 'n', role: 'shaft-speed', unit: 'rpm', at: (t) => (t >= 90 && t < 1500 ? 1000 : 0) },
      ],
    });
    const analysis = analysed(log, { spec: spec({ pressureBehaviour: 'held-charged' }) });
    expect(analysis.judged).toMatchObject({ start_s: 100, end_s: 1499 });
  });
});

describe('joining by hand', () => {
  const cycled = made(evenTimes(7200), (t) => (t % 1200 < 900 ? 411 : 0));
  it('makes one run of the engagements within a span, and of all without one', () => {
    const choice = { what: 'join-engagements' as const, by: 'B. Tester', why: 'cycled on purpose' };
    const all = analysed(cycled, { spec: spec(), choices: [choice] });
    // Six engagements of 15 min; the log begins engaged.
    expect(all.judged).toMatchObject({ start_s: 0, joined: 6, choices: [choice] });
    expect(all.quantities.runLength?.length_s).toBe(6 * 899);
    const some = analysed(cycled, { spec: spec(), choices: [{ ...choice, from_s: 0, to_s: 3000 }] });
    expect(some.judged.joined).toBe(3);
    expect(codes(some)).toContain('chosen-by-hand');
  });
  it('counts as one engagement when the longest is looked for', () => {
    // Three of ten minutes, joined, against one of twenty.
    const log = made(evenTimes(6000), (t) =>
      (t < 2700 && t % 900 < 600) || (t >= 4000 && t < 5200) ? 411 : 0,
    );
    expect(analysed(log, { spec: spec() }).judged).toMatchObject({ start_s: 4000, joined: 1 });
    const joined = analysed(log, {
      spec: spec(),
      choices: [{ what: 'join-engagements', from_s: 0, to_s: 2700, by: 'B. Tester', why: 'one session' }],
    });
    expect(joined.judged).toMatchObject({ start_s: 0, end_s: 2399, joined: 3 });
  });
  it('is offered where less than half of the log is judged', () => {
    const analysis = analysed(cycled, { spec: spec() });
    expect(analysis.judged.joined).toBe(1);
    expect(codes(analysis)).toContain('part-of-log-judged');
  });
  it('keeps released stretches and the rise after them out of the hold', () => {
    const log = makeLog({
      times: evenTimes(7200),
      columns: [pressureColumn((t) => (t % 1200 >= 900 ? 0 : t % 1200 < 3 ? 300 : 411)), oilColumn(() => 60)],
    });
    const analysis = analysed(log, {
      spec: spec({ operatingTemperature: { low: 50, unit: 'degC' } }),
      choices: [{ what: 'join-engagements', by: 'B. Tester', why: 'cycled on purpose' }],
    });
    expect(analysis.quantities.operatingPressure.value).toBe(411);
    expect(analysis.quantities.timeInBand).toMatchObject({ inside: 1 });
    expect(analysis.phases.filter(({ kind }) => kind === 'hold')).toHaveLength(6);
  });
});
