import type { Log } from '#formats/log.ts';
import { rounded } from '#formats/number.ts';
import type { Result } from '#formats/problem.ts';
import type { Rig } from '#formats/rig.ts';
import { bytesOf } from './encoding.ts';
import { readLog, type ReadOptions } from './read-log.ts';
import { NO_FACTS, type WorkbookFacts } from './workbook-facts.ts';

/** A cell as a reader of spreadsheet files gives it; times without a zone come as that wall clock in UTC. */
export type SheetCell = string | number | boolean | Date | null | undefined;

/** Spreadsheets keep a time as a fraction of a day; back in milliseconds it may be off by this much. */
const SLACK_MS = 1;
const steps_ms = [1000, 100, 10] as const;

/**
 * A spreadsheet's rows as the text of a log, tabs between the cells, so that one reader serves both. A time is rounded to the
 * coarsest of 1, 0.1 and 0.01 s that all times of its column keep to within a millisecond: the log's own step, without the noise of
 * the day fraction; otherwise to the millisecond.
 * @param rows as they stand in the sheet; line 1 of the text is row 1
 * @example textOfSheet([['t_s', 'p_psi'], [0, 410.1]]) is "t_s\tp_psi\n0\t410.1\n" in UTF-8
 */
export function textOfSheet(
  rows: readonly (readonly SheetCell[])[],
  facts: WorkbookFacts = NO_FACTS,
): Uint8Array {
  const width = rows.reduce((most, row) => Math.max(most, row.length), 0);
  const step_ms = Array.from({ length: width }, (_, column) => stepOf(rows, column));
  const kinds = Array.from({ length: width }, (_, column) => dateKind(rows, column));
  const mark = writtenWithCommas(rows) ? ',' : '.';
  const lines = rows.map((row) =>
    row
      .map((cell, column) =>
        typeof cell === 'number'
          ? String(cell).replace('.', mark)
          : textOfCell(cell, step_ms[column] ?? 1, kinds[column] ?? 'date', mark, facts.dates1904),
      )
      .join('\t'),
  );
  return bytesOf(`${lines.join('\n')}\n`);
}

/** A sheet of a spreadsheet file, as its reader gives it. */
export interface Sheet {
  sheet: string;
  data: readonly (readonly unknown[])[];
}

/** Whether a file begins as a packed one does (the ZIP signature), which an .xlsx is. */
export const isPacked = (head: Uint8Array): boolean =>
  head[0] === 0x50 && head[1] === 0x4b && head[2] === 0x03 && head[3] === 0x04;

/**
 * Reads the sheet that the rig file names; else the first that holds a log with a pressure in it, or the first that holds a log at all. A
 * cover sheet or a chart's data does not get in its way, and a hidden sheet counts only where none that is shown holds a log.
 * @param source of the spreadsheet file itself
 * @param facts of the file beside its sheets
 * @returns the log and the text that it was read from; else the first sheet's problem
 */
export function readSheets(
  sheets: readonly Sheet[],
  options: ReadOptions,
  source: { bytes: number; sha256: string | null },
  facts: WorkbookFacts = NO_FACTS,
): Result<SheetLog> {
  const { size: _, rig, ...others } = options;
  const own = { ...others, rig: rig === null ? null : forSheets(rig), dates1904: facts.dates1904 };
  const wanted = rig?.dialect?.sheet;
  const read = (sheet: Sheet): Result<SheetLog> => readSheet(sheet, sheets, own, source, facts);
  if (wanted !== undefined) {
    const chosen =
      typeof wanted === 'number' ? sheets[wanted - 1] : sheets.find(({ sheet }) => sheet === wanted);
    return chosen === undefined ? noSuchSheet(wanted, sheets, options.fileName) : read(chosen);
  }
  const shown = sheets.filter(({ sheet }) => !facts.hidden.has(sheet));
  const hidden = sheets.filter(({ sheet }) => facts.hidden.has(sheet));
  const first = bestOf(shown, read);
  if (first?.ok === true || hidden.length === 0)
    return first ?? { ok: false, problems: [{ code: 'empty-file', file: options.fileName }] };
  const second = bestOf(hidden, read);
  return second?.ok === true ? second : (first ?? second ?? noSuchSheet(1, sheets, options.fileName));
}

