import { describe, expect, it } from 'vitest';
import { assess } from '#assessment/assess.ts';
import type { Rig } from '#formats/rig.ts';
import { analysed, codes } from './analysed.ts';
import {
  evenTimes,
  gauge,
  makeLog,
  noise,
  oilColumn,
  pressureColumn,
  rig,
  spec,
  type Column,
} from './synthetic-run.ts';

const warming = (t: number): number => 20 + 40 * (1 - Math.exp(-t / 1500));
const run = (t: number): number => (t < 100 || t > 7100 ? 0.3 : 411);
const log = (pressure: Partial<Column> & { at: Column['at'] }, ...more: Column[]) =>
  makeLog({ times: evenTimes(7200, 2), columns: [pressureColumn(pressure.at, pressure), ...more] });
/** Verdicts of a made log by criterion. */
function verdicts(made: ReturnType<typeof log>, given: Rig | null = null): Record<string, string> {
  const result = assess({
    log: made,
    rig: given,
    spec: spec({ runLength: { atLeast_h: 1 }, recordCoverage: { atLeast: 0.9 } }),
    judge: null,
    programVersion: '0',
  });
  if (!result.ok) throw new Error(JSON.stringify(result.problems));
  const { criteria, verdict } = result.value.assessment;
  return {
    ...Object.fromEntries(criteria.map((criterion) => [criterion.id, criterion.verdict])),
    overall: verdict,
  };
}

describe('a plain run', () => {
  it('looks plausible', () => {
    const random = noise(9);
    const plain = log({ at: (t) => run(t) + 0.3 * random() }, oilColumn(warming));
    expect(codes(analysed(plain, { spec: spec(), rig: rig(gauge()) }))).toEqual([]);
  });
});

describe('the unit of the pressure', () => {
  const findings = (made: ReturnType<typeof log>) => {
    const analysis = analysed(made, { spec: spec() });
    return { codes: codes(analysis), reach: analysis.grave.map(({ reach }) => reach) };
  };
  it('looks wrong where another usual unit brings the pressure to the band', () => {
    const asBar = log({ at: (t) => run(t) / 14.503773773 });
    expect(findings(asBar).codes).toContain('unit-looks-wrong');
    expect(findings(asBar).reach).toContain('pressure');
    const asKPa = log({ at: (t) => 6.894757 * run(t) });
    expect(findings(asKPa).codes).toContain('unit-looks-wrong');
    // Labelled bar, in truth psi.
    expect(findings(log({ at: run, unit: 'bar' })).codes).toContain('unit-looks-wrong');
    // Labelled bar, in truth mbar.
    const asMbar = log({ at: (t) => 68.94757 * run(t), unit: 'bar' });
    expect(findings(asMbar).codes).toContain('unit-looks-wrong');
  });
  it('is not doubted on a unit that is merely far too low', () => {
    expect(findings(log({ at: (t) => 0.36 * run(t) })).codes).not.toContain('unit-looks-wrong');
    expect(verdicts(log({ at: (t) => 0.36 * run(t) }))).toMatchObject({ 'operating-pressure': 'fail' });
  });
  it('leaves nothing to judge', () => {
    const found = verdicts(log({ at: run, unit: 'bar' }));
    expect(found).toMatchObject({
      'operating-pressure': 'not-assessed',
      'run-length': 'not-assessed',
      overall: 'not-assessed',
    });
  });
  it('is asked about where bar or kgf/cm² would decide, and only asked', () => {
    // 28.2 bar are 409.0 psi; 28.2 kgf/cm² are 401.1 psi: both inside. 28.0 against a low limit of 400: 406.1 and 398.3.
    const at = (level: number, more: Partial<Column> = {}) =>
      findings(log({ at: (t) => (run(t) > 1 ? level : 0), unit: 'bar', ...more }));
    expect(at(28.2).codes).not.toContain('bar-or-kgf');
    expect(at(28.0).codes).toContain('bar-or-kgf');
    expect(at(28.0).reach).toEqual([]);
    // The rig file or the user said so: no question.
    expect(at(28.0, { unitFrom: 'rig' }).codes).not.toContain('bar-or-kgf');
  });
});

