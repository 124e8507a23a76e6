import { describe, expect, it } from 'vitest';
import { analysed, codes, refusal } from './analysed.ts';
import { evenTimes, makeLog, oilColumn, pressureColumn, spec, type Column } from './synthetic-run.ts';

/** Engaged from 100 s on to the end, 411 psi but for what `change` says; final value 411. */
const made = (end_s: number, at: (t: number) => number, oil?: Column['at'], times = evenTimes(end_s)) =>
  makeLog({
    times,
    columns: [pressureColumn((t) => (t < 100 ? 0 : at(t))), ...(oil ? [oilColumn(oil)] : [])],
  });
const settled = (at: (t: number) => number, end_s = 7300) =>
  analysed(made(end_s, at), { spec: spec({ settling: { tolerance: 5, unit: 'psi' } }) });
const warm = { operatingTemperature: { low: 50, high: 80, unit: 'degC' as const } };

describe('settling duration', () => {
  it('is the time from engaging until the pressure stays within the tolerance', () => {
    // A step of the smoothed line falls with that of the readings: 430 up to 1,000 s.
    expect(settled((t) => (t < 1000 ? 430 : 411)).quantities.settling).toMatchObject({
      time_s: 900,
      finalValue: 411,
      tolerance: 5,
    });
  });
  it('is moved by a late excursion to after it', () => {
    expect(settled((t) => (t >= 4000 && t < 4200 ? 400 : 411)).quantities.settling.time_s).toBe(4100);
  });
  it('is none after an excursion in the final tenth: it never settled, and the final value stays', () => {
    const { settling } = settled((t) => (t >= 6900 && t < 7000 ? 400 : 411)).quantities;
    expect(settling).toMatchObject({ time_s: null, finalValue: 411 });
    expect(settling.reason).toContain('never settled');
  });
  it('is nought where nothing ever lay outside', () => {
    expect(settled(() => 411).quantities.settling.time_s).toBe(0);
  });
  it('takes 2 % of the final value where the spec gives no tolerance', () => {
    const analysis = analysed(
      made(3000, () => 411),
      { spec: spec() },
    );
    expect(analysis.quantities.settling.tolerance).toBeCloseTo(8.22, 9);
    expect(analysis.settings.settlingTolerance).toMatchObject({ unit: 'psi' });
  });
  it('takes the tolerance in its own unit', () => {
    const analysis = analysed(
      made(3000, () => 411),
      {
        spec: spec({ settling: { tolerance: 0.5, unit: 'bar' } }),
      },
    );
    expect(analysis.quantities.settling.tolerance).toBeCloseTo(7.251886887, 6);
  });
});

