import { describe, expect, it } from 'vitest';
import { assess } from '#assessment/assess.ts';
import type { Assessment } from '#formats/assessment.ts';
import type { Choice } from '#formats/judge.ts';
import type { Rig } from '#formats/rig.ts';
import type { Spec } from '#formats/spec.ts';
import { readLog } from '#log/read-log.ts';
import { gauge, noise, rig, spec } from '../analysis/synthetic-run.ts';

// Situations that the sample runs in sample-runs/ do not show, each a log made here as text and judged from its bytes on. What must
// come out follows from how it is made, never from what the program printed.

interface Given {
  spec?: Partial<Spec>;
  rig?: Rig | null;
  choices?: Choice[];
}
const bench = rig(gauge({ column: 'pressure_psi' }));

function judged(
  text: string,
  { spec: limits = {}, rig: given = bench, choices = [] }: Given = {},
): Assessment {
  const log = readLog(new TextEncoder().encode(text), { fileName: 'made.csv', rig: given, sha256: null });
  if (!log.ok) throw new Error(JSON.stringify(log.problems));
  const result = assess({
    log: log.value,
    rig: given,
    spec: spec(limits),
    judge: choices.length === 0 ? null : { format: 'overdrive-bench/judge', version: 1, choices },
    programVersion: '0.0.0',
  });
  if (!result.ok) throw new Error(JSON.stringify(result.problems));
  return result.value.assessment;
}
const criterion = (assessment: Assessment, id: string) => assessment.criteria.find((each) => each.id === id);
const verdictOf = (assessment: Assessment, id: string) => criterion(assessment, id)?.verdict;
const codesOf = ({ remarks }: Assessment): string[] => remarks.map(({ code }) => code);
const hand = { by: 'A. Sample', on: '2026-03-05', why: 'to see what it does' };

/** Rows of a log; a cell is a number with its digits, written as a logger would. */
function table(head: string, count: number, cells: (row: number) => string[]): string {
  return [head, ...Array.from({ length: count }, (_, row) => cells(row).join(','))].join('\n') + '\n';
}

const IDLE_s = 60;
/** A minute at rest, `hours` engaged, a minute at rest; a reading each 5 s, oil that warms to 60 °C with 1500 s. */
function plainRun(
  level: (since_s: number) => number,
  {
    hours = 6.1,
    oil = (since_s: number): number => 20 + 40 * (1 - Math.exp(-since_s / 1500)),
    head = 'elapsed_s,pressure_psi,oil_degC',
    scale = 1,
    digits = 1,
    seed = 1,
    read = (pressure: number, _since_s: number): number => pressure,
  } = {},
): string {
  const trembles = noise(seed, 0.5),
    engaged_s = hours * 3600;
  return table(head, Math.round((engaged_s + 2 * IDLE_s) / 5), (row) => {
    const since = 5 * row - IDLE_s,
      on = since >= 0 && since < engaged_s;
    const pressure = read(on ? level(since) + trembles() : 0.2, since);
    return [
      String(5 * row),
      (pressure * scale).toFixed(digits),
      oil(Math.min(Math.max(since, 0), engaged_s)).toFixed(1),
    ];
  });
}
const settlesAt = (end: number) => (since_s: number) => end + 8 * Math.exp(-since_s / 1500);
const hot: Partial<Spec> = { operatingTemperature: { low: 50, high: 80, unit: 'degC' } };

