import { describe, expect, it } from 'vitest';
import { takeBadTimes } from '#log/bad-times.ts';
import { readLog } from '#log/read-log.ts';

const seconds = (n: number): number[] => Array.from({ length: n }, (_, i) => i);
const taken = (times: number[]) => takeBadTimes(Float64Array.from(times)).map(({ row }) => row);
const changed = (changes: Record<number, number>, n = 100): number[] =>
  seconds(n).map((t) => changes[t] ?? t);

describe('a time that is absurd between two that agree', () => {
  it('is found whether it is too high or too low, and up to three in a row', () => {
    expect(taken(seconds(100))).toEqual([]);
    expect(taken(changed({ 40: 1e12 }))).toEqual([40]);
    expect(taken(changed({ 40: -1e308 }))).toEqual([40]);
    expect(taken(changed({ 40: 1e308, 41: 5e7, 42: 70_000 }))).toEqual([40, 41, 42]);
    expect(taken(changed({ 30: 0, 60: 9999 }))).toEqual([30, 60]);
  });
  it('gets its forerunner’s time', () => {
    const times = Float64Array.from(changed({ 40: 1e12 }));
    takeBadTimes(times);
    expect(times[40]).toBe(39);
  });
  it('is none where the clock really jumped, nor where it was corrected by a few steps', () => {
    expect(taken([...seconds(50), ...seconds(50)])).toEqual([]);
    expect(taken(seconds(100).map((t) => (t < 50 ? t : t - 5)))).toEqual([]);
    expect(taken(changed({ 40: 41.5 }))).toEqual([]);
    expect(taken(seconds(100).map((t) => (t < 50 ? t : t + 1e6)))).toEqual([]);
  });
  it('is a last row further off than the whole log is long', () => {
    expect(taken(changed({ 99: 1e12 }))).toEqual([99]);
    expect(taken(changed({ 99: 150 }))).toEqual([]);
  });
});

/** A log of a thousand seconds with some times changed. */
function logOf(changes: Record<number, string>) {
  const rows = seconds(1000).map((t) => `${changes[t] ?? String(t)},411.${t % 10},60.1\n`);
  const read = readLog(new TextEncoder().encode(`time_s,pressure_psi,oil_degC\n${rows.join('')}`), {
    fileName: 'made.csv',
    rig: null,
    sha256: '',
  });
  if (!read.ok) throw new Error(JSON.stringify(read.problems));
  return read.value;
}
const codes = ({ remarks }: ReturnType<typeof logOf>): string[] => remarks.map(({ code }) => code);

describe('a log with such a row', () => {
  it('is read without it, which is said, and its duration is that of the others', () => {
    for (const cell of ['1e12', '1e300', '30900', '1700000000']) {
      const log = logOf({ 500: cell });
      expect(log.rows).toBe(999);
      expect(log.duration_s).toBe(999);
      expect(log.skippedRowCount).toBe(1);
      expect(codes(log)).toEqual(['time-out-of-line']);
      expect(log.remarks[0]?.text).toContain('row 501');
    }
  });
  it('is no count that began again at its word’s end', () => {
    expect(codes(logOf({ 500: '65000' }))).toEqual(['time-out-of-line']);
  });
  it('keeps the fractions of the other times', () => {
    const log = logOf({ 3: '3.25', 500: '1e15' });
    expect(log.time_s[3]).toBe(3.25);
  });
});

describe('times coarser than the rows', () => {
  it('are said', () => {
    const doubled = Object.fromEntries(seconds(1000).map((t) => [t, String(2 * Math.floor(t / 2))]));
    expect(codes(logOf(doubled))).toEqual(['times-coarser-than-rows']);
    expect(codes(logOf({ 501: '500' }))).toEqual([]);
  });
});
