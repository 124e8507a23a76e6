import type { TimeForm } from '#formats/log.ts';

/** A table of readings before it is written in some dialect: times in nanoseconds from the first row, cells as decimal texts with a point. */
export interface PlainTable {
  start: { year: number; month: number; day: number; hour: number; minute: number; second: number };
  interval_ns: number;
  /** One list a channel; '' for missing, letters for a fault token. */
  cells: string[][];
}

export interface WrittenDialect {
  delimiter: ',' | ';' | '\t' | '|' | ' ';
  decimal: '.' | ',';
  lineEnd: '\n' | '\r\n' | '\r';
  encoding: 'utf-8' | 'utf-8-bom' | 'utf-16le' | 'utf-16be' | 'utf-16le-bom' | 'windows-1252';
  time:
    | 'iso-t'
    | 'iso-blank'
    | 'iso-z'
    | 'iso-offset'
    | 'dmy-dots'
    | 'mdy-slashes'
    | 'ymd-slashes'
    | 'two-columns'
    | 'am-pm'
    | 'time-of-day'
    | 'elapsed-s'
    | 'elapsed-hms'
    | 'elapsed-min'
    | 'epoch-s'
    | 'epoch-ms'
    | 'unmarked'
    | 'month-name'
    | 'time-then-date'
    | 'elapsed-ms'
    | 'day-number'
    | 'parts'
    | 'week-date'
    | 'date-and-digits'
    | 'duration'
    | 'lettered'
    | 'epoch-us'
    | 'epoch-ns'
    | 'ticks-1601'
    | 'ticks-1'
    | 'julian-day'
    | 'no-year';
  quotes: 'none' | 'all' | 'numbers';
  units: 'header' | 'row' | 'none' | 'columns' | 'cells';
  preamble: 'none' | 'comment' | 'key-value' | 'title' | 'small-table';
  separatorLine: boolean;
  trailingDelimiter: boolean;
  finalLineEnd: boolean;
}

const monthNames = ['Jan', 'Feb', 'Mar', 'Apr', 'May', 'Jun', 'Jul', 'Aug', 'Sep', 'Oct', 'Nov', 'Dec'];
const two = (value: number): string => String(value).padStart(2, '0');
/** Units of the channels in turn; the second way of writing stands in cells and headings. */
export const channelUnits = [
  { name: 'psi', written: 'PSIG' },
  { name: 'degC', written: '°C' },
  { name: 'rpm', written: '1/min' },
  { name: 'A', written: 'A' },
] as const;
const channelNames = ['Pressure', 'Oil', 'Shaft', 'Solenoid current'];

/** Digits of a second's fraction that the interval needs. */
const digitsOf = (interval_ns: number): number =>
  interval_ns % 1e9 === 0 ? 0 : interval_ns % 1e6 === 0 ? 3 : 6;

function clockAt(table: PlainTable, row: number): { date: Date; fraction: string } {
  const { year, month, day, hour, minute, second } = table.start;
  const total_ns = table.interval_ns * row;
  const seconds = Math.floor(total_ns / 1e9);
  const digits = digitsOf(table.interval_ns);
  const rest = Math.round((total_ns - seconds * 1e9) / 10 ** (9 - digits));
  const date = new Date(Date.UTC(year, month - 1, day, hour, minute, second + seconds));
  return { date, fraction: digits === 0 ? '' : `.${String(rest).padStart(digits, '0')}` };
}