describe('both kinds of unit', () => {
  /** A charged unit at 412 psi that dips by a quarter, four times, 80 s apart, and comes back with 0.35 s. */
  const charged = (step_s: number, channel: string, cell: (on: boolean) => string[]) => {
    const trembles = noise(3);
    return table(`t_s,pressure_psi${channel},shaft_rpm`, Math.round(700 / step_s), (row) => {
      const t = row * step_s,
        cycle = t >= 60 && t < 380 ? (t - 60) % 80 : null;
      const dip = cycle === null || cycle > 30 ? 0 : 103 * Math.exp(-cycle / 0.35);
      const up =
        t < 30 ? 0.4 : t < 400 ? 412 * (1 - Math.exp(-(t - 29.9) / 1.5)) : 412 * 2 ** (-(t - 400) / 240);
      return [
        t.toFixed(2),
        (up - dip + 0.8 * trembles()).toFixed(1),
        ...cell(cycle !== null && cycle < 40),
        t >= 30 && t < 400 ? '1000' : '0',
      ];
    });
  };
  const limits: Partial<Spec> = {
    pressureBehaviour: 'held-charged',
    engagementDip: { atMost: 0.4, recovered_s: 2 },
    leakDown: { halfTimeAtLeast_s: 60 },
    ripple: { atMost: 15, unit: 'psi' },
  };
  it.each([
    ['the command gives the instants', ',solenoid_command', (on: boolean) => [on ? '1' : '0'], 100],
    ['without a solenoid channel the dips do', '', () => [], 140],
  ])('%s, and no dip is eaten as a spike', (_name, channel, cell, firstEnd_s) => {
    const assessment = judged(charged(0.05, channel, cell), { spec: limits });
    const { engagements, leakDown, ripple } = assessment.quantities;
    expect(engagements.map(({ start_s }) => Math.round(start_s))).toEqual([60, 140, 220, 300]);
    expect(engagements[0]?.end_s).toBeCloseTo(firstEnd_s, 0);
    for (const { dip, recovery_s } of engagements) {
      expect(dip).toBeCloseTo(0.25, 1);
      // Back within 5 %: 0.35 s · ln(0.25 / 0.05).
      expect(recovery_s).toBeGreaterThan(0.5);
      expect(recovery_s).toBeLessThan(0.66);
    }
    expect(leakDown.halfTime_s).toBeCloseTo(240, -1);
    expect(assessment.log.channels.find(({ role }) => role === 'pressure')?.spikes).toBe(0);
    // Twenty readings a second with the shaft at 16.7 turns a second: peak to peak, and no frequency.
    expect(ripple).toMatchObject({ frequency_Hz: null, order: null });
    expect(ripple.peakToPeak).not.toBeNull();
    expect(ripple.reason).toContain('would be an alias');
    expect(assessment.verdict).toBe('pass');
  });
  it('at one reading a second a quick dip is not assessed, and no engagement is denied', () => {
    const assessment = judged(
      charged(1, '', () => []),
      { spec: limits },
    );
    for (const id of ['engagement-dip', 'engagement-recovery'])
      expect(criterion(assessment, id)).toMatchObject({
        verdict: 'not-assessed',
        reason: expect.stringContaining('no engagement was found: without a solenoid channel'),
      });
    expect(criterion(assessment, 'ripple')).toMatchObject({
      verdict: 'not-assessed',
      reason: 'sampled every 1 s; ripple needs 20 samples a second',
    });
    expect(verdictOf(assessment, 'leak-down')).toBe('pass');
  });
});

