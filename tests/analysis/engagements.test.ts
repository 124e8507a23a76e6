import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { countedOver, countedPressure, engagedLevel, sustainedLevel } from '#analysis/engaged-level.ts';
import { timelineOf } from '#analysis/timeline.ts';
import { analysed, codes } from './analysed.ts';
import { engagedBetween, evenTimes, makeLog, pressureColumn, spec, type Column } from './synthetic-run.ts';

const engagements = (
  at: Column['at'],
  options: { step_s?: number; end_s?: number; columns?: Column[] } = {},
) => {
  const made = makeLog({
    times: evenTimes(options.end_s ?? 600, options.step_s ?? 1),
    columns: [pressureColumn(at), ...(options.columns ?? [])],
  });
  return analysed(made, { spec: spec() }).quantities.engagements.map(({ start_s, end_s }) => [
    start_s,
    end_s,
  ]);
};

describe('the pressure as it counts for engaging', () => {
  it('is of some rows what it is of them among all', () => {
    fc.assert(
      fc.property(
        fc.array(
          fc.tuple(
            fc.constantFrom(0.2, 1, 1, 1, 40),
            fc.oneof(fc.integer({ min: 0, max: 4200 }), fc.constant(NaN)),
          ),
          { minLength: 1, maxLength: 60 },
        ),
        fc.nat(59),
        fc.nat(60),
        (readings, first, rows) => {
          let at_s = 0;
          const times = readings.map(([step_s]) => (at_s += step_s));
          const timeline = timelineOf(makeLog({ times, columns: [pressureColumn(() => 0)] }));
          const values = Float64Array.from(readings, ([, tenths]) => tenths / 10),
            line = { slope: 2, offset: 3 };
          const from = Math.min(first, times.length),
            to = Math.min(from + rows, times.length);
          expect(countedOver(timeline, values, line)({ from, to })).toEqual(
            countedPressure(timeline, values)
              .map((value) => 2 * value + 3)
              .slice(from, to),
          );
        },
      ),
    );
  });
});

it('end after they begin, where the solenoid is read later than a short rise of the pressure', () => {
  // A reading each 5 s: every other one up, three in all, counts as up for one row; the solenoid follows three rows later.
  const short = (t: number): number => ([100, 110, 120].includes(t) || (t >= 300 && t < 500) ? 410 : 0.3);
  const solenoid: Column = {
    column: 'I',
    role: 'solenoid-current',
    unit: 'A',
    at: (t) => ((t >= 125 && t < 160) || (t >= 300 && t < 500) ? 0.8 : 0),
  };
  const found = engagements(short, { step_s: 5, columns: [solenoid] });
  expect(found).toHaveLength(2);
  for (const [start_s = NaN, end_s = NaN] of found) expect(end_s).toBeGreaterThan(start_s);
});