function timeCells(table: PlainTable, dialect: WrittenDialect, row: number): string[] {
  const { date, fraction } = clockAt(table, row);
  const y = date.getUTCFullYear(),
    mo = two(date.getUTCMonth() + 1),
    d = two(date.getUTCDate());
  const clock = `${two(date.getUTCHours())}:${two(date.getUTCMinutes())}:${two(date.getUTCSeconds())}${fraction}`;
  const marked = (text: string): string => (dialect.decimal === ',' ? text.replace('.', ',') : text);
  const elapsed_ns = table.interval_ns * row;
  switch (dialect.time) {
    case 'iso-t':
      return [`${y}-${mo}-${d}T${clock}`];
    case 'iso-blank':
      return [`${y}-${mo}-${d} ${clock}`];
    case 'iso-z':
      return [`${y}-${mo}-${d}T${clock}Z`];
    case 'iso-offset':
      return [`${y}-${mo}-${d}T${clock}+02:00`];
    case 'dmy-dots':
      return [`${d}.${mo}.${y} ${clock}`];
    case 'mdy-slashes':
      return [`${mo}/${d}/${y} ${clock}`];
    case 'ymd-slashes':
      return [`${y}/${mo}/${d} ${clock}`];
    case 'two-columns':
      return [`${d}.${mo}.${y}`, clock];
    case 'am-pm': {
      const h = date.getUTCHours();
      return [`${mo}/${d}/${y} ${h % 12 === 0 ? 12 : h % 12}:${clock.slice(3)} ${h < 12 ? 'AM' : 'PM'}`];
    }
    case 'time-of-day':
      return [clock];
    case 'elapsed-s':
      return [marked((elapsed_ns / 1e9).toFixed(digitsOf(table.interval_ns)))];
    case 'elapsed-hms': {
      const s = Math.floor(elapsed_ns / 1e9);
      return [`${Math.floor(s / 3600)}:${two(Math.floor(s / 60) % 60)}:${two(s % 60)}${fraction}`];
    }
    case 'elapsed-min':
      return [marked(String(row * 0.5))];
    case 'unmarked':
      return [marked(`${y}${mo}${d}${clock.replaceAll(':', '')}`)];
    case 'month-name':
      return [`${d} ${monthNames[date.getUTCMonth()] ?? ''} ${y} ${clock}`];
    case 'time-then-date':
      return [clock, `${y}/${mo}/${d}`];
    case 'elapsed-ms':
      return [marked(String(elapsed_ns / 1e6))];
    case 'day-number': {
      const seconds = date.getTime() / 1000 + Number(`0${fraction}`);
      return [marked((seconds / 86400 + 25569).toFixed(10))];
    }
    case 'parts':
      return [
        String(y),
        String(date.getUTCMonth() + 1),
        String(date.getUTCDate()),
        String(date.getUTCHours()),
        String(date.getUTCMinutes()),
        marked(`${date.getUTCSeconds()}${fraction}`),
      ];
    case 'week-date': {
      // The week belongs to the year of its Thursday.
      const monday = Math.floor(date.getTime() / 86_400_000 + 3) / 7;
      const thursday = new Date(Math.floor(monday) * 7 * 86_400_000);
      const weekYear = thursday.getUTCFullYear();
      const week = 1 + Math.floor((thursday.getTime() - Date.UTC(weekYear, 0, 1)) / (7 * 86_400_000));
      return [`${weekYear}-W${two(week)}-${date.getUTCDay() === 0 ? 7 : date.getUTCDay()}T${clock}`];
    }
    case 'date-and-digits':
      return [`${d}.${mo}.${y}`, marked(clock.replaceAll(':', ''))];
    case 'duration': {
      const s = Math.floor(elapsed_ns / 1e9);
      return [`PT${Math.floor(s / 3600)}H${Math.floor(s / 60) % 60}M${s % 60}${marked(fraction)}S`];
    }
    case 'lettered': {
      const s = Math.floor(elapsed_ns / 1e9);
      return [`${Math.floor(s / 60)}m ${s % 60}${marked(fraction)}s`];
    }
    case 'no-year': {
      // Without its year a log over the end of February has a day too many, which is said; that has its own sample.
      const leap = clockAt({ ...table, start: { ...table.start, year: 2004 } }, row).date;
      return [`${monthNames[leap.getUTCMonth()] ?? ''} ${two(leap.getUTCDate())} ${clock}`];
    }
    case 'epoch-us':
      return [Math.floor(date.getTime() / 1000) + fraction.slice(1).padEnd(6, '0')];
    case 'epoch-ns':
      return [Math.floor(date.getTime() / 1000) + fraction.slice(1).padEnd(9, '0')];
    case 'ticks-1601':
      return [Math.floor(date.getTime() / 1000) + 11_644_473_600 + fraction.slice(1).padEnd(7, '0')];
    case 'ticks-1':
      return [Math.floor(date.getTime() / 1000) + 62_135_596_800 + fraction.slice(1).padEnd(7, '0')];
    case 'julian-day': {
      const seconds = date.getTime() / 1000 + Number(`0${fraction}`);
      // SQLite 3.40.1: julianday('1970-01-01') = 2440587.5 (run).
      return [marked((seconds / 86400 + 2440587.5).toFixed(9))];
    }
    case 'epoch-s':
      return [marked(`${Math.floor(date.getTime() / 1000)}${fraction}`)];
    case 'epoch-ms':
      return [String(Math.floor(date.getTime() / 1000)) + fraction.slice(1).padEnd(3, '0')];
  }
}