interface SheetLog {
  log: Log;
  text: Uint8Array;
}

/** The first log with a pressure; else the first log; else the first refusal. */
function bestOf(sheets: readonly Sheet[], read: (sheet: Sheet) => Result<SheetLog>): Result<SheetLog> | null {
  let refused: Result<SheetLog> | null = null,
    other: Result<SheetLog> | null = null;
  for (const sheet of sheets) {
    const found = read(sheet);
    if (!found.ok) refused ??= found;
    else if (hasPressure(found.value.log)) return found;
    else other ??= found;
  }
  return other ?? refused;
}

function readSheet(
  { sheet, data }: Sheet,
  sheets: readonly Sheet[],
  options: ReadOptions,
  source: { bytes: number; sha256: string | null },
  facts: WorkbookFacts,
): Result<SheetLog> {
  const text = sheetText(data, facts);
  const read = readLog(text, { ...options, sha256: source.sha256 });
  if (!read.ok) return read;
  const log = { ...read.value, source: { ...read.value.source, bytes: source.bytes } };
  const remarks = [...log.remarks];
  if (sheets.length > 1)
    remarks.push({
      code: 'sheet-chosen',
      text: `The file has ${sheets.length} sheets; "${sheet}" was read.`,
    });
  const hidden = sheets.filter((other) => facts.hidden.has(other.sheet));
  if (facts.hidden.has(sheet))
    remarks.push({ code: 'sheet-hidden', text: `The sheet "${sheet}" is hidden in the file.` });
  else if (hidden.length > 0)
    remarks.push({
      code: 'hidden-sheets-left-out',
      text: `Hidden sheets (${hidden.map((other) => `"${other.sheet}"`).join(', ')}) were not looked at. Name one as "sheet" in a rig file to read it.`,
    });
  return { ok: true, value: { log: { ...log, remarks }, text } };
}

const noSuchSheet = (
  wanted: string | number,
  sheets: readonly Sheet[],
  file: string | null,
): Result<SheetLog> => ({
  ok: false,
  problems: [
    {
      code: 'no-table',
      file,
      reason: `the rig file names the sheet ${typeof wanted === 'number' ? wanted : `"${wanted}"`}, and the file has ${sheets.map(({ sheet }) => `"${sheet}"`).join(', ')}; correct that first`,
    },
  ],
});

/** A rig without what it says of text files alone: cells have no delimiter, and their numbers no mark. */
function forSheets({ dialect, ...rig }: Rig): Rig {
  if (dialect === undefined) return rig;
  const { encoding: _, delimiter: __, decimal: ___, sheet: ____, ...lines } = dialect;
  return { ...rig, dialect: lines };
}

/** A column is the pressure, or several could be. */
const hasPressure = (log: Log): boolean =>
  log.channels.some(({ role }) => role === 'pressure') ||
  log.roleCandidates.some(({ role }) => role === 'pressure');

const sheetText = (data: Sheet['data'], facts: WorkbookFacts = NO_FACTS): Uint8Array =>
  textOfSheet(
    data.map((row) => row.map((cell) => asCell(cell, facts.overlooked1904 ? DAYS_1904 * DAY_ms : 0))),
    facts,
  );
/** The text of each sheet, in order. */
export const textsOfSheets = (sheets: readonly Sheet[]): Uint8Array[] =>
  sheets.map(({ data }) => sheetText(data));

const asCell = (cell: unknown, late_ms: number): SheetCell =>
  late_ms !== 0 && cell instanceof Date
    ? new Date(cell.getTime() + late_ms)
    : typeof cell === 'string' ||
        typeof cell === 'number' ||
        typeof cell === 'boolean' ||
        cell instanceof Date
      ? cell
      : null;