describe('the hold', () => {
  it('starts no sooner than 5 s after engaging: a rise is no hold', () => {
    const start = (length_s: number): number | null =>
      analysed(
        makeLog({
          times: evenTimes(10 + length_s, 0.05),
          columns: [pressureColumn((t) => (t < 10 ? 0 : 410 * (1 - Math.exp(-(t - 10) / 1.8))))],
        }),
        { spec: spec() },
      ).quantities.operatingPressure.start_s;
    // The median over half a minute passes the rise off as steady: all of it lies in one window.
    expect(start(15)).toBeGreaterThanOrEqual(10 + 5);
    expect(start(15)).toBeLessThan(10 + 7.5);
  });
  const start = (at: (t: number) => number, oil?: Column['at'], end_s = 7300) =>
    analysed(made(end_s, at, oil), {
      spec: spec({ settling: { tolerance: 5, unit: 'psi' }, ...(oil ? warm : {}) }),
    }).quantities.operatingPressure;
  it('starts when the pressure first stays within tolerance for ten minutes', () => {
    expect(start((t) => (t < 1000 ? 430 : 411)).start_s).toBe(1000);
    // Within for 500 s, out, then within for good.
    expect(start((t) => (t >= 600 && t < 700 ? 430 : 411)).start_s).toBe(700);
  });
  it('keeps a later excursion in it', () => {
    const found = start((t) => (t >= 4000 && t < 5200 ? 391 : 411));
    expect(found.start_s).toBe(105);
    expect(found.value).toBeLessThan(409);
  });
  it('starts not before the rise is over', () => {
    expect(start(() => 411).start_s).toBe(105);
  });
  it('waits for the oil to reach operating temperature', () => {
    expect(
      start(
        (t) => (t < 1000 ? 430 : 411),
        (t) => 20 + t / 100,
      ).start_s,
    ).toBe(3000);
    // The later of the two.
    expect(
      start(
        (t) => (t < 4000 ? 430 : 411),
        (t) => 20 + t / 100,
      ).start_s,
    ).toBe(4000);
  });
  it('is none where the oil never got there, however long the run was: cold is not a result', () => {
    const analysis = analysed(
      made(
        7300,
        () => 411,
        () => 41,
      ),
      { spec: spec(warm) },
    );
    const { operatingPressure, drift, timeInBand, holdRange, holdTemperature, runLength } =
      analysis.quantities;
    expect([
      operatingPressure.value,
      drift.slope,
      timeInBand.inside,
      holdRange.min,
      holdTemperature.mean,
    ]).toEqual([null, null, null, null, null]);
    expect(operatingPressure.reason).toContain('never reached operating temperature');
    expect(runLength?.length_s).toBe(7200);
    expect(codes(analysis)).toContain('never-warm');
  });
  it('asks for a tenth of the run only, where that is shorter than ten minutes', () => {
    // A run of 1,000 s, within tolerance from 850 s on: 250 s are more than its tenth.
    const found = start((t) => (t < 850 ? 430 : 411), undefined, 1100);
    // Final value: median over the last third, 767 to 1,100 s, mostly 411.
    expect(found.start_s).toBe(850);
  });
  it('starts by temperature alone where the pressure was never steady, with a remark', () => {
    const wild = (t: number): number => (t % 400 < 200 ? 400 : 422);
    const analysis = analysed(
      made(7300, wild, (t) => 20 + t / 100),
      { spec: spec({ settling: { tolerance: 5, unit: 'psi' }, ...warm }) },
    );
    expect(analysis.quantities.operatingPressure.start_s).toBe(3000);
    expect(codes(analysis)).toContain('never-steady');
    const without = analysed(made(7300, wild), { spec: spec({ settling: { tolerance: 5, unit: 'psi' } }) });
    expect(without.quantities.operatingPressure.start_s).toBe(3700);
  });
  it('pauses after a gap until the oil is warm again, and has the first start and the last end', () => {
    const times = evenTimes(9000).filter((t) => !(t > 4000 && t < 5000));
    const oil = (t: number): number => (t < 5000 ? 60 : 40 + (t - 5000) / 50);
    const analysis = analysed(
      made(9000, () => 411, oil, times),
      { spec: spec(warm) },
    );
    expect(analysis.phases.map(({ kind, start_s, end_s }) => [kind, start_s, end_s])).toEqual([
      ['idle', 0, 100],
      ['warm-up', 100, 105],
      ['hold', 105, 4000],
      ['gap', 4000, 5000],
      ['warm-up', 5000, 5500],
      ['hold', 5500, 9000],
    ]);
    expect(analysis.quantities.operatingPressure).toMatchObject({ start_s: 105, end_s: 9000 });
    expect(codes(analysis)).toContain('hold-paused');
  });
  it('goes on at once after a gap over which the oil stayed warm', () => {
    const times = evenTimes(9000).filter((t) => !(t > 4000 && t < 4100));
    const analysis = analysed(
      made(
        9000,
        () => 411,
        () => 60,
        times,
      ),
      { spec: spec(warm) },
    );
    expect(analysis.phases.filter(({ kind }) => kind === 'hold')).toEqual([
      { kind: 'hold', start_s: 105, end_s: 4000 },
      { kind: 'hold', start_s: 4100, end_s: 9000 },
    ]);
  });
  it('without an oil temperature goes on after a gap when the pressure is within tolerance for ten minutes', () => {
    const times = evenTimes(9000).filter((t) => !(t > 4000 && t < 5000));
    const analysis = analysed(
      made(9000, (t) => (t >= 5000 && t < 5600 ? 425 : 411), undefined, times),
      { spec: spec({ settling: { tolerance: 5, unit: 'psi' } }) },
    );
    expect(analysis.phases.filter(({ kind }) => kind === 'hold')).toEqual([
      { kind: 'hold', start_s: 105, end_s: 4000 },
      { kind: 'hold', start_s: 5600, end_s: 9000 },
    ]);
  });
  it('takes the operating temperature in its own unit', () => {
    const found = analysed(
      made(
        7300,
        () => 411,
        (t) => 20 + t / 100,
      ),
      {
        spec: spec({ operatingTemperature: { low: 122, unit: 'degF' } }),
      },
    );
    expect(found.quantities.operatingPressure.start_s).toBe(3000);
  });
});

