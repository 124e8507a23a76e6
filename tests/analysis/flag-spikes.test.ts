import { describe, expect, it } from 'vitest';
import { SetAside } from '#formats/log.ts';
import { analysed, codes } from './analysed.ts';
import {
  engagedBetween,
  evenTimes,
  makeLog,
  noise,
  oilColumn,
  pressureColumn,
  spec,
} from './synthetic-run.ts';

/** An hour and a half engaged at 411 with noise of half a psi. */
function made(change: (t: number, p: number) => number | null, step_s = 1, end_s = 5460) {
  const random = noise(1),
    plain = engagedBetween(60, end_s, () => 411);
  return makeLog({
    times: evenTimes(end_s + 60, step_s),
    columns: [pressureColumn((t) => change(t, plain(t) + 0.5 * random()), { decimals: 1 })],
  });
}
const spikesOf = (log: ReturnType<typeof made>): number[] =>
  [...(analysed(log, { spec: spec() }).series.pressure?.flags ?? [])].flatMap((flag, row) =>
    flag === SetAside.spike ? [row] : [],
  );
const remarkOf = (log: ReturnType<typeof made>): string =>
  analysed(log, { spec: spec() }).remarks.find(({ code }) => code === 'no-spikes')?.text ?? '';

describe('a spike is short', () => {
  it('three readings in a row are one, four are none and counted', () => {
    const stands = (readings: number) => made((t, p) => (t >= 2000 && t < 2000 + readings ? p - 60 : p));
    expect(spikesOf(stands(3))).toEqual([2000, 2001, 2002]);
    expect(remarkOf(stands(3))).toBe('');
    expect(spikesOf(stands(4))).toEqual([]);
    expect(remarkOf(stands(4))).toContain('4 readings count, for up to 3 s together');
  });
  it('a cell that is empty within such a stretch does not make two of it', () => {
    const log = made((t, p) => (t === 2002 ? null : t >= 2000 && t < 2005 ? p - 60 : p));
    expect(spikesOf(log)).toEqual([]);
  });
  it('two readings that are five seconds apart are none, one is', () => {
    const stands = (readings: number) =>
      made((t, p) => (t >= 10000 && t < 10000 + 5 * readings ? p - 60 : p), 5, 20000);
    expect(spikesOf(stands(1))).toEqual([2000]);
    expect(spikesOf(stands(2))).toEqual([]);
  });
  it('at twenty a second, three readings are one and a tenth of a second more is none', () => {
    const stands = (readings: number) =>
      made((t, p) => (t > 99.99 && t < 99.99 + 0.05 * readings ? p - 60 : p), 0.05, 300);
    expect(spikesOf(stands(3))).toEqual([2000, 2001, 2002]);
    expect(spikesOf(stands(5))).toEqual([]);
  });
  it('with minutes between readings one is a spike only where those beside it agree', () => {
    const alone = made((t, p) => (t === 9000 ? p - 60 : p), 180, 36000);
    expect(spikesOf(alone)).toEqual([50]);
    // The one after it is half on the way back: the unit was down there for minutes.
    const sag = made((t, p) => (t === 9000 ? p - 60 : t === 9180 ? p - 8 : p), 180, 36000);
    expect(spikesOf(sag)).not.toContain(50);
  });
});

describe('spikes are rare', () => {
  it('a pressure that stands 110 psi low for 3 s of every 21 counts, and fails', () => {
    const log = made((t, p) => (t >= 66 && t < 5460 && t % 21 < 3 ? p - 110 : p));
    expect(spikesOf(log)).toEqual([]);
    const { quantities } = analysed(log, { spec: spec() });
    expect(quantities.operatingPressure.value).toBeCloseTo(411 - (3 / 21) * 110, 0);
    expect(remarkOf(log)).toMatch(/too many for spikes, so they count/);
  });
  it('also where it does so for ten minutes of five hours only', () => {
    // 100 of 18,000 readings, half a percent of the run.
    const log = made((t, p) => (t >= 9000 && t < 9600 && t % 18 < 3 ? p - 110 : p), 1, 18000);
    expect(spikesOf(log)).toEqual([]);
    expect(remarkOf(log)).toMatch(/^1\d\d readings of "P" stand/);
  });
  it('a spike a minute is noise on the wire and is set aside', () => {
    const log = made((t, p) => (t >= 300 && t < 5400 && t % 60 === 30 ? p + 90 : p));
    expect(spikesOf(log)).toHaveLength(85);
    expect(remarkOf(log)).toBe('');
  });
  it('a few in a short log are spikes all the same', () => {
    const log = made((t, p) => (t === 80 || t === 100 ? p + 90 : p), 1, 120);
    expect(spikesOf(log)).toEqual([80, 100]);
  });
  it('holds for the oil too', () => {
    const random = noise(4);
    const log = makeLog({
      times: evenTimes(6000),
      columns: [
        pressureColumn(engagedBetween(60, 5900, () => 411)),
        oilColumn((t) => 60 + 0.1 * random() - (t % 20 === 0 ? 15 : 0)),
      ],
    });
    const analysis = analysed(log, { spec: spec() });
    expect(analysis.series.oil?.flags.includes(SetAside.spike)).toBe(false);
    expect(codes(analysis)).toContain('no-spikes');
  });
});