describe('the engaged level', () => {
  it('is half of the smaller of the low limit and the sustained level', () => {
    expect(engagedLevel(430, 400).level).toBe(200);
    expect(engagedLevel(148, 400).level).toBe(74);
    expect(engagedLevel(430, null).level).toBe(215);
  });
  it('is none where the sustained level is under a tenth of the low limit', () => {
    expect(engagedLevel(39.9, 400).level).toBeNull();
    expect(engagedLevel(40, 400).level).toBe(20);
    expect(engagedLevel(-1, null).level).toBeNull();
  });
  it('takes the highest value held for ten seconds together', () => {
    const timeline = timelineOf(makeLog({ times: evenTimes(100), columns: [pressureColumn(() => 0)] }));
    // Nine readings stand for nine seconds, ten for ten.
    const values = (readings: number): Float64Array =>
      timeline.time_s.map((t) => (t >= 40 && t < 40 + readings ? 500 : 400));
    expect(sustainedLevel(timeline, values(9), timeline.part)).toBe(400);
    expect(sustainedLevel(timeline, values(10), timeline.part)).toBe(500);
  });
  it('is what trying every stretch of rows finds', () => {
    fc.assert(
      fc.property(
        fc.array(
          fc.tuple(
            fc.constantFrom(0.5, 1, 1, 1, 2, 60),
            fc.oneof(fc.integer({ min: 0, max: 9 }), fc.constant(NaN)),
          ),
          { minLength: 3, maxLength: 80 },
        ),
        fc.constantFrom(2, 10),
        (rows, atLeast_s) => {
          let t = 0;
          const times = rows.map(([step_s]) => (t += step_s));
          const timeline = timelineOf(makeLog({ times, columns: [pressureColumn(() => 0)] }));
          const values = Float64Array.from(rows, ([, value]) => value);
          const there = times.flatMap((time_s, row) =>
            Number.isNaN(values[row]) ? [] : [{ time_s, row, value: values[row] ?? NaN }],
          );
          const bestHeld = (overGaps: boolean): number => {
            let best = -Infinity;
            there.forEach((last, end) => {
              // Back to the last gap between readings; the stretch begins at any row since then, with or without a reading.
              let begin = end;
              while (
                begin > 0 &&
                (overGaps ||
                  (there[begin]?.time_s ?? NaN) - (there[begin - 1]?.time_s ?? NaN) <
                    5 * timeline.medianInterval_s)
              )
                begin--;
              for (let row = there[begin]?.row ?? 0; row <= last.row; row++) {
                if (last.time_s + timeline.medianInterval_s - (times[row] ?? NaN) < atLeast_s) continue;
                const held = there.filter((one) => one.row >= row && one.row <= last.row);
                best = Math.max(best, Math.min(...held.map(({ value }) => value)));
              }
            });
            return best;
          };
          // A logger that writes in bursts has no such stretch without a gap: then from burst to burst.
          const unbroken = bestHeld(false);
          const best = unbroken === -Infinity ? bestHeld(true) : unbroken;
          const lowest = Math.min(...there.map(({ value }) => value));
          expect(sustainedLevel(timeline, values, timeline.part, atLeast_s)).toBe(
            there.length === 0 ? null : best === -Infinity ? lowest : best,
          );
        },
      ),
    );
  });
  it('is the lowest reading of a log shorter than that, and one reading of a log slower than that', () => {
    const short = timelineOf(makeLog({ times: [0, 1, 2], columns: [pressureColumn(() => 0)] }));
    expect(sustainedLevel(short, Float64Array.of(5, 7, 6), short.part)).toBe(5);
    const slow = timelineOf(makeLog({ times: [0, 900, 1800], columns: [pressureColumn(() => 0)] }));
    expect(sustainedLevel(slow, Float64Array.of(5, 7, 6), slow.part)).toBe(7);
  });
});

describe('engagements by pressure', () => {
  it('begin at the level and end below nine tenths of it', () => {
    // Low limit 400: engaged from 200, released under 180.
    const levels = (t: number): number =>
      t < 100 ? 199 : t < 200 ? 200 : t < 300 ? 181 : t < 400 ? 179 : t < 500 ? 199 : 420;
    expect(engagements(levels)).toEqual([
      [100, 300],
      [500, 600],
    ]);
  });
  it('do not end for a release shorter than 2 s or of fewer than three samples', () => {
    const dip = (from: number, to: number) => (t: number) => (t < 60 ? 0 : t >= from && t < to ? 0 : 411);
    // At twenty readings a second the counted pressure is a median over 3 s: 1.4 s pass unseen, 4 s do not.
    expect(engagements(dip(300, 301.4), { step_s: 0.05 })).toHaveLength(1);
    expect(engagements(dip(300, 304), { step_s: 0.05 })).toHaveLength(2);
    // One reading in 10 s: two samples are 20 s and still no release.
    expect(engagements(dip(300, 319), { step_s: 10 })).toHaveLength(1);
    expect(engagements(dip(300, 339), { step_s: 10 })).toHaveLength(2);
  });
  it('last two seconds at least', () => {
    const blip = (length: number) => (t: number) =>
      t < 60 ? 0 : t < 400 ? 411 : t >= 450 && t < 450 + length ? 411 : 0;
    expect(engagements(blip(8), { step_s: 0.05 })).toHaveLength(2);
    expect(engagements(blip(1.4), { step_s: 0.05 })).toHaveLength(1);
  });
  it('are none, said with the level, where the pressure stays under a tenth of the low limit', () => {
    const made = makeLog({ times: evenTimes(600), columns: [pressureColumn((t) => 20 + (t % 3))] });
    const analysis = analysed(made, { spec: spec() });
    expect(analysis.quantities.engagements).toEqual([]);
    expect(codes(analysis)).toContain('no-engagement');
    expect(analysis.quantities.operatingPressure).toMatchObject({ value: null });
    expect(analysis.judged).toMatchObject({ start_s: null, end_s: null, shareOfLog: 0, joined: 0 });
  });
});