function timeNames(dialect: WrittenDialect): string[] {
  switch (dialect.time) {
    case 'two-columns':
      return ['Date', 'Time'];
    case 'elapsed-s':
      return [dialect.units === 'row' ? 'Elapsed' : 'Elapsed (s)'];
    case 'elapsed-min':
      return [dialect.units === 'row' ? 'Elapsed' : 'Elapsed (min)'];
    case 'elapsed-hms':
    case 'duration':
    case 'lettered':
      return ['Elapsed'];
    case 'date-and-digits':
      return ['Date', 'Time'];
    case 'parts':
      return ['Year', 'Month', 'Day', 'Hour', 'Min', 'Sec'];
    case 'time-then-date':
      return ['Time', 'Date'];
    case 'elapsed-ms':
      return [dialect.units === 'row' ? 'Elapsed' : 'Elapsed (ms)'];
    case 'epoch-s':
    case 'epoch-ms':
    case 'epoch-us':
    case 'epoch-ns':
    case 'ticks-1601':
    case 'ticks-1':
      return ['Timestamp'];
    default:
      return ['Time'];
  }
}

/** The intervals that a time form can write: epochs and clocks down to microseconds, minutes only in halves. */
export function usableInterval(dialect: WrittenDialect, interval_ns: number): number {
  if (dialect.time === 'elapsed-min') return 30e9;
  // A day number is good to a millisecond; and two rows of it within a hundredth of a second may be a count of anything.
  if (dialect.time === 'day-number' || dialect.time === 'julian-day') return Math.max(1e8, interval_ns);
  if (dialect.time === 'epoch-ms' && interval_ns % 1e6 !== 0) return 1e6 * Math.ceil(interval_ns / 1e6);
  // Between commas a fraction of a second has a point like the numbers; a decimal comma inside a clock is left to its own samples.
  return interval_ns;
}

export const timeFormOf: Readonly<Record<WrittenDialect['time'], TimeForm>> = {
  'iso-t': 'iso-8601',
  'iso-blank': 'iso-8601',
  'iso-z': 'iso-8601',
  'iso-offset': 'iso-8601',
  'dmy-dots': 'date-time',
  'mdy-slashes': 'date-time',
  'ymd-slashes': 'date-time',
  'two-columns': 'date-time',
  'am-pm': 'date-time',
  'time-of-day': 'time-of-day',
  'elapsed-s': 'elapsed-seconds',
  'elapsed-hms': 'elapsed-hms',
  'elapsed-min': 'elapsed-minutes',
  'epoch-s': 'epoch-seconds',
  'epoch-ms': 'epoch-milliseconds',
  unmarked: 'date-time',
  'month-name': 'date-time',
  'time-then-date': 'date-time',
  'elapsed-ms': 'elapsed-seconds',
  'day-number': 'spreadsheet-serial',
  parts: 'date-time',
  'week-date': 'iso-8601',
  'date-and-digits': 'date-time',
  duration: 'elapsed-hms',
  lettered: 'elapsed-hms',
  'epoch-us': 'epoch-microseconds',
  'epoch-ns': 'epoch-nanoseconds',
  'ticks-1601': 'ticks-from-1601',
  'ticks-1': 'ticks-from-1',
  'julian-day': 'julian-day',
  'no-year': 'time-of-day',
};