describe('borders by hand', () => {
  const log = made(7300, (t) => (t < 1000 ? 430 : t < 6000 ? 411 : 405));
  const by = { by: 'B. Tester', on: '2026-03-05', why: 'the lamp fell on the bench' };
  it('move the hold, and the choice is listed', () => {
    const analysis = analysed(log, {
      spec: spec(),
      choices: [
        { what: 'hold-start', to_s: 2000, ...by },
        { what: 'hold-end', to_s: 5000, ...by },
      ],
    });
    expect(analysis.quantities.operatingPressure).toMatchObject({ value: 411, start_s: 2000, end_s: 5000 });
    expect(analysis.judged.choices).toHaveLength(2);
    expect(analysis.phases.at(-1)).toEqual({ kind: 'not-judged', start_s: 5001, end_s: 7300 });
  });
  it('leave a span out of everything that is judged', () => {
    const analysis = analysed(
      made(7300, (t) => (t >= 3000 && t <= 3300 ? 470 : 411)),
      {
        spec: spec(),
        choices: [{ what: 'leave-out', from_s: 3000, to_s: 3300, ...by }],
      },
    );
    const { operatingPressure, settling, peakPressure, timeInBand } = analysis.quantities;
    expect(operatingPressure.value).toBe(411);
    expect(settling.time_s).toBe(0);
    expect(peakPressure.value).toBe(411);
    expect(timeInBand.inside).toBe(1);
    expect(analysis.phases.map(({ kind }) => kind)).toEqual([
      'idle',
      'warm-up',
      'hold',
      'not-judged',
      'hold',
    ]);
  });
  it('are refused where they leave less than ten minutes of hold, or a tenth of a short run', () => {
    const refused = (from_s: number, to_s: number) =>
      refusal(log, {
        spec: spec(),
        choices: [
          { what: 'hold-start', to_s: from_s, ...by },
          { what: 'hold-end', to_s, ...by },
        ],
      });
    expect(refused(2000, 2599)).toMatchObject([{ code: 'judge-refused', choice: 1 }]);
    expect(refused(2000, 2600)).toEqual([]);
  });
  it('are refused where they say nothing or lie outside', () => {
    const one = (choice: Parameters<typeof refusal>[1]['choices']) =>
      refusal(log, { spec: spec(), ...(choice ? { choices: choice } : {}) });
    expect(one([{ what: 'hold-start', ...by }])).toMatchObject([{ code: 'judge-refused', choice: 0 }]);
    expect(one([{ what: 'leave-out', from_s: 50, ...by }])).toMatchObject([{ code: 'judge-refused' }]);
    expect(one([{ what: 'leave-out', from_s: 500, to_s: 400, ...by }])).toMatchObject([
      { code: 'judge-refused' },
    ]);
    expect(one([{ what: 'leave-out', from_s: 0, to_s: 7300, ...by }])).toMatchObject([
      { code: 'judge-refused' },
    ]);
    expect(one([{ what: 'hold-end', to_s: 99_999, ...by }])).toMatchObject([{ code: 'judge-refused' }]);
  });
});

describe('a whole-hour step taken for a power cut', () => {
  const log = makeLog({
    times: evenTimes(7200),
    columns: [pressureColumn((t) => (t < 100 ? 0 : 411))],
    clockSteps: [
      { at_s: 3000, step_s: 3600, cuts: false },
      { at_s: 5000, step_s: -3600, cuts: false },
    ],
  });
  const choice = { what: 'gap-not-clock-step' as const, by: 'B. Tester', why: 'the breaker had tripped' };
  it('stands as a gap of that length; the log itself is not changed', () => {
    const analysis = analysed(log, { spec: spec(), choices: [{ ...choice, from_s: 3000 }] });
    expect(analysis.log.gaps).toEqual([{ start_s: 3000, end_s: 3001 + 3600 }]);
    expect(analysis.log.clockSteps).toEqual([{ at_s: 5000 + 3600, step_s: -3600 }]);
    expect(analysis.log.duration_s).toBe(7200 + 3600);
    expect(analysis.quantities.runLength?.length_s).toBe(7100 - 1);
    expect(log.gaps).toEqual([]);
    expect(log.time_s.at(-1)).toBe(7200);
  });
  it('is refused for a step back, and where there is no step', () => {
    expect(refusal(log, { spec: spec(), choices: [{ ...choice, from_s: 5000 }] })).toMatchObject([
      { code: 'judge-refused', choice: 0 },
    ]);
    expect(refusal(log, { spec: spec(), choices: [{ ...choice, from_s: 4000 }] })).toHaveLength(1);
    expect(refusal(log, { spec: spec(), choices: [choice] })).toHaveLength(1);
  });
});