describe('with a solenoid channel', () => {
  const solenoid = (on: (t: number) => boolean): Column => ({
    column: 'I',
    role: 'solenoid-current',
    unit: 'A',
    at: (t) => (on(t) ? 0.82 : 0),
  });
  const plain = engagedBetween(103, 401, () => 411);
  it('its edges give the instants', () => {
    const found = engagements((t) => plain(t), { columns: [solenoid((t) => t >= 100 && t < 400)] });
    expect(found).toEqual([[100, 400]]);
  });
  it('a short release ends an engagement if the solenoid released', () => {
    const at = (t: number): number => (t >= 300 && t < 302 ? 0 : plain(t));
    const always = [solenoid((t) => t >= 100 && t < 400)],
      released = [solenoid((t) => t >= 100 && t < 400 && !(t >= 299 && t < 302))];
    // Two readings at 1 s: too short by itself. (Five-reading medians do not even see it.)
    expect(engagements(at, { columns: always })).toHaveLength(1);
    const low = (t: number): number => (t >= 300 && t < 303 ? 0 : plain(t));
    expect(engagements(low, { columns: released })).toHaveLength(2);
  });
  it('an edge far from the crossing is not its instant: the shaft turned later', () => {
    const found = engagements((t) => plain(t), { columns: [solenoid((t) => t >= 10 && t < 400)] });
    expect(found[0]?.[0]).toBe(104);
  });
  it('says when the unit stays engaged without it', () => {
    const made = makeLog({
      times: evenTimes(600),
      columns: [pressureColumn((t) => (t < 60 ? 0 : t < 560 ? 411 : 0)), solenoid((t) => t >= 60 && t < 300)],
    });
    expect(codes(analysed(made, { spec: spec() }))).toContain('stays-engaged-without-solenoid');
  });
  it('says when it is switched on and nothing rises', () => {
    const made = makeLog({
      times: evenTimes(900),
      columns: [
        pressureColumn((t) => (t >= 60 && t < 300 ? 411 : 10)),
        solenoid((t) => (t >= 60 && t < 300) || (t >= 500 && t < 700)),
      ],
    });
    expect(codes(analysed(made, { spec: spec() }))).toContain('solenoid-without-pressure');
  });
  it('takes the hold-in current for on, not the pull-in current', () => {
    const column: Column = {
      column: 'I',
      role: 'solenoid-current',
      unit: 'A',
      at: (t) => (t < 100 || t >= 400 ? 0 : t < 101 ? 12 : 1.5),
    };
    expect(engagements((t) => plain(t), { columns: [column] })).toEqual([[100, 400]]);
  });
});

describe('a unit that holds its charge', () => {
  const charged =
    (dips: [number, number][], depth = 0.25) =>
    (t: number) =>
      t < 30 ? 0 : dips.some(([from, to]) => t >= from && t < to) ? 412 * (1 - depth) : 412;
  const held = (at: Column['at'], columns: Column[] = [], end_s = 900) =>
    analysed(makeLog({ times: evenTimes(end_s, 0.5), columns: [pressureColumn(at), ...columns] }), {
      spec: spec({ pressureBehaviour: 'held-charged' }),
    });
  it('is charged the whole time, and its dips are its engagements', () => {
    const analysis = held(
      charged([
        [200, 202],
        [500, 503],
      ]),
    );
    expect(analysis.quantities.engagements.map(({ start_s }) => start_s)).toEqual([200, 500]);
    expect(analysis.judged).toMatchObject({ start_s: 30, end_s: 900, joined: 1 });
  });
  it('has no dip of two samples, nor one before the pressure first stood, nor one that does not come back', () => {
    expect(held(charged([[200, 201]])).quantities.engagements).toEqual([]);
    const climbing = (t: number): number => (t < 30 ? 0 : t < 60 ? 250 : 412);
    expect(held(climbing).quantities.engagements).toEqual([]);
    const leaking = (t: number): number => (t < 30 ? 0 : t < 600 ? 412 : 412 * Math.exp(-(t - 600) / 400));
    expect(held(leaking).quantities.engagements).toEqual([]);
  });
  it('has no dip of a tenth or less, and a long sag is none either', () => {
    expect(held(charged([[200, 210]], 0.1)).quantities.engagements).toEqual([]);
    expect(held(charged([[200, 210]], 0.11)).quantities.engagements).toHaveLength(1);
    expect(held(charged([[200, 300]])).quantities.engagements).toEqual([]);
  });
  it('takes its engagements from the solenoid where that is logged', () => {
    const analysis = held(charged([[200, 202]]), [
      {
        column: 'On',
        role: 'solenoid-command',
        unit: '1',
        at: (t) => ((t >= 200 && t < 300) || (t >= 400 && t < 450) ? 1 : 0),
      },
    ]);
    expect(analysis.quantities.engagements.map(({ start_s, end_s }) => [start_s, end_s])).toEqual([
      [200, 300],
      [400, 450],
    ]);
  });
});
