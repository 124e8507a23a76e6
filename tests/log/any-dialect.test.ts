import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { SetAside, type Log } from '#formats/log.ts';
import { writeJson } from '#formats/number.ts';
import { createLogReader, readLog, type Lane } from '#log/read-log.ts';
import {
  channelUnits,
  timeFormOf,
  usableInterval,
  writeTable,
  type PlainTable,
  type WrittenDialect,
} from './write-dialect.ts';

// The gate runs the same cases every time; PROPERTY_RUNS=3000 looks further, with other cases at each run.
const more = process.env['PROPERTY_RUNS'];
const RUNS = Number(more ?? 80);
fc.configureGlobal(more === undefined ? { seed: 20260304 } : {});

const faults = ['OL', '---', 'ERR', 'NaN', '#-1', 'Open'];
const cell = (digits: number): fc.Arbitrary<string> =>
  fc.oneof(
    {
      weight: 20,
      arbitrary: fc
        // Nines alone, twice in a column, are a sentinel, and fast-check likes the ends of a range.
        .integer({ min: -89999, max: 899999 })
        .map((value) => (value / 10 ** digits).toFixed(digits)),
    },
    { weight: 1, arbitrary: fc.constant('') },
    { weight: 1, arbitrary: fc.constantFrom(...faults) },
  );
const column = (length: number): fc.Arbitrary<string[]> =>
  fc.integer({ min: 0, max: 4 }).chain((digits) =>
    fc
      .array(cell(digits), { minLength: length, maxLength: length })
      // Every file shows its decimal mark somewhere near the top, as real ones do.
      .map((cells) => [`${cells.length}.5`, ...cells.slice(1)]),
  );
const table: fc.Arbitrary<PlainTable> = fc
  .record({ rows: fc.integer({ min: 8, max: 40 }), channels: fc.integer({ min: 1, max: 4 }) })
  .chain(({ rows, channels }) =>
    fc.record({
      start: fc.record({
        year: fc.integer({ min: 2001, max: 2037 }),
        month: fc.integer({ min: 1, max: 12 }),
        day: fc.integer({ min: 1, max: 28 }),
        hour: fc.integer({ min: 0, max: 23 }),
        minute: fc.integer({ min: 0, max: 59 }),
        second: fc.integer({ min: 0, max: 59 }),
      }),
      interval_ns: fc.constantFrom(1e7, 1e8, 2.5e8, 5e8, 1e9, 2e9, 5e9, 6e10, 125e3),
      cells: fc.array(column(rows), { minLength: channels, maxLength: channels }),
    }),
  );
const dialect: fc.Arbitrary<WrittenDialect> = fc
  .record<WrittenDialect>({
    delimiter: fc.constantFrom(',', ';', '\t', '|', ' '),
    decimal: fc.constantFrom('.', ','),
    lineEnd: fc.constantFrom('\n', '\r\n', '\r'),
    encoding: fc.constantFrom('utf-8', 'utf-8-bom', 'utf-16le', 'utf-16be', 'utf-16le-bom', 'windows-1252'),
    time: fc.constantFrom(
      'iso-t',
      'iso-blank',
      'iso-z',
      'iso-offset',
      'dmy-dots',
      'mdy-slashes',
      'ymd-slashes',
      'two-columns',
      'am-pm',
      'time-of-day',
      'elapsed-s',
      'elapsed-hms',
      'elapsed-min',
      'epoch-s',
      'epoch-ms',
      'unmarked',
      'month-name',
      'time-then-date',
      'elapsed-ms',
      'day-number',
      'parts',
      'week-date',
      'date-and-digits',
      'duration',
      'lettered',
      'epoch-us',
      'epoch-ns',
      'ticks-1601',
      'ticks-1',
      'julian-day',
      'no-year',
    ),
    quotes: fc.constantFrom('none', 'all', 'numbers'),
    units: fc.constantFrom('header', 'row', 'none', 'columns', 'cells'),
    preamble: fc.constantFrom('none', 'comment', 'key-value', 'title', 'small-table'),
    separatorLine: fc.boolean(),
    trailingDelimiter: fc.boolean(),
    finalLineEnd: fc.constant(true),
  })
  // Blanks cannot delimit empty fields of a unit row, or names of several words; that dialect has its own samples.
  .map((d) =>
    d.delimiter === ' '
      ? {
          ...d,
          quotes: 'all',
          trailingDelimiter: false,
          separatorLine: false,
          preamble: 'none',
          units: d.units === 'cells' ? 'none' : d.units,
        }
      : d,
  );