describe('peak, range and hot minimum', () => {
  const limits: Partial<Spec> = { ...hot, peakPressure: { atMost: 440, unit: 'psi' } };
  it('the peak counts from three readings on; the lowest of the hot hold is shown', () => {
    const burst = (readings: number) =>
      judged(
        plainRun(settlesAt(410), {
          // Four hours in; later the pressure sits 6 psi lower for ten minutes.
          read: (p, since) =>
            since >= 14_400 && since < 14_400 + 5 * readings
              ? 452
              : since >= 16_000 && since < 16_600
                ? p - 6
                : p,
        }),
        { spec: limits },
      );
    const three = burst(3);
    expect(three.quantities.peakPressure).toEqual({ value: 452, unit: 'psi', at_s: 14_460 });
    expect(criterion(three, 'peak-pressure')).toMatchObject({ verdict: 'fail', value: 452 });
    expect(criterion(three, 'peak-pressure')?.reason).toContain('at most 440 psi: 12.0 psi above the limit');
    // 404 psi, less what the median of seven readings trembles by (σ some 0.6 psi, the lowest of 120).
    expect(three.quantities.holdRange.min).toBeLessThan(404);
    expect(three.quantities.holdRange.min).toBeGreaterThan(401.8);
    const two = burst(2);
    expect(two.quantities.peakPressure.value).toBeLessThan(423);
    expect(verdictOf(two, 'peak-pressure')).toBe('pass');
  });
  it('clipped from engaging on: it was engaged all the same, and settling counts from there', () => {
    const given = { spec: limits };
    const clipped = judged(
      plainRun(settlesAt(410), { read: (p, since) => (since >= 5 && since < 420 ? 600 : p) }),
      given,
    );
    const free = judged(plainRun(settlesAt(410)), given);
    expect(codesOf(clipped)).toContain('clipped');
    expect(clipped.judged.start_s).toBe(free.judged.start_s);
    expect(clipped.quantities.settling.time_s ?? 0).toBeGreaterThan(390);
    expect(free.quantities.settling.time_s ?? NaN).toBeLessThan(200);
  });
  it('clipped for two minutes while cold: set aside with a remark, and no peak is passed that nobody saw', () => {
    const assessment = judged(
      plainRun(settlesAt(410), {
        read: (p, since) => (since >= 300 && since < 420 ? 600 : p),
      }),
      { spec: limits },
    );
    expect(codesOf(assessment)).toContain('clipped');
    expect(assessment.log.channels.find(({ role }) => role === 'pressure')?.outOfRange).toBe(24);
    expect(assessment.quantities.peakPressure).toMatchObject({ value: null, atLeast: 600, at_s: 360 });
    expect(criterion(assessment, 'peak-pressure')?.reason).toContain(
      'at least 600 psi, 160 psi more than the 440 psi allowed',
    );
    expect(verdictOf(assessment, 'operating-pressure')).toBe('pass');
    expect(assessment.verdict).toBe('fail');
  });
});

describe('a solenoid that draws more than its sensor can tell', () => {
  // 0.8 A while engaged, but 2 A, the end of the range, for the first `pull_s`.
  const text = (pull_s: number) =>
    table('t_s,pressure_psi,solenoid_A', 1500, (row) => {
      const t = row / 5,
        on = t >= 10 && t < 280;
      return [
        t.toFixed(1),
        (on ? 410 + 0.1 * (row % 7) : 17).toFixed(1),
        (on ? (t < 10 + pull_s ? 2 : 0.8) : 0).toFixed(2),
      ];
    });
  const given = (atMost: number): Given => ({
    spec: { solenoidCurrent: { atMost, unit: 'A' } },
    rig: rig(gauge({ column: 'pressure_psi' }), {
      column: 'solenoid_A',
      role: 'solenoid-current',
      unit: 'A',
      range: { low: 0, high: 2 },
      uncertainty: { absolute: 0.02 },
    }),
  });
  it('fails a limit below the end, and does not pass one beyond it', () => {
    const long = judged(text(120), given(1));
    expect(long.quantities.solenoidCurrent).toMatchObject({ mean: null, max: null, atLeast: 2 });
    expect(criterion(long, 'solenoid-current')).toMatchObject({
      verdict: 'fail',
      reason:
        'the solenoid current stood at the end of its range: at least 2 A, 1 A more than the 1 A allowed',
    });
    expect(criterion(judged(text(120), given(3)), 'solenoid-current')).toMatchObject({
      verdict: 'not-assessed',
      reason: 'the solenoid current stood at the end of its range (2 A): how high it went is not known',
    });
  });
  it('pulling in for half a second is smoothed away, as it is below the end', () => {
    const short = judged(text(0.5), given(1));
    expect(short.quantities.solenoidCurrent.max).toBe(0.8);
    expect(verdictOf(short, 'solenoid-current')).toBe('pass');
  });
});

