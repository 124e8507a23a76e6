import { createHash } from 'node:crypto';
import { expect } from 'vitest';
import type { Log } from '#formats/log.ts';
import type { Result } from '#formats/problem.ts';

const two = (value: number): string => String(value).padStart(2, '0');
/** Seconds of a day as a clock. */
const clock = (t_s: number): string =>
  `${two(Math.floor(t_s / 3600))}:${two(Math.floor(t_s / 60) % 60)}:${two(Math.floor(t_s) % 60)}`;
const halfOfDay = (t_s: number): string => {
  const hour = Math.floor(t_s / 3600);
  return `${clock(t_s).replace(/^\d+/u, two(hour % 12 === 0 ? 12 : hour % 12))} ${hour < 12 ? 'AM' : 'PM'}`;
};
const pressure = (i: number): string => (410 + 0.1 * (i % 37) - 0.01 * (i % 11)).toFixed(2);
const oil = (i: number): string => (60 + 0.1 * (i % 7)).toFixed(1);

/** How a long log is written: its heading, and its rows. */
export interface Form {
  heading: string;
  row: (i: number) => string;
  lineEnd?: string;
  rows?: number;
}
/** Logs that go to the kernel. */
export const forms: Record<string, Form> = {
  'ISO times': {
    heading: 'Time,Pressure (psi),Oil (°C)',
    row: (i) => `2026-03-04T${clock(30000 + i)}.${i % 10}00Z,${pressure(i)},${oil(i)}`,
  },
  'dates with points, decimal commas, CR LF': {
    heading: 'Zeit;Druck (bar);Öl (°C)',
    row: (i) =>
      `04.03.2026 ${clock(30000 + i)},250;${(28 + 0.01 * (i % 9)).toFixed(2).replace('.', ',')};${oil(i).replace('.', ',')}`,
    lineEnd: '\r\n',
  },
  'everything in quotes': {
    heading: '"Time","Pressure (psi)","Oil (°C)"',
    row: (i) => `"2026-03-04 ${clock(30000 + i)}","${pressure(i)}"," ${oil(i)} "`,
  },
  'over midnight': {
    heading: 'Time,Pressure (psi)',
    row: (i) =>
      `2026-03-${two(4 + Math.floor((85000 + i) / 86400))} ${clock((85000 + i) % 86400)},${pressure(i)}`,
  },
  'twelve hours, over noon': {
    heading: 'Time,Pressure (psi)',
    row: (i) => `03/04/2026 ${halfOfDay(42000 + i)},${pressure(i)}`,
  },
  'twelve hours, from twelve to one': {
    heading: 'Time,Pressure (psi)',
    row: (i) => `03/14/2026 ${halfOfDay(45000 + i)},${pressure(i)}`,
  },
  'time of day alone, over midnight': {
    heading: 'Time,Pressure (psi)',
    row: (i) => `${clock((85000 + i) % 86400)},${pressure(i)}`,
  },
  'elapsed, over a hundred hours': {
    heading: 'Elapsed time,Pressure (psi)',
    row: (i) => `${clock(358_000 + i)},${pressure(i)}`,
  },
  'date and time in two columns': {
    heading: 'Date,Time,Pressure (psi)',
    row: (i) => `2026/03/04,${clock(30000 + i)},${pressure(i)}`,
  },
  'elapsed seconds': {
    heading: 'Time (s),Pressure (psi),Note,Oil (°C)',
    row: (i) => `${(0.25 * i).toFixed(2)},${pressure(i)},"bench, 1",${oil(i)}`,
  },
  'milliseconds of an epoch, long fractions': {
    heading: 'Timestamp (ms),Pressure (psi)',
    row: (i) => `${1_772_611_200_000 + 250 * i},${pressure(i)}00012207`,
  },
  'units in a column, delimiters at the end': {
    heading: 'Time,Pressure,Unit,',
    row: (i) => `2026-03-04 ${clock(30000 + i)},${pressure(i)},psi,`,
  },
  'a word in each row, and fault tokens': {
    heading: 'Time,State,Pressure (psi),Oil (°C)',
    row: (i) =>
      `2026-03-04 ${clock(30000 + i)},${i < 9 ? 'idle' : '"on, 2"'},${i % 7 === 0 ? '---' : pressure(i)},${i % 11 === 0 ? '6.1e1' : oil(i)}`,
  },
  'more digits as it goes': {
    heading: 'Time,Pressure (psi)',
    row: (i) => `2026-03-04 ${clock(30000 + i)},${(410 + i / 7).toFixed(Math.floor(i / 1000) + 1)}`,
  },
  'nothing in many cells': {
    heading: 'Time,Pressure (psi),Oil (°C)',
    row: (i) => `2026-03-04 ${clock(30000 + i)},${pressure(i)},${i % 5 === 0 ? oil(i) : ''}`,
  },
};
/** A log in a form, of 6000 rows unless it says otherwise. */
export const textOf = ({ heading, row, lineEnd = '\n', rows = 6000 }: Form): string =>
  `${[heading, ...Array.from({ length: rows }, (_, i) => row(i))].join(lineEnd)}${lineEnd}`;
/** What may become of a row of a log with ISO times. */
export const wounds: readonly (readonly [name: string, wound: (row: string) => string])[] = [
  ['a fault token', (row: string) => row.replace(/,[\d.]+/u, ',OL')],
  ['a minute that is none', (row: string) => row.replace(/(T\d\d):\d\d/u, '$1:61')],
  ['a leap second', (row: string) => row.replace(/:\d\d\.\d00Z/u, ':60.000Z')],
  ['another offset', (row: string) => row.replace('Z', '+01:00')],
  ['more digits of the second', (row: string) => row.replace('Z', '5Z')],
  ['more digits behind the mark', (row: string) => row.replace(/,(\d+)\.(\d+),/u, ',$1.$2345,')],
  ['a mark and no digits behind it', (row: string) => row.replace(/,(\d+)\.(\d+),/u, ',$1.,')],
  ['an exponent', (row: string) => row.replace(/,[\d.]+/u, ',4.1e2')],
  ['a minus', (row: string) => row.replace(',', ',-')],
  ['a minus and nothing', (row: string) => row.replace(/,[\d.]+/u, ',-')],
  ['a plus and blanks', (row: string) => row.replace(',', ',  +')],
  ['twenty digits', (row: string) => row.replace(',', ',12345678901234567890')],
  ['no digit but the mark', (row: string) => row.replace(/,[\d.]+/u, ',.')],
  ['a row cut short', (row: string) => row.slice(0, 30)],
  ['a cell more', (row: string) => `${row},1`],
  ['delimiters more', (row: string) => `${row},,`],
  ['a blank line', () => ''],
  ['words', () => 'Logging stopped'],
  ['an open quote', (row: string) => row.replace(',', ',"')],
  ['a NUL', (row: string) => row.replace(',4', ',\u00004')],
  ['a digit that is none in ASCII', (row: string) => row.replace(',4', ',\u0664')],
  ['a CR of its own', (row: string) => row.replace(',', '\r')],
];

/** The same log, array by array and to the last bit; said in full where it is not. Comparing long arrays number by number takes a second. */
export function expectSameLog(log: Result<Log>, other: Result<Log>): void {
  if (inWords(log) !== inWords(other)) expect(log).toEqual(other);
}
const inWords = (log: Result<Log>): string =>
  JSON.stringify(log, (_, value: unknown) =>
    ArrayBuffer.isView(value)
      ? createHash('sha1')
          .update(new Uint8Array(value.buffer, value.byteOffset, value.byteLength))
          .digest('hex')
      : value,
  );