function read(bytes: Uint8Array, lane: Lane = 'bytes'): ReturnType<typeof readLog> {
  return readLog(bytes, { fileName: 'run.csv', rig: null, sha256: '' }, lane);
}
function logOf(bytes: Uint8Array, lane: Lane = 'bytes'): Log {
  const result = read(bytes, lane);
  if (!result.ok) throw new Error(JSON.stringify(result.problems));
  return result.value;
}
/** A log with its arrays spelled out, so that a difference in one bit shows. */
const spelled = (log: unknown): string =>
  JSON.stringify(log, (_, value: unknown) =>
    value instanceof Float64Array || value instanceof Uint8Array
      ? Array.from(value, (item) => (Object.is(item, -0) ? '-0' : String(item)))
      : value,
  );

function sameInEveryLane(bytes: Uint8Array): void {
  const long = spelled(read(bytes, 'papaparse'));
  expect(spelled(read(bytes, 'script'))).toBe(long);
  expect(spelled(read(bytes, 'bytes'))).toBe(long);
}

describe('any table in any dialect', () => {
  test('reads back to the same numbers', () => {
    fc.assert(
      fc.property(table, dialect, (plain, written) => {
        const source = { ...plain, interval_ns: usableInterval(written, plain.interval_ns) };
        const log = logOf(writeTable(source, written));
        const rows = source.cells[0]?.length ?? 0;
        expect(log.rows).toBe(rows);
        expect(log.skippedRowCount).toBe(0);
        expect(log.timeForm).toBe(timeFormOf[written.time]);
        const expected_s = Array.from({ length: rows }, (_, i) => (source.interval_ns * i) / 1e9);
        expect([...log.time_s]).toEqual(expected_s);
        expect(log.gaps).toEqual([]);
        expect(log.clockSteps).toEqual([]);
        expect(log.channels.length).toBe(source.cells.length);
        for (const [i, cells] of source.cells.entries()) {
          const channel = log.channels[i];
          const numbers = cells.map((text) => (/\d/u.test(text) && text !== '#-1' ? Number(text) : NaN));
          expect(Array.from(channel?.values ?? [], (value) => value + 0)).toEqual(
            numbers.map((value) => value + 0),
          );
          expect([...(channel?.flags ?? [])]).toEqual(
            cells.map((text, row) =>
              text === ''
                ? SetAside.missing
                : Number.isNaN(numbers[row])
                  ? SetAside.faultToken
                  : SetAside.kept,
            ),
          );
          const unit = written.units === 'none' ? (channel?.unit ?? null) : (channelUnits[i]?.name ?? null);
          expect(channel?.unit ?? null).toBe(unit);
        }
      }),
      { numRuns: RUNS },
    );
  });

  test('the byte reader and papaparse give the same log', () => {
    fc.assert(
      fc.property(table, dialect, fc.boolean(), (plain, written, finalLineEnd) => {
        const source = { ...plain, interval_ns: usableInterval(written, plain.interval_ns) };
        const bytes = writeTable(source, { ...written, finalLineEnd });
        sameInEveryLane(bytes);
      }),
      { numRuns: RUNS },
    );
  });

  test('the byte reader and papaparse give the same log of a damaged file', () => {
    const damage = fc.array(
      fc.record({
        at: fc.double({ min: 0, max: 1, noNaN: true }),
        bytes: fc.constantFrom(
          '"',
          '""',
          ',',
          ';',
          '\n',
          '\r\n',
          'x',
          '\0',
          '-',
          'e5',
          '1,234',
          '1.234.567',
          ' ',
          '"a\nb"',
          '\u2212',
          '999999999999999999',
          '.',
          '12:00:00',
          '="1.5"',
          "'1.5",
          '1.5D+02',
          '１２．５',
          '12.5-',
          '0FF5',
          ' min',
          '2026-W10-3',
          'Time;Pressure',
          '#',
        ),
      }),
      { minLength: 1, maxLength: 5 },
    );
    fc.assert(
      fc.property(table, dialect, damage, (plain, written, wounds) => {
        const source = { ...plain, interval_ns: usableInterval(written, plain.interval_ns) };
        let bytes = Buffer.from(writeTable(source, { ...written, encoding: 'utf-8' }));
        for (const { at, bytes: wound } of wounds) {
          const place = Math.floor(at * bytes.length);
          bytes = Buffer.concat([bytes.subarray(0, place), Buffer.from(wound), bytes.subarray(place)]);
        }
        sameInEveryLane(bytes);
      }),
      { numRuns: 2 * RUNS },
    );
  });

  test('the portions in which the bytes come change nothing', () => {
    fc.assert(
      fc.property(
        table,
        dialect,
        fc.array(fc.integer({ min: 1, max: 97 }), { minLength: 1, maxLength: 7 }),
        (plain, written, sizes) => {
          const source = { ...plain, interval_ns: usableInterval(written, plain.interval_ns) };
          const bytes = writeTable(source, written);
          const reader = createLogReader({ fileName: 'run.csv', rig: null });
          for (let at = 0, i = 0; at < bytes.length; i++) {
            const size = sizes[i % sizes.length] ?? 1;
            reader.push(bytes.slice(at, at + size));
            at += size;
          }
          expect(spelled(reader.finish({ bytes: bytes.length, sha256: '' }))).toBe(spelled(read(bytes)));
        },
      ),
      { numRuns: RUNS },
    );
  });
});

