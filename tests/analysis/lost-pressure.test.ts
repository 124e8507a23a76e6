import { describe, expect, it } from 'vitest';
import { assess } from '#assessment/assess.ts';
import type { Choice } from '#formats/judge.ts';
import type { Log } from '#formats/log.ts';
import type { Spec } from '#formats/spec.ts';
import { evenTimes, makeLog, noise, pressureColumn, spec, type Column } from './synthetic-run.ts';

const current = (on: (t_s: number) => boolean): Column => ({
  column: 'Solenoid',
  role: 'solenoid-current',
  unit: 'A',
  at: (t) => (on(t) ? 0.8 : 0),
});
const shaft = (turns: (t_s: number) => boolean): Column => ({
  column: 'n',
  role: 'shaft-speed',
  unit: 'rpm',
  at: (t) => (turns(t) ? 1000 : 0),
});
/** A reading a second for five hours, engaged from a minute on at 411 psi, with noise; `after` is what it does from a time on. */
const made = (lost_s: number, end_s: number, level: number, ...more: Column[]): Log => {
  const scatter = noise(7);
  return makeLog({
    times: evenTimes(18_000),
    columns: [
      pressureColumn((t) => {
        const p = t < 60 ? 0.3 : t < lost_s ? 411 : t < end_s ? level : 0.3;
        return p + (p > 50 ? 0.8 : 0.05) * scatter();
      }),
      ...more,
    ],
  });
};
const judged = (log: Log, given: Partial<Spec> = {}, choices: Choice[] = []) => {
  const result = assess({
    log,
    rig: null,
    spec: spec(given),
    judge: choices.length === 0 ? null : { format: 'overdrive-bench/judge', version: 1, choices },
    programVersion: '0',
  });
  if (!result.ok) throw new Error(JSON.stringify(result.problems));
  const { assessment } = result.value;
  return {
    ...assessment,
    lost: assessment.remarks.find(({ code }) => code === 'pressure-lost')?.text ?? null,
  };
};

describe('a unit that gives way with its solenoid on', () => {
  const on = current((t) => t >= 60 && t < 17_900);
  it('is not released: the run goes on to the switching off, and does not pass', () => {
    const run = judged(made(12_000, 17_900, 100, on));
    expect(run.judged.end_s).toBe(17_899);
    expect(run.verdict).toBe('fail');
    expect(run.lost).toMatch(/From 3 h 20 min to 4 h 58 min .* solenoid was on: it stood at (?:100|99\.9)/u);
  });
  it('does not pass where it was for two minutes of five hours only, and came back', () => {
    const scatter = noise(8);
    const log = makeLog({
      times: evenTimes(18_000),
      columns: [
        pressureColumn((t) => {
          const p = t < 60 || t >= 17_900 ? 0.3 : t >= 9000 && t < 9120 ? 100 : 411;
          return p + (p > 50 ? 0.8 : 0.05) * scatter();
        }),
        on,
      ],
    });
    const run = judged(log);
    expect(run.quantities.engagements).toHaveLength(1);
    // 120 of 17,840 s at 100 psi: the mean is 408.9 psi and lies in the band.
    expect(run.quantities.operatingPressure.value).toBeCloseTo(411 - (311 * 120) / 17_835, 0);
    expect(run.verdict).toBe('not-assessed');
    expect(run.lost).toContain('From 2 h 30 min to 2 h 32 min');
  });
  it('is engaged no longer than the shaft turns', () => {
    const run = judged(
      made(
        12_000,
        17_900,
        0.3,
        on,
        shaft((t) => t >= 30 && t < 12_000),
      ),
    );
    expect(run.judged.end_s).toBe(11_999);
    expect(run.verdict).toBe('pass');
    expect(run.lost).toBeNull();
  });
  it('may have been stopped where the pressure is gone and no shaft speed is logged: not passed, unless the end is set by hand', () => {
    const log = made(12_000, 17_900, 0.3, on);
    const run = judged(log);
    expect(run.verdict).toBe('not-assessed');
    expect(run.quantities.operatingPressure.value).toBeCloseTo(411, 0);
    expect(run.lost).toMatch(/gone .* with the solenoid on/u);
    const choices: Choice[] = [
      { what: 'hold-end', to_s: 11_990, by: 'B. Tester', why: 'motor stopped here' },
    ];
    expect(judged(log, {}, choices)).toMatchObject({ verdict: 'pass', lost: null });
  });
  it('is not seen in a solenoid that is on while the unit is released: that wire is the wrong way about', () => {
    const run = judged(
      made(
        17_900,
        17_900,
        0,
        current((t) => t < 60 || t >= 17_900),
      ),
    );
    expect(run.lost).toBeNull();
    expect(run.verdict).toBe('pass');
  });
});

describe('a pressure that falls and stays up, without a solenoid in the log', () => {
  it('is no release that can be told: the run does not pass, and the time after it is no run-down', () => {
    const run = judged(made(12_000, 17_900, 100));
    expect(run.verdict).toBe('not-assessed');
    expect(run.criteria[0]?.reason).toContain('no release is logged');
    expect(run.lost).toMatch(/From 3 h 20 min to 4 h 58 min the pressure stood at 100/u);
    const down = run.phases.find(({ kind }) => kind === 'run-down');
    expect((down?.end_s ?? Infinity) - (down?.start_s ?? 0)).toBeLessThanOrEqual(61);
  });
  it('nor where the log ends with it', () => {
    expect(judged(made(17_970, 20_000, 100)).verdict).toBe('not-assessed');
  });
  it('is one where it falls within a minute, where the spec allows as much when released, and where it stood there before', () => {
    expect(judged(made(12_000, 12_050, 100)).verdict).toBe('pass');
    expect(
      judged(made(12_000, 17_900, 100), { releasedPressure: { atMost: 110, unit: 'psi' } }).criteria[0]
        ?.verdict,
    ).toBe('pass');
    const residual = makeLog({
      times: evenTimes(18_000),
      columns: [pressureColumn((t) => (t < 60 || t >= 12_000 ? 100 : 411) + (t % 7) / 10)],
    });
    expect(judged(residual).verdict).toBe('pass');
  });
});

describe('a unit that holds its charge', () => {
  it('gives way where the pressure goes with the shaft turning, and only leaks down once it stands', () => {
    const held = { pressureBehaviour: 'held-charged' as const };
    const lost = judged(
      made(
        12_000,
        17_900,
        100,
        shaft((t) => t >= 60 && t < 17_900),
      ),
      held,
    );
    expect(lost.verdict).toBe('fail');
    expect(lost.lost).toContain('while the shaft turned');
    const stopped = judged(
      made(
        12_000,
        17_900,
        100,
        shaft((t) => t >= 60 && t < 12_000),
      ),
      held,
    );
    expect(stopped).toMatchObject({ verdict: 'pass', lost: null });
  });
});