describe('swapped channels', () => {
  it('are seen also where the rig sets the readings aside as out of range', () => {
    const swapped = log({ at: warming }, oilColumn(run));
    expect(codes(analysed(swapped, { spec: spec() }))).toEqual(['channels-look-swapped']);
    const strict = rig(gauge(), {
      column: 'Oil',
      role: 'oil-temperature',
      unit: 'degC',
      range: { low: -20, high: 150 },
    });
    expect(codes(analysed(swapped, { spec: spec(), rig: strict }))).toContain('channels-look-swapped');
    expect(verdicts(swapped)).toMatchObject({ overall: 'not-assessed', 'run-length': 'not-assessed' });
  });
  it('are not a hot oil alone', () => {
    const hot = analysed(
      log(
        { at: run },
        oilColumn((t) => 170 + 0.1 * (t % 3)),
      ),
      { spec: spec() },
    );
    expect(codes(hot)).toContain('oil-temperature-implausible');
    expect(hot.grave.map(({ reach }) => reach)).toEqual(['oil-temperature']);
  });
});

describe('the oil temperature', () => {
  const hot = spec({
    operatingTemperature: { low: 50, high: 80, unit: 'degC' },
    runLength: { atLeast_h: 1 },
  });
  const remarks = (oil: Column, rigged: Rig | null = null) => {
    const analysis = analysed(log({ at: (t) => run(t) + 0.1 * (t % 7) }, oil), { spec: hot, rig: rigged });
    return {
      codes: codes(analysis),
      grave: analysis.grave.map(({ reach }) => reach),
      text: (code: string) => analysis.remarks.find((remark) => remark.code === code)?.text ?? '',
    };
  };
  const trembling = (level: (t: number) => number) => {
    const random = noise(4);
    return oilColumn((t) => Math.round(10 * (level(t) + 0.2 * random())) / 10);
  };
  const quick = (t: number): number => 20 + 45 * (1 - Math.exp(-t / 600));

  it('is no reading where one value stands from first to last', () => {
    const found = remarks(oilColumn(() => 60));
    expect(found.codes).toContain('oil-single-value');
    expect(found.grave).toContain('hold-temperature');
    expect(remarks(trembling(() => 60)).codes).not.toContain('oil-single-value');
  });
  it('that freezes warm is said, and not judged where it froze for most of the hold', () => {
    const moving = trembling(quick);
    const frozenFrom = (from: number, to: number): Column =>
      oilColumn((t, i) => (t >= from && t < to ? 62.3 : moving.at(t, i)));
    expect(remarks(moving).codes).not.toContain('oil-frozen');
    const short = remarks(frozenFrom(4000, 5000));
    expect(short.codes).toContain('oil-frozen');
    expect(short.grave).not.toContain('hold-temperature');
    const long = remarks(frozenFrom(2500, 7000));
    expect(long.grave).toContain('hold-temperature');
    expect(long.text('oil-frozen')).toContain('of the hold in all');
  });
  it('that went cold within the hold is said with how long and how cold', () => {
    expect(remarks(trembling(quick)).codes).not.toContain('hold-partly-cold');
    const found = remarks(trembling((t) => (t > 4000 && t < 5200 ? 42 : quick(t))));
    expect(found.text('hold-partly-cold')).toMatch(
      /^For (?:19|20) min of the hold .* 4[12]\.\d °C at the lowest/u,
    );
  });
  it('is asked for its unit where the other one would be at operating temperature', () => {
    expect(remarks(trembling((t) => 1.8 * quick(t) + 32)).text('celsius-or-fahrenheit')).toContain(
      'really in °C? At its hottest it reads 149',
    );
    expect(remarks({ ...trembling(quick), unit: 'degF' }).codes).toContain('celsius-or-fahrenheit');
    expect(remarks(trembling(quick)).codes).not.toContain('celsius-or-fahrenheit');
    expect(remarks(trembling((t) => quick(t) - 20)).codes).not.toContain('celsius-or-fahrenheit');
  });
  it('without a unit is there, and of no use', () => {
    expect(remarks({ ...trembling(quick), unit: null }).codes).toContain('oil-without-unit');
  });
  it('at the end of its sensor is counted', () => {
    const given = rig(gauge(), {
      column: 'oil',
      role: 'oil-temperature',
      unit: 'degC',
      range: { low: 0, high: 64 },
      uncertainty: { absolute: 1 },
    });
    const random = noise(4);
    const found = remarks(
      oilColumn((t) => (t > 3000 && t < 4000 ? 64 : Math.min(quick(t) + 0.2 * random(), 63.8)), {
        column: 'oil',
      }),
      given,
    );
    expect(found.text('oil-out-of-range')).toMatch(/^499 oil readings stand/u);
  });
});