describe('a file that is cut', () => {
  test('gives a prefix of its readings or a clear problem, never another number', () => {
    fc.assert(
      fc.property(table, dialect, fc.double({ min: 0, max: 1, noNaN: true }), (plain, written, share) => {
        const source = { ...plain, interval_ns: usableInterval(written, plain.interval_ns) };
        const bytes = writeTable(source, written);
        const whole = logOf(bytes);
        const cut = read(bytes.slice(0, Math.floor(share * bytes.length)));
        if (!cut.ok) {
          expect(cut.problems.length).toBeGreaterThan(0);
          return;
        }
        const log = cut.value;
        expect(log.rows).toBeLessThanOrEqual(whole.rows);
        expect([...log.time_s]).toEqual(Array.from(whole.time_s.slice(0, log.rows)));
        for (const channel of log.channels) {
          const same = whole.channels.find((other) => other.column === channel.column);
          for (const [row, value] of channel.values.entries())
            if (!Number.isNaN(value)) expect({ row, value }).toEqual({ row, value: same?.values[row] });
        }
      }),
      { numRuns: 2 * RUNS },
    );
  });

  test("nor does a console's, with its stamps, at any length", () => {
    const lines = [410.1, 411, 410.6, 409.8, 411.55].map(
      (value, i) => `08:15:0${i}.020 -> ${value},5${i}.5\r\n`,
    );
    const bytes = new TextEncoder().encode(lines.join(''));
    const whole = logOf(bytes);
    for (let length = 1; length < bytes.length; length++) {
      const cut = read(bytes.slice(0, length));
      if (!cut.ok) continue;
      for (const [c, channel] of cut.value.channels.entries())
        for (const [row, value] of channel.values.entries())
          if (!Number.isNaN(value))
            expect({ length, row, value }).toEqual({ length, row, value: whole.channels[c]?.values[row] });
    }
  });
});

describe('bytes that are no log', () => {
  const answers = (bytes: Uint8Array): void => {
    const result = read(bytes);
    if (result.ok) {
      const { time_s, channels, ...rest } = result.value;
      expect(() =>
        writeJson({ ...rest, channels: channels.map((channel) => ({ ...channel, values: [], flags: [] })) }),
      ).not.toThrow();
      expect(
        time_s.every((value, i) => Number.isFinite(value) && (i === 0 || value >= (time_s[i - 1] ?? 0))),
      ).toBe(true);
      for (const { values, flags } of channels)
        for (const [i, value] of values.entries())
          expect(
            Number.isFinite(value) || flags[i] === SetAside.missing || flags[i] === SetAside.faultToken,
          ).toBe(true);
    } else expect(result.problems.length).toBeGreaterThan(0);
  };
  test('never throw and never yield a number that JSON cannot hold', () => {
    fc.assert(fc.property(fc.uint8Array({ maxLength: 3000 }), answers), { numRuns: 2 * RUNS });
  });
  test('nor do random lines of what logs are made of', () => {
    const piece = fc.constantFrom(
      '1',
      '23',
      '4.5',
      ',',
      ';',
      '\t',
      ' ',
      ':',
      '-',
      '/',
      '.',
      '"',
      'T',
      'Z',
      'psi',
      'time',
      'OL',
      '\n',
      '\r',
      '\0',
      '2026-03-04',
      '08:15:00',
      '08:15',
      '0815',
      '260304',
      'Year',
      'Hour',
      'Min',
      'Sec',
      'Date',
      '="',
      'D+02',
      'e',
      '+',
      '°C',
      '|',
      '#',
      '[',
      ']',
      '99999999999999999999',
    );
    fc.assert(
      fc.property(fc.array(piece, { maxLength: 400 }), (pieces) => {
        const bytes = new TextEncoder().encode(pieces.join(''));
        answers(bytes);
        sameInEveryLane(bytes);
      }),
      { numRuns: 4 * RUNS },
    );
  });
});