function stepOf(rows: readonly (readonly SheetCell[])[], column: number): number {
  const times = rows.flatMap((row) => {
    const cell = row[column];
    return cell instanceof Date && Number.isFinite(cell.getTime()) ? [cell.getTime()] : [];
  });
  const keeps = (step: number): boolean =>
    times.every((time) => Math.abs(time - step * Math.round(time / step)) <= SLACK_MS);
  return times.length === 0 ? 1 : (steps_ms.find(keeps) ?? 1);
}

/**
 * Numbers that stand as texts with a decimal comma, and none with a point: numbers proper are then written alike, so that the file has one
 * mark. Digits in threes (`1,234`) show neither.
 */
function writtenWithCommas(rows: readonly (readonly SheetCell[])[]): boolean {
  let commas = 0,
    points = 0;
  for (const row of rows)
    for (const cell of row) {
      if (typeof cell !== 'string') continue;
      const mark = /^\s*[+\-−–]?(?:\d{4,}|\d*(?=[.,](?!\d{3}\s*$))|0(?=[.,]))([.,])\d+\s*$/u.exec(cell)?.[1];
      if (mark === ',') commas++;
      else if (mark === '.') points++;
    }
  return commas > 0 && points === 0;
}

/**
 * Day 0 of the 1900 system, and of the 1904 one: a time of day, or a duration in hours, is kept as a fraction from there on.
 * (ECMA-376 part 1, 18.17.4.1, from memory.)
 */
const DAYS_ZERO_ms = [Date.UTC(1899, 11, 30), Date.UTC(1904, 0, 1)] as const;
const DAY_ms = 86_400_000;
const DAYS_1904 = 1462;
/** Durations of up to a month; no log is so old that its dates lie there. */
const LONGEST_DURATION_ms = 31 * DAY_ms;

/** What a column's times are: dates; times of day or durations, from a day 0 on; or numbers that somebody formatted as dates. */
type DateKind = 'date' | 'number' | { dayZero_ms: number };

function dateKind(rows: readonly (readonly SheetCell[])[], column: number): DateKind {
  let first = Infinity,
    last = -Infinity;
  for (const row of rows) {
    const cell = row[column];
    if (!(cell instanceof Date) || !Number.isFinite(cell.getTime())) continue;
    first = Math.min(first, cell.getTime());
    last = Math.max(last, cell.getTime());
  }
  const dayZero_ms = DAYS_ZERO_ms.find(
    (zero) => first - zero >= -SLACK_MS && last - zero <= LONGEST_DURATION_ms,
  );
  if (first <= last && dayZero_ms !== undefined) return { dayZero_ms };
  // No logger is from before 1970: 410 in a date's format is 410, and not the 13th of February 1901.
  return last < 0 ? 'number' : 'date';
}

/** "8:15:02.5" from the milliseconds since day 0; the hours of a duration go on beyond 24. */
function clockText(since_ms: number): string {
  const two = (value: number): string => String(value).padStart(2, '0');
  const whole = Math.floor(since_ms / 1000);
  const rest = Math.round(since_ms - 1000 * whole);
  const clock = `${two(Math.floor(whole / 3600))}:${two(Math.floor(whole / 60) % 60)}:${two(whole % 60)}`;
  return rest === 0 ? clock : `${clock}.${String(rest).padStart(3, '0')}`;
}

function textOfCell(
  cell: SheetCell,
  step_ms: number,
  kind: DateKind,
  mark: string,
  dates1904: boolean,
): string {
  if (cell === null || cell === undefined) return '';
  if (cell instanceof Date) {
    if (!Number.isFinite(cell.getTime())) return '';
    if (kind === 'number')
      return String(rounded((cell.getTime() - DAYS_ZERO_ms[dates1904 ? 1 : 0]) / DAY_ms)).replace('.', mark);
    const time_ms = step_ms * Math.round(cell.getTime() / step_ms);
    if (kind !== 'date') return clockText(Math.max(0, time_ms - kind.dayZero_ms));
    const text = new Date(time_ms).toISOString();
    return text.replace('T', ' ').replace(/(?:\.000)?Z$/u, '');
  }
  if (typeof cell === 'boolean') return cell ? '1' : '0';
  if (typeof cell === 'number') return String(cell);
  return cell.replace(/[\t\r\n]+/gu, ' ').replaceAll('"', '″');
}
