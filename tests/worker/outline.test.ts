import { describe, expect, it } from 'vitest';
import { readLog } from '#log/read-log.ts';
import { outline, runTrace } from '#worker/outline.ts';

const logOf = (text: string) => {
  const read = readLog(new TextEncoder().encode(text), { fileName: 'run.csv', rig: null, sha256: null });
  if (!read.ok) throw new Error(JSON.stringify(read.problems));
  return read.value;
};
const rows = (count: number, row: (i: number) => string): string =>
  Array.from({ length: count }, (_, i) => `${row(i)}\n`).join('');

describe('outline', () => {
  it('gives the lowest and highest kept reading of equal spans of time, and none where there is none', () => {
    const time_s = Float64Array.of(0, 1, 2, 3, 8, 10),
      values = Float64Array.of(5, 7, NaN, 90, 4, 6);
    expect(outline(time_s, values, Uint8Array.of(0, 0, 0, 2, 0, 0), 5)).toEqual({
      low: [5, null, null, null, 4],
      high: [7, null, null, null, 6],
    });
  });
});

describe('runTrace', () => {
  it('draws the pressure column, wherever it stands', () => {
    const log = logOf(
      `time_s,oil_temp_C,pressure_psi\n${rows(100, (i) => `${i},${40 + i / 10},${400 + (i % 5)}`)}`,
    );
    const trace = runTrace(log);
    expect(trace).toMatchObject({ column: 'pressure_psi', role: 'pressure', unit: 'psi', end_s: 99 });
    expect(trace?.low).toHaveLength(50);
    expect(Math.min(...(trace?.low ?? []).map((each) => each ?? NaN))).toBe(400);
    expect(Math.max(...(trace?.high ?? []).map((each) => each ?? NaN))).toBe(404);
  });

  it('without a pressure draws the first column, and a long log in no more columns than can be seen', () => {
    const trace = runTrace(logOf(`time_s,a,b\n${rows(3000, (i) => `${i},${i % 7},3`)}`));
    expect(trace?.column).toBe('a');
    expect(trace?.low).toHaveLength(584);
    expect(trace?.low.includes(null)).toBe(false);
  });
});