describe('which part is judged, by hand', () => {
  // Six engagements of 40 min, 10 min apart, at 409, 410, … 414 psi.
  const trembles = noise(9, 0.5);
  const cycled = table('elapsed_s,pressure_psi', 3620, (row) => {
    const t = 5 * row - IDLE_s,
      k = Math.floor(t / 3000),
      on = t >= 0 && k < 6 && t - 3000 * k < 2400;
    return [String(5 * row), (on ? 409 + k + trembles() : 17).toFixed(1)];
  });
  const limits: Partial<Spec> = { runLength: { atLeast_h: 3.5 } };
  it('one engagement of six, until they are joined', () => {
    const one = judged(cycled, { spec: limits });
    expect(one.judged.joined).toBe(1);
    expect(one.judged.shareOfLog).toBeCloseTo(2395 / 18_095, 2);
    expect(codesOf(one)).toContain('part-of-log-judged');
    expect(verdictOf(one, 'run-length')).toBe('fail');
    const six = judged(cycled, { spec: limits, choices: [{ what: 'join-engagements', ...hand }] });
    expect(six.judged.joined).toBe(6);
    // Six times 40 min, each to its last reading.
    expect(Math.abs((six.quantities.runLength?.length_s ?? NaN) - 6 * 2395)).toBeLessThan(60);
    expect(Math.abs((six.quantities.operatingPressure.value ?? NaN) - 411.5)).toBeLessThan(0.4);
    expect(Math.abs((six.quantities.plateauSpread.value ?? NaN) - 5)).toBeLessThan(0.3);
    expect(verdictOf(six, 'run-length')).toBe('pass');
    expect(codesOf(six)).toEqual(expect.arrayContaining(['engagements-joined', 'chosen-by-hand']));
  });
  it('borders and what is left out are taken from the assessment’s input', () => {
    // 398 psi for half an hour, from 3 h on.
    const door = plainRun((since) => (since >= 10_800 && since < 12_600 ? 398 : 410));
    const limitsOfHold: Partial<Spec> = { ...hot, timeInBand: { atLeast: 0.98 } };
    const whole = judged(door, { spec: limitsOfHold });
    expect(verdictOf(whole, 'time-in-band')).not.toBe('pass');
    const without = judged(door, {
      spec: limitsOfHold,
      choices: [{ what: 'leave-out', from_s: 10_800, to_s: 12_720, ...hand }],
    });
    expect(without.quantities.timeInBand.inside).toBe(1);
    expect(Math.abs((without.quantities.operatingPressure.value ?? NaN) - 410)).toBeLessThan(0.2);
    const later = judged(door, {
      spec: limitsOfHold,
      choices: [{ what: 'hold-start', to_s: 13_000, ...hand }],
    });
    expect(later.quantities.operatingPressure.start_s).toBe(13_000);
    expect(later.quantities.timeInBand.inside).toBe(1);
    const earlier = judged(door, {
      spec: limitsOfHold,
      choices: [{ what: 'hold-end', to_s: 10_000, ...hand }],
    });
    expect(earlier.quantities.operatingPressure.end_s).toBe(10_000);
    expect(earlier.judged.choices).toHaveLength(1);
  });
});

