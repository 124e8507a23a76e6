import { describe, expect, test } from 'vitest';
import { readLog } from '#log/read-log.ts';
import { textOfSheet, type SheetCell } from '#log/sheet-rows.ts';

const text = (rows: SheetCell[][]): string => new TextDecoder().decode(textOfSheet(rows));

describe('a spreadsheet as the text of a log', () => {
  test('numbers, states and blanks', () => {
    expect(
      text([
        ['t_s', 'p_psi', 'on'],
        [0, 410.1, true],
        [1, null, false],
      ]),
    ).toBe('t_s\tp_psi\ton\n0\t410.1\t1\n1\t\t0\n');
  });

  test('a text cannot break its row', () => {
    expect(text([['note'], ['two\nlines\tand 2" hose']])).toBe('note\ntwo lines and 2″ hose\n');
  });

  test('times lose the noise of the day fraction, to their own step', () => {
    const start = Date.UTC(2026, 2, 4, 8, 15, 0);
    const off = [0, 1, -1, 0].map((noise, i) => [new Date(start + 1000 * i + noise), 410 + i] as SheetCell[]);
    expect(text(off)).toBe(
      '2026-03-04 08:15:00\t410\n2026-03-04 08:15:01\t411\n2026-03-04 08:15:02\t412\n2026-03-04 08:15:03\t413\n',
    );
    const tenths = [0, 101, 199, 300].map((ms) => [new Date(start + ms)] as SheetCell[]);
    expect(text(tenths).split('\n').slice(0, 3)).toEqual([
      '2026-03-04 08:15:00',
      '2026-03-04 08:15:00.100',
      '2026-03-04 08:15:00.200',
    ]);
  });

  test('a time of day is one in the 1904 system, too', () => {
    const clock = [86_399, 0, 1].map((s) => [new Date(Date.UTC(1904, 0, 1) + 1000 * s)] as SheetCell[]);
    expect(text(clock)).toBe('23:59:59\n00:00:00\n00:00:01\n');
  });

  test('a number that somebody formatted as a date is the number', () => {
    const dated = [400, 410.25].map(
      (n) => [new Date(Date.UTC(1899, 11, 30) + n * 86_400_000)] as SheetCell[],
    );
    expect(text(dated)).toBe('400\n410.25\n');
  });

  test('reads as a log like any other', () => {
    const start = Date.UTC(2026, 2, 4, 8, 15, 0);
    const rows: SheetCell[][] = [
      ['Bench 2', null, null],
      ['Time', 'Pressure [psi]', 'Oil [°C]'],
      ...Array.from({ length: 5 }, (_, i): SheetCell[] => [
        new Date(start + 2000 * i + (i % 2)),
        410 + i / 10,
        i === 3 ? 'OL' : 55,
      ]),
    ];
    const result = readLog(textOfSheet(rows), { fileName: 'run.xlsx', rig: null, sha256: null });
    if (!result.ok) throw new Error('refused');
    expect(result.value.start).toBe('2026-03-04T08:15:00');
    expect([...result.value.time_s]).toEqual([0, 2, 4, 6, 8]);
    expect(result.value.channels.map((channel) => [channel.role, channel.unit])).toEqual([
      ['pressure', 'psi'],
      ['oil-temperature', 'degC'],
    ]);
    expect([...(result.value.channels[1]?.values ?? [])]).toEqual([55, 55, 55, NaN, 55]);
  });
});