describe('a clipped gauge', () => {
  const clips = (share: number) => log({ at: (t) => (t > 100 && t < 100 + share * 7000 ? 450 : run(t)) });
  const small = rig(gauge({ range: { low: 0, high: 450 } }));
  it('is said, and the shorter stretch is set aside', () => {
    const analysis = analysed(clips(0.2), { spec: spec(), rig: small });
    expect(codes(analysis)).toContain('clipped');
    expect(analysis.grave).toEqual([]);
    expect(analysis.quantities.operatingPressure.value).toBe(411);
  });
  it('leaves nothing to judge when it is more than half of the hold', () => {
    expect(verdicts(log({ at: (t) => (run(t) > 1 ? 450 : 0) }), small)).toMatchObject({
      'operating-pressure': 'not-assessed',
      overall: 'not-assessed',
    });
  });
});

describe('a frozen sensor', () => {
  const random = noise(1);
  const frozen = (share: number) =>
    log({
      at: (t) => (t > 1000 && t < 1000 + share * 6000 ? 411.23 : run(t) + (run(t) > 1 ? 0.5 * random() : 0)),
    });
  it('is said, and the shorter stretch is set aside', () => {
    const analysis = analysed(frozen(0.2), { spec: spec() });
    expect(codes(analysis)).toContain('pressure-frozen');
    expect(analysis.grave).toEqual([]);
  });
  it('leaves nothing to judge when it is more than half of the hold', () => {
    expect(verdicts(frozen(0.9))).toMatchObject({
      'operating-pressure': 'not-assessed',
      overall: 'not-assessed',
    });
  });
});

describe('the oil probe', () => {
  const air = (at: (t: number) => number): Column => ({
    column: 'Air',
    role: 'ambient-temperature',
    unit: 'degF',
    at,
  });
  it('reads like the air when it has fallen out', () => {
    const analysis = analysed(
      log(
        { at: run },
        oilColumn(() => 20),
        air(() => 68.5),
      ),
      { spec: spec() },
    );
    expect(codes(analysis)).toContain('oil-like-air');
    expect(analysis.grave.map(({ reach }) => reach)).toContain('oil-temperature');
    expect(
      codes(
        analysed(
          log(
            { at: run },
            oilColumn(warming),
            air(() => 68),
          ),
          { spec: spec() },
        ),
      ),
    ).not.toContain('oil-like-air');
  });
  it('is said to have come out when the oil falls within a minute', () => {
    const fell = log(
      { at: run },
      oilColumn((t) => (t < 5000 ? 60 : 60 - Math.min(35, (t - 5000) / 2))),
    );
    expect(codes(analysed(fell, { spec: spec() }))).toContain('oil-temperature-fell');
  });
  it('tells nothing of heat where it stays out for a part of the hold, whatever the air is', () => {
    // The pressure goes with oil that nobody reads any more: no slope at "constant heat" can be told of it.
    const at = (out: (t: number) => boolean) =>
      analysed(
        log(
          {
            at: (t, row) =>
              t < 60 || t > 7140 ? run(t) : 412 - 0.1 * (warming(t) - 20) + 0.01 * ((row * 7) % 13),
          },
          oilColumn((t) => (out(t) ? 21 : warming(t))),
        ),
        { spec: spec() },
      );
    const out = at((t) => t > 5000);
    expect(out.grave.map(({ reach }) => reach)).toContain('oil-temperature');
    expect(out.quantities.holdTemperature).toMatchObject({
      mean: null,
      reason: expect.stringContaining('the probe may have come out'),
    });
    expect(out.quantities.temperatureSensitivity.value).toBeNull();
    expect(out.quantities.drift.temperatureCorrectedSlope).toBeNull();
    expect(out.quantities.operatingPressure.value).not.toBeNull();
    expect(codes(out).filter((code) => /constant-heat|goes-with-heat/u.test(code))).toEqual([]);
    // Put back within minutes it is a remark alone.
    const back = at((t) => t > 5000 && t < 5200);
    expect(codes(back)).toContain('oil-temperature-fell');
    expect(back.grave).toEqual([]);
  });
});