describe('drift, and how long it would take', () => {
  it('says when the line leaves the band', () => {
    // 412 psi, falling 1 psi an hour for 6.1 h: 405.9 at the end, 5.9 h above the low limit.
    const { drift } = judged(
      plainRun((since) => 412 - since / 3600),
      { spec: hot },
    ).quantities;
    expect(drift.trend).toBe('falling');
    expect(Math.abs((drift.slope ?? NaN) + 1)).toBeLessThan(0.05);
    expect(drift.low).toBeLessThan(-1);
    expect(drift.high).toBeGreaterThan(-1);
    expect(Math.abs((drift.bandExit_h ?? NaN) - 5.9)).toBeLessThan(0.4);
  });
  it('says how long the oil still needs', () => {
    // On its way from 20 to 70 °C with two hours: within 1 °C of it 7200 s · ln 50 after engaging.
    const { warmUp } = judged(
      plainRun(settlesAt(410), { oil: (since) => 20 + 50 * (1 - Math.exp(-since / 7200)) }),
      { spec: hot },
    ).quantities;
    expect(warmUp.low_s).toBeLessThan(7200);
    expect(warmUp.high_s).toBeGreaterThan(7200);
    expect(Math.abs((warmUp.stillToGo_s ?? NaN) - (7200 * Math.log(50) - 21_955))).toBeLessThan(200);
  });
  it('an excursion moves settling to after it; one in the last tenth means that it never settled', () => {
    const off = (from_s: number) =>
      judged(
        plainRun((since) => (since >= from_s && since < from_s + 600 ? 401.5 : settlesAt(410)(since))),
        { spec: { ...hot, settling: { tolerance: 5, unit: 'psi', within_min: 60 } } },
      );
    expect(Math.abs((off(15_000).quantities.settling.time_s ?? NaN) - 15_600)).toBeLessThan(30);
    const late = off(20_500);
    expect(late.quantities.settling).toMatchObject({ time_s: null });
    expect(Math.abs((late.quantities.settling.finalValue ?? NaN) - 410)).toBeLessThan(0.4);
    expect(criterion(late, 'settling')?.reason).toBe(
      'the pressure never stayed within 5 psi of its final value in 6 h 6 min, 60 min allowed',
    );
  });
});

describe('decisions', () => {
  // The gauge: ± 0.25 % of 600 psi, U = 2 · 1.5/√3 = 1.73 psi.
  const near = plainRun(() => 418.8);
  it.each([
    ['the whole of U', {}, 'undecided'],
    ['half of U', { guardFactor: 0.5 }, 'pass'],
    ['twice U', { guardFactor: 2 }, 'undecided'],
    ['simple', { decisionRule: 'simple' as const }, 'pass'],
    ['no upper limit', { pressureBand: { low: 400, unit: 'psi' as const } }, 'pass'],
    ['no lower limit', { pressureBand: { high: 420, unit: 'psi' as const } }, 'undecided'],
    ['a limit far below', { pressureBand: { high: 416, unit: 'psi' as const } }, 'fail'],
  ])('1.2 psi inside the limit: %s', (_name, limits, verdict) => {
    const found = criterion(judged(near, { spec: { ...hot, ...limits } }), 'operating-pressure');
    expect(found?.verdict).toBe(verdict);
    expect(found?.expandedUncertainty).toBeCloseTo(1.73, 1);
    // Φ(1.2 / 0.867) = 0.917, from a table of the normal distribution.
    if (found?.limits.high === 420) expect(found.probabilityOfConformity).toBeCloseTo(0.917, 1);
  });
});

describe('engaging, fast', () => {
  it('rise and overshoot of a second-order step', () => {
    // ω = 6/s, ζ = 0.5: overshoot e^(−πζ/√(1−ζ²)) = 0.1630; 10 % to 90 % in 0.2729 s (solved numerically).
    const w = 6 * Math.sqrt(0.75);
    const step = (s: number): number =>
      s <= 0 ? 0 : 1 - Math.exp(-3 * s) * (Math.cos(w * s) + (3 / w) * Math.sin(w * s));
    const trembles = noise(5);
    const text = (rate: number) =>
      table('t_s,pressure_psi', 60 * rate, (row) => {
        const t = row / rate;
        const p = t < 50 ? 17 + 393 * step(t - 10) : 17 + 393 * Math.exp(-(t - 50) / 0.8);
        return [t.toFixed(3), (p + 0.2 * trembles()).toFixed(1)];
      });
    const limits: Partial<Spec> = { engagementRise: { atMost_s: 0.5 } };
    const fast = judged(text(100), { spec: limits });
    const [first] = fast.quantities.engagements;
    expect(Math.abs((first?.rise_s ?? NaN) - 0.2729)).toBeLessThan(0.006);
    expect(Math.abs((first?.overshoot ?? NaN) - 0.163)).toBeLessThan(0.005);
    expect(Math.abs((first?.fall_s ?? NaN) - 0.8 * Math.log(9))).toBeLessThan(0.02);
    expect(verdictOf(fast, 'engagement-rise')).toBe('pass');
    // Once a second it may have taken half a second, or a whole one.
    const slow = judged(text(1), { spec: limits });
    expect(slow.quantities.engagements[0]).toMatchObject({ rise_s: null, overshoot: null });
    expect(criterion(slow, 'engagement-rise')).toMatchObject({
      verdict: 'not-assessed',
      reason: expect.stringContaining('too far apart to tell whether it kept the 0.5 s allowed'),
    });
  });
});

