import { readdirSync, readFileSync } from 'node:fs';
import path from 'node:path';
import { describe, expect, test } from 'vitest';
import type { Log } from '#formats/log.ts';
import type { Result } from '#formats/problem.ts';
import { createLogReader, readLog } from '#log/read-log.ts';
import { expectEqual } from './expect-equal.ts';

const folder = path.join(import.meta.dirname, 'dialects');
const samples = readdirSync(folder).filter((name) => /\.(?:csv|txt)$/u.test(name));
const options = { fileName: 'run.csv', rig: null };
const source = (bytes: number): { bytes: number; sha256: string | null } => ({ bytes, sha256: null });

/** What is compared: everything but how many bytes the last, unfinished line has so far. */
const plain = (result: Result<Log>): unknown =>
  result.ok ? { ...result.value, source: null } : { refused: result.problems };

/** Just behind the last line end; a CR at the very end may be half of one. */
function wholeLines(bytes: Uint8Array): number {
  for (let p = bytes.length - 1; p >= 0; p--)
    if (bytes[p] === 10 || (bytes[p] === 13 && p < bytes.length - 1)) return p + 1;
  return 0;
}

describe('a log that is still being written', () => {
  // Quoted line ends and two-byte letters have their own line ends; these are cut where they are sure.
  const cutByByte = samples.filter((name) => !/utf-16|quote/u.test(name));
  test.each(cutByByte)('%s: as far as it has come, it is what its whole lines say', (name) => {
    const bytes = readFileSync(path.join(folder, name));
    const reader = createLogReader(options);
    const step = bytes.length > 200 ? 13 : 3;
    let linesEnd = -1;
    let expected: unknown;
    for (let at = 0; at < bytes.length; at += step) {
      reader.push(bytes.subarray(at, at + step));
      const come = bytes.subarray(0, at + step);
      const whole = come.subarray(0, wholeLines(come));
      // Cuts within one line have the same whole lines before them.
      if (whole.length !== linesEnd) expected = plain(readLog(whole, { ...options, sha256: null }));
      linesEnd = whole.length;
      const seen = plain(reader.soFar(source(come.length)));
      // Of a first line that is half there nothing is said but that there is no reading yet.
      if (whole.some((byte) => byte > 32)) expectEqual(seen, expected, `after ${come.length} bytes`);
      else expect(seen).toHaveProperty('refused');
    }
    expectEqual(reader.finish(source(bytes.length)), readLog(bytes, { ...options, sha256: null }));
  });

  test('looking at it in between changes nothing of what comes later, over every inner border', () => {
    const lines = ['time_s,pressure (psi),oil (degC)'];
    for (let t = 0; t < 12_000; t++)
      lines.push(
        `${t / 10},${(410 + (t % 7) / 10).toFixed(1)},${t % 1000 === 5 ? 'OL' : (60 + (t % 3)).toFixed(1)}`,
      );
    const bytes = new TextEncoder().encode(`${lines.join('\n')}\n`);
    const reader = createLogReader(options);
    const rows: number[] = [];
    for (const [from, to] of [
      [0, 30_000],
      [30_000, 65_535],
      [65_535, 65_536],
      [65_536, 90_000],
      [90_000, 150_000],
      [150_000, bytes.length - 4],
    ] as const) {
      reader.push(bytes.slice(from, to));
      const seen = reader.soFar(source(to));
      const come = bytes.subarray(0, to);
      expectEqual(
        plain(seen),
        plain(readLog(come.subarray(0, wholeLines(come)), { ...options, sha256: null })),
      );
      if (seen.ok) {
        // Whoever gets a log may do with its arrays what he wants.
        rows.push(seen.value.rows);
        seen.value.time_s.fill(NaN);
        for (const channel of seen.value.channels) channel.values.fill(NaN);
      }
    }
    expect(rows).toEqual([...rows].sort((a, b) => a - b));
    expect(rows.at(-1)).toBe(11_999);
    reader.push(bytes.slice(bytes.length - 4));
    expectEqual(reader.finish(source(bytes.length)), readLog(bytes, { ...options, sha256: null }));
  });

  test("a console's stamps before its lines, in any portions, beyond the head", () => {
    const two = (value: number): string => String(value).padStart(2, '0');
    const lines = Array.from({ length: 6000 }, (_, i) => {
      const clock = `${two(8 + Math.floor(i / 3600))}:${two(Math.floor(i / 60) % 60)}:${two(i % 60)}`;
      return `${clock},250 -> ${(41 + (i % 7) / 10).toFixed(1).replace('.', ',')};5${i % 10},5`;
    });
    const bytes = new TextEncoder().encode(
      `08:00:00,000 -> Druck [bar];Öl [°C]\r\n${lines.join('\r\n')}\r\n`,
    );
    const whole = readLog(bytes, { ...options, sha256: null });
    if (!whole.ok) throw new Error('refused');
    expect(whole.value.rows).toBe(6000);
    expect(whole.value.duration_s).toBe(5999);
    expect(whole.value.channels[0]?.values[5]).toBe(41.5);
    const reader = createLogReader(options);
    for (let at = 0; at < bytes.length; at += 997) {
      reader.push(bytes.slice(at, at + 997));
      if (at % 50 === 0) reader.soFar(source(at));
    }
    expectEqual(reader.finish(source(bytes.length)), whole);
  });

  test('a reading that is half written does not count: 41 of 411.2', () => {
    const reader = createLogReader(options);
    reader.push(new TextEncoder().encode('t_s,p_psi\n0,410.1\n1,410.4\n2,41'));
    const seen = reader.soFar(source(30));
    expect(seen.ok && [...(seen.value.channels[0]?.values ?? [])]).toEqual([410.1, 410.4]);
    expect(seen.ok && seen.value.remarks).toEqual([]);
    reader.push(new TextEncoder().encode('1.2\n'));
    const later = reader.soFar(source(34));
    expect(later.ok && [...(later.value.channels[0]?.values ?? [])]).toEqual([410.1, 410.4, 411.2]);
  });
});