describe('the supply', () => {
  const on = (t: number): boolean => t > 1000 && t < 7000 && t % 600 < 300;
  const current: Column = { column: 'I', role: 'solenoid-current', unit: 'A', at: (t) => (on(t) ? 1.6 : 0) };
  it('sags when the oil jumps with the solenoid, each time', () => {
    const sags = log(
      { at: (t) => run(t) * (on(t) ? 0.97 : 1) },
      oilColumn((t) => warming(t) * (on(t) ? 0.97 : 1)),
      current,
    );
    expect(codes(analysed(sags, { spec: spec() }))).toContain('supply-sags-with-solenoid');
    const steady = log({ at: run }, oilColumn(warming), current);
    expect(codes(analysed(steady, { spec: spec() }))).not.toContain('supply-sags-with-solenoid');
  });
  it('or a motor drive spikes in all channels at once', () => {
    const random = noise(2);
    const at = (t: number): boolean => t > 200 && t < 7000 && t % 500 === 250;
    const both = log(
      { at: (t) => run(t) + 0.3 * random() + (at(t) ? 90 : 0) },
      oilColumn((t) => warming(t) + 0.05 * random() + (at(t) ? 20 : 0)),
    );
    expect(codes(analysed(both, { spec: spec() }))).toContain('spikes-in-all-channels');
    const alone = log(
      { at: (t) => run(t) + 0.3 * random() + (at(t) ? 90 : 0) },
      oilColumn((t) => warming(t) + 0.05 * random()),
    );
    expect(codes(analysed(alone, { spec: spec() }))).not.toContain('spikes-in-all-channels');
  });
});

describe('the zero', () => {
  it('is off beyond the stated uncertainty, or without one beyond 2 % of the band', () => {
    const resting = (zero: number) => log({ at: (t) => (t < 100 ? zero : run(t)) });
    // ± 1.5 psi rectangular and 0.1 psi of resolution: UB 1.73 psi.
    expect(codes(analysed(resting(1.6), { spec: spec(), rig: rig(gauge()) }))).not.toContain('zero-off');
    expect(codes(analysed(resting(1.9), { spec: spec(), rig: rig(gauge()) }))).toContain('zero-off');
    expect(codes(analysed(resting(7.9), { spec: spec() }))).not.toContain('zero-off');
    expect(codes(analysed(resting(8.1), { spec: spec() }))).toContain('zero-off');
  });
});

describe('what is said of the end', () => {
  it('is that the pressure still moves', () => {
    const random = noise(3);
    const moving = analysed(log({ at: (t) => (run(t) > 1 ? 420 - t / 600 + 0.3 * random() : 0) }), {
      spec: spec({ settling: { tolerance: 5, unit: 'psi' } }),
    });
    expect(codes(moving)).toContain('still-moving-at-the-end');
    expect(moving.quantities.settling.stillMoving).toBe(true);
    // A straight line goes to no end.
    expect(moving.quantities.settling.stillToGo_s).toBeNull();
    const still = analysed(log({ at: (t) => (run(t) > 1 ? 411 + 0.3 * random() : 0) }), { spec: spec() });
    expect(still.quantities.settling.stillMoving).toBe(false);
  });
  it('is for how long it would have to go on', () => {
    const random = noise(6);
    const bends = analysed(
      log({ at: (t) => (run(t) > 1 ? 405 + 25 * Math.exp(-(t - 100) / 4000) + 0.3 * random() : 0) }),
      { spec: spec({ settling: { tolerance: 5, unit: 'psi' } }) },
    );
    // 25 psi · exp(−7000 s / 4000 s) = 4.34 psi are left of it; to 2.5 psi it takes 4000 s · ln(4.34/2.5) = 2210 s.
    expect(bends.quantities.settling.stillToGo_s).toBeGreaterThan(2210 * 0.85);
    expect(bends.quantities.settling.stillToGo_s).toBeLessThan(2210 * 1.15);
    expect(bends.remarks.find(({ code }) => code === 'still-moving-at-the-end')?.text).toMatch(
      /It is on its way to 40[456]\.\d psi, and the run would have to go on for about 3\d min/u,
    );
  });
  it('is that it ended outside the band although the mean lies inside', () => {
    const drop = analysed(log({ at: (t) => (run(t) > 1 ? (t > 6200 ? 395 : 411) : 0) }), { spec: spec() });
    expect(codes(drop)).toContain('ends-outside-band');
    // Two minutes below, two above, 410 psi in the mean: 410 psi is not "above the band".
    const turns = log({ at: (t) => (run(t) > 1 ? (Math.floor(t / 120) % 2 ? 395 : 425) : 0) });
    const { remarks } = analysed(turns, { spec: spec() });
    expect(remarks.find(({ code }) => code === 'ends-outside-band')?.text).toContain(
      'the pressure was outside it for 100',
    );
  });
  it('names a gauge that was overdue on the day of the run', () => {
    const made = { ...log({ at: run }), start: '2026-03-04T08:15:00' };
    expect(codes(analysed(made, { spec: spec(), rig: rig(gauge({ dueOn: '2026-03-03' })) }))).toContain(
      'gauge-overdue',
    );
    expect(codes(analysed(made, { spec: spec(), rig: rig(gauge({ dueOn: '2026-03-04' })) }))).not.toContain(
      'gauge-overdue',
    );
  });
});
