import { describe, expect, it } from 'vitest';
import { analysed, codes } from './analysed.ts';
import { evenTimes, gauge, makeLog, pressureColumn, rig, spec, type Column } from './synthetic-run.ts';

const wobble = (t: number): number => 0.1 * ((Math.round(t * 10) * 7) % 10);
const remarkOf = (times: number[], at: Column['at'], code: string, ...more: Column[]): string | null =>
  analysed(makeLog({ times, columns: [pressureColumn(at), ...more] }), { spec: spec() }).remarks.find(
    (remark) => remark.code === code,
  )?.text ?? null;

describe('a logger that writes in bursts', () => {
  it('is judged, though no burst lasts the ten seconds of a sustained level', () => {
    // A second of ten readings each minute, over an hour.
    const times = Array.from({ length: 600 }, (_, i) => 60 * Math.floor(i / 10) + (i % 10) / 10);
    const analysis = analysed(
      makeLog({ times, columns: [pressureColumn((t) => (t < 300 ? 0 : 411) + wobble(t))] }),
      { spec: spec() },
    );
    expect(codes(analysis)).not.toContain('no-engagement');
    expect(analysis.quantities.operatingPressure.value).toBeCloseTo(411.45, 1);
  });
});

describe('a log without an engagement', () => {
  it('of one reading at pressure is too short, not too low', () => {
    expect(remarkOf([0], () => 432.7, 'no-engagement')).toMatch(/reached 432\.7 psi, but for less than 2 s/u);
  });
  it('within the range of a gauge that the unit went beyond says so', () => {
    const log = makeLog({
      times: evenTimes(600),
      columns: [pressureColumn((t) => (t < 60 ? 0.2 : 411) + wobble(t))],
    });
    const found = analysed(log, { spec: spec(), rig: rig(gauge({ range: { low: 0, high: 400 } })) }).remarks;
    expect(found.find(({ code }) => code === 'no-engagement')?.text).toMatch(
      /^Within the gauge's range the pressure never held more than/u,
    );
  });
  it('that never rose says how far it came', () => {
    expect(remarkOf(evenTimes(600), (t) => 5 + wobble(t), 'no-engagement')).toMatch(
      /never held more than 5/u,
    );
  });
});

describe('a solenoid channel that looks inverted', () => {
  const pressure = (t: number): number => (t >= 60 && t < 3000 ? 411 : 0) + wobble(t);
  const current = (on: (t: number) => boolean): Column => ({
    column: 'I',
    role: 'solenoid-current',
    unit: 'A',
    at: (t) => (on(t) ? 0.8 : 0),
  });
  it('is told as that', () => {
    const inverted = current((t) => t < 60 || t >= 3000);
    expect(remarkOf(evenTimes(3100), pressure, 'solenoid-looks-inverted', inverted)).toContain(
      'looks inverted',
    );
    expect(remarkOf(evenTimes(3100), pressure, 'solenoid-without-pressure', inverted)).toBeNull();
  });
  it('is not where it goes with the pressure', () => {
    const right = current((t) => t >= 60 && t < 3000);
    expect(remarkOf(evenTimes(3100), pressure, 'solenoid-looks-inverted', right)).toBeNull();
  });
});