describe('plausibility', () => {
  it('oil beyond its sensor for most of the hold: no mean is made of what was left', () => {
    // On its way from 20 to 86 °C with 1500 s, the sensor ends at 80: from 1500 s · ln(66 / 6) = 3597 s on it tells nothing more.
    const given: Given = {
      spec: hot,
      rig: rig(gauge({ column: 'pressure_psi' }), {
        column: 'oil_degC',
        role: 'oil-temperature',
        unit: 'degC',
        range: { low: 0, high: 80 },
        uncertainty: { absolute: 1.5 },
      }),
    };
    const oil = (since: number): number => Math.min(80, 20 + 66 * (1 - Math.exp(-since / 1500)));
    const most = judged(plainRun(settlesAt(410), { oil }), given);
    expect(most.quantities.holdTemperature.mean).toBeNull();
    expect(criterion(most, 'hold-temperature')).toMatchObject({
      verdict: 'not-assessed',
      reason: expect.stringMatching(/stood at the end of its range, or beyond it, for 8\d % of the hold/u),
    });
    expect(verdictOf(most, 'operating-pressure')).toBe('pass');
    const within = judged(plainRun(settlesAt(410), { oil: (since) => Math.min(79, oil(since)) }), given);
    expect(within.quantities.holdTemperature.mean).not.toBeNull();
  });
  it('bar or kgf/cm²: a question where it would decide and no rig file says', () => {
    const inBar = (end: number) =>
      judged(
        plainRun(settlesAt(end), {
          head: 'elapsed_s,pressure_bar,oil_degC',
          scale: 0.0689475729,
          digits: 3,
        }),
        { spec: hot, rig: null },
      );
    const asked = inBar(404);
    // 404.2 psi read as kgf/cm² would be 404.2 · 0.980665 = 396.4 psi, out of the band.
    expect(asked.remarks.find(({ code }) => code === 'bar-or-kgf')?.text).toMatch(
      /396\.[2-5] psi instead of 404\.[1-4] psi/u,
    );
    expect(verdictOf(asked, 'operating-pressure')).toBe('pass');
    expect(codesOf(inBar(412))).not.toContain('bar-or-kgf');
  });
  it('frozen for half an hour of six: set aside with a remark, and the rest is judged', () => {
    let held = NaN;
    const assessment = judged(
      plainRun(settlesAt(410), {
        read: (p, since) => {
          if (since < 9000) held = p;
          return since >= 9000 && since < 10_800 ? held : p;
        },
      }),
      { spec: { ...hot, recordCoverage: { atLeast: 0.98 } } },
    );
    expect(codesOf(assessment)).toContain('pressure-frozen');
    // 1800 s of one value, with the reading that it repeats.
    expect(assessment.log.channels.find(({ role }) => role === 'pressure')?.stuck).toBe(360);
    expect(Math.abs((assessment.quantities.operatingPressure.value ?? NaN) - 410.2)).toBeLessThan(0.3);
    expect(verdictOf(assessment, 'operating-pressure')).toBe('pass');
    expect(assessment.quantities.recordCoverage?.share).toBeCloseTo(1 - 1800 / 21_955, 2);
    expect(verdictOf(assessment, 'record-coverage')).toBe('fail');
  });
});
