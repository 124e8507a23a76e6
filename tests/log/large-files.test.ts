import { describe, expect, test } from 'vitest';
import type { Log } from '#formats/log.ts';
import { LogTable } from '#log/log-table.ts';
import { createLogReader, readLog, type Lane } from '#log/read-log.ts';
import { expectEqual } from './expect-equal.ts';

// What shows only beyond the head of 64 KiB by which the layout is settled, and beyond a block of rows.
const read = (text: string, lane: Lane = 'bytes'): ReturnType<typeof readLog> =>
  readLog(new TextEncoder().encode(text), { fileName: 'run.csv', rig: null, sha256: null }, lane);
function logOf(text: string, lane: Lane = 'bytes'): Log {
  const result = read(text, lane);
  if (!result.ok) throw new Error(JSON.stringify(result.problems));
  return result.value;
}
const rows = (count: number, row: (i: number) => string): string =>
  Array.from({ length: count }, (_, i) => `${row(i)}\n`).join('');

describe('beyond the head of the file', () => {
  test('a preamble longer than it whose lines pass for a table', () => {
    const preamble = rows(6000, (i) => `Setting ${i},${3 * i},x`);
    const log = logOf(`${preamble}\nt_s,p_psi,oil_C\n${rows(2000, (i) => `${i},${i}.5,60`)}`);
    expect(log.dialect.headerLine).toBe(6002);
    expect(log.rows).toBe(2000);
  });
  test('a preamble longer than it', () => {
    const preamble = rows(5000, (i) => `remark ${i}: the operator wrote a line`);
    const log = logOf(`${preamble}t_s,p_psi\n${rows(20, (i) => `${i},${i}.5`)}`);
    expect(log.dialect.headerLine).toBe(5001);
    expect(log.rows).toBe(20);
    expect(log.channels[0]?.values[19]).toBe(19.5);
  });
  test('the first decimal mark: it decides there, and the rows before were whole numbers', () => {
    for (const lane of ['bytes', 'papaparse'] as const) {
      const log = logOf(`t_s;p_bar\n${rows(20_000, (i) => `${i};${i < 19_000 ? 0 : '27,5'}`)}`, lane);
      expect(log.dialect.decimal).toBe(',');
      expect(log.channels[0]?.values[18_999]).toBe(0);
      expect(log.channels[0]?.values[19_000]).toBe(27.5);
      expect(log.channels[0]?.decimals).toBe(1);
    }
  });
  test('a first mark that may part thousands waits for one that tells', () => {
    for (const lane of ['bytes', 'papaparse'] as const) {
      const file = (last: string): string =>
        `t_s;p_bar\n${rows(20_000, (i) => `${i};${i < 19_000 ? 0 : i < 19_999 ? '27,125' : last}`)}`;
      const told = logOf(file('27,5'), lane).channels[0];
      expect(told?.values[19_000]).toBe(27.125);
      expect(told?.decimals).toBe(3);
      expect(told?.faultTokens).toEqual([]);
      expect(logOf(file('27,125'), lane).channels[0]?.faultTokens).toEqual([
        { token: '27,125', count: 1000 },
      ]);
    }
  });
  test('the day that tells day and month', () => {
    const at = (i: number): string => {
      const day = 9 + Math.floor(i / 2000);
      return `${String(day).padStart(2, '0')}/03/2026 ${String(Math.floor((i % 2000) / 100)).padStart(2, '0')}:${String(Math.floor(((i % 2000) % 100) / 2)).padStart(2, '0')}:${i % 2 === 0 ? '00' : '30'}`;
    };
    const log = logOf(`Time,p_psi\n${rows(12_000, (i) => `${at(i)},410.5`)}`);
    expect(log.start).toBe('2026-03-09T00:00:00');
    expect(log.remarks).toEqual([]);
    expect(log.duration_s).toBe(5 * 86400 + 19 * 3600 + 49 * 60 + 30);
  });
  test('proof of thousands separators for a cell before it', () => {
    const log = logOf(
      `t_s;p_kPa\n${rows(9000, (i) => `${i};${i === 7000 ? '1,002' : i === 8000 ? '1,002.5' : '998.5'}`)}`,
    );
    expect(log.channels[0]?.values[7000]).toBe(1002);
    expect(log.channels[0]?.flags[7000]).toBe(0);
    expect(log.channels[0]?.faultTokens).toEqual([]);
  });
  test('a record in quotes over the border, in any portions', () => {
    const text = `t_s,p_psi,note\n${rows(6000, (i) => `${i},${i % 7}.5,${i % 50 === 0 ? '"two\r\nlines, and ""quotes"""' : ''}`)}`;
    const bytes = new TextEncoder().encode(text);
    const whole = logOf(text);
    expect(whole.rows).toBe(6000);
    expect(whole.skippedRowCount).toBe(0);
    expect(whole.channels[1]?.faultTokens).toEqual([{ token: 'two\nlines, and "quotes"', count: 120 }]);
    for (const size of [1021, 65_536, 4096]) {
      const reader = createLogReader({ fileName: 'run.csv', rig: null });
      for (let at = 0; at < bytes.length; at += size) reader.push(bytes.slice(at, at + size));
      expectEqual(reader.finish({ bytes: bytes.length, sha256: null }), { ok: true, value: whole });
    }
  });
  test('the caller may use its bytes again after each portion', () => {
    const text = `t_s,p_psi\n${rows(30_000, (i) => `${i},${i % 9}.25`)}`;
    const bytes = new TextEncoder().encode(text);
    const portion = new Uint8Array(10_007);
    const reader = createLogReader({ fileName: 'run.csv', rig: null });
    for (let at = 0; at < bytes.length; at += portion.length) {
      const part = bytes.subarray(at, at + portion.length);
      portion.set(part);
      reader.push(portion.subarray(0, part.length));
      portion.fill(120);
    }
    expectEqual(reader.finish({ bytes: bytes.length, sha256: null }), { ok: true, value: logOf(text) });
  });
  test('many blocks of rows, with and without the size told before, give the same log', () => {
    const text = `t_s,p_psi,oil_degC\n${rows(150_000, (i) => `${i},${i % 500}.5,${i % 1000 === 3 ? 'OL' : '55.25'}`)}`;
    const bytes = new TextEncoder().encode(text);
    const told = logOf(text);
    const reader = createLogReader({ fileName: 'run.csv', rig: null });
    reader.push(bytes);
    const untold = reader.finish({ bytes: bytes.length, sha256: null });
    expectEqual(untold, { ok: true, value: told });
    expect(told.rows).toBe(150_000);
    expect(told.channels[1]?.faultTokens).toEqual([{ token: 'OL', count: 150 }]);
    expect(told.channels[0]?.values[149_999]).toBe(499.5);
    const short = createLogReader({ fileName: 'run.csv', rig: null, size: 1000 });
    short.push(bytes);
    expectEqual(short.finish({ bytes: bytes.length, sha256: null }), { ok: true, value: told });
  });
});