export function writeTable(table: PlainTable, dialect: WrittenDialect): Uint8Array {
  const { delimiter } = dialect;
  const quoted = (text: string): string => `"${text.replaceAll('"', '""')}"`;
  const needsQuotes = (text: string): boolean => text.includes(delimiter) || text.includes('"');
  const field = (text: string, isNumber: boolean): string =>
    dialect.quotes === 'all' ||
    (dialect.quotes === 'numbers' && isNumber) ||
    needsQuotes(text) ||
    (delimiter === ' ' && text === '')
      ? quoted(text)
      : text;
  const end = dialect.trailingDelimiter && delimiter !== ' ' ? delimiter : '';
  const row = (fields: { text: string; isNumber: boolean }[]): string =>
    fields.map(({ text, isNumber }) => field(text, isNumber)).join(delimiter) + end;
  const words = (texts: string[]): string => row(texts.map((text) => ({ text, isNumber: false })));
  const lines: string[] = [];
  if (dialect.separatorLine) lines.push(`sep=${delimiter}`);
  if (dialect.preamble === 'comment') lines.push('# Bench log, unit B-0411', '# nothing else');
  if (dialect.preamble === 'title') lines.push('Bench 2', '');
  if (dialect.preamble === 'key-value')
    lines.push(words(['Operator', 'A. Nobody']), words(['Unit', 'B-0411']), words(['Offset', '2']));
  if (dialect.preamble === 'small-table')
    lines.push(words(['Sensor', 'Zero']), words(['1', '0']), words(['2', '4']), words(['3', '1']), '');
  const count = table.cells.length;
  const names = channelNames.slice(0, count);
  const heading = [...timeNames(dialect)];
  const unitRow: string[] = timeNames(dialect).map(() =>
    dialect.time === 'elapsed-s'
      ? 's'
      : dialect.time === 'elapsed-ms'
        ? 'ms'
        : dialect.time === 'elapsed-min'
          ? 'min'
          : '',
  );
  for (const [i, name] of names.entries()) {
    const unit = channelUnits[i]?.written ?? '';
    heading.push(dialect.units === 'header' ? `${name} [${unit}]` : name);
    unitRow.push(unit);
    if (dialect.units === 'columns') heading.push('Unit');
  }
  lines.push(words(heading));
  if (dialect.units === 'row') lines.push(words(unitRow));
  for (let r = 0; r < (table.cells[0]?.length ?? 0); r++) {
    const fields = timeCells(table, dialect, r).map((text) => ({ text, isNumber: false }));
    for (const [i, cells] of table.cells.entries()) {
      const plain = cells[r] ?? '';
      const isNumber = /\d/u.test(plain);
      const text = isNumber && dialect.decimal === ',' ? plain.replace('.', ',') : plain;
      const unit = channelUnits[i]?.written ?? '';
      fields.push({ text: dialect.units === 'cells' && isNumber ? `${text} ${unit}` : text, isNumber });
      if (dialect.units === 'columns') fields.push({ text: unit, isNumber: false });
    }
    lines.push(row(fields));
  }
  return encode(
    lines.join(dialect.lineEnd) + (dialect.finalLineEnd ? dialect.lineEnd : ''),
    dialect.encoding,
  );
}

export function encode(text: string, encoding: WrittenDialect['encoding']): Uint8Array {
  switch (encoding) {
    case 'utf-8':
      return new TextEncoder().encode(text);
    case 'utf-8-bom':
      return new TextEncoder().encode(`\uFEFF${text}`);
    case 'windows-1252':
      return Uint8Array.from(text, (letter) => letter.charCodeAt(0) & 0xff);
    case 'utf-16le':
      return new Uint8Array(Buffer.from(text, 'utf16le'));
    case 'utf-16le-bom':
      return new Uint8Array(Buffer.from(`\uFEFF${text}`, 'utf16le'));
    case 'utf-16be':
      return new Uint8Array(Buffer.from(text, 'utf16le').swap16());
  }
}