describe('what is large and no log is answered, too', () => {
  const lines = (text: string): Uint8Array => new TextEncoder().encode(text);
  test.each<[string, () => string]>([
    ['one line of letters', () => 'a'.repeat(3e6)],
    ['one line of fields', () => '1,'.repeat(2e6)],
    ['one quote that is never closed', () => `"${'a,'.repeat(2e6)}`],
    ['nothing but line ends', () => '\n'.repeat(2e6)],
    ['nothing but blanks and line ends', () => ' \n'.repeat(1e6)],
  ])('%s', { timeout: 60_000 }, (_, text) => {
    expect(readLog(lines(text()), { fileName: 'f.csv', rig: null, sha256: null }).ok).toBe(false);
  });

  test('a heading of 200,000 blanks', { timeout: 60_000 }, () => {
    const read = readLog(lines(`t_s,P${' '.repeat(200_000)}x\n0,1\n1,2\n2,3\n`), {
      fileName: 'f.csv',
      rig: null,
      sha256: null,
    });
    expect(read.ok && read.value.channels.map(({ column }) => column.length)).toEqual([201]);
  });
});

describe('very many columns', () => {
  const wide = (width: number): string => {
    const cells = Array.from({ length: width }, (_, i) => i);
    const line = (of: (i: number) => string): string => `${cells.map(of).join(',')}\n`;
    return `t_s,${line((i) => `Ch ${i}`)}${rows(12, (r) => `${r},${cells.map((i) => `${i % 7}.5`).join(',')}`)}`;
  };
  test('a rig file that names many of them costs about as much as one that names none', () => {
    const width = 4000;
    const bytes = new TextEncoder().encode(wide(width));
    const channels = Array.from({ length: width / 20 }, (_, i) => ({
      column: `Ch ${20 * i}`,
      role: 'ignored' as const,
    }));
    const rig = { format: 'overdrive-bench/rig', version: 1, name: 'r', channels } as const;
    const time = (given: typeof rig | null): number => {
      const start = performance.now();
      const read = readLog(bytes, {
        fileName: null,
        rig: given === null ? null : { ...given, channels },
        sha256: null,
      });
      expect(read.ok).toBe(true);
      return performance.now() - start;
    };
    time(null);
    // Looked for once a column and name, they took forty times as long.
    expect(time(rig)).toBeLessThan(8 * time(null) + 500);
  });
  test('a block of rows takes no more memory than that of a narrow table', () => {
    const kinds = new Uint8Array(10_000).fill(1);
    const none = new Int32Array(10_000).fill(-1);
    const table = new LogTable(kinds, { decimal: '.' }, [], none, []);
    expect(table.capacity * kinds.length).toBeLessThanOrEqual(8e6);
    for (let row = table.capacity; row > 0; row--) table.commit();
    expect(table.capacity * kinds.length).toBeLessThanOrEqual(8e6);
  });
});
