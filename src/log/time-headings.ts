import { readUnit } from '#units/read-unit.ts';
import { unitKind, type UnitName } from '#units/unit.ts';
import type { ColumnSummary } from './column-summary.ts';
import type { DateOrder } from './civil-day.ts';
import { readHeading } from './header-unit.ts';
import { bare } from './heading-rows.ts';
import type { Layout } from './settle-layout.ts';

const unitName =
  /^\W*(?:s|[µμu]s|micros|microseconds|secs?|seconds?|sekunden|ms|msecs?|millis|milliseconds?|minutes|hours|stunden|std)\W*$/iu;
/** Whether a heading is nothing but a unit of time. */
export const isUnitOfTime = (heading: string): boolean => unitName.test(heading);

/** Words of a heading that names the fraction of a second, and how many of its digits one stands for; null: by its size. */
const fractionWords: readonly (readonly [RegExp, number | null])[] = [
  [/^(?:frac\w*|subsec\w*)$/iu, null],
  [/^(?:tenths?|zehntel\w*|dixi[eè]mes?)$/iu, 1],
  [/^(?:hundredths?|cs|centis?|centisec\w*|hundertstel\w*|centi[eè]mes?)$/iu, 2],
  [/^(?:thousandths?|ms|msecs?|millis?|millisec\w*|millisekunden|tausendstel\w*|milli[eè]mes?)$/iu, 3],
  [/^(?:[µμu]s|usecs?|micros?|microsec\w*)$/iu, 6],
];
const MICRO = 6;
const besideFraction =
  /^(?:s|secs?|seconds?|sekunden?|of|a|the|time|timestamp|clock|t|tv|zeit|date|datetime|sub)$/iu;
const inFigures: Readonly<Record<string, string>> = {
  '1/10': ' tenths ',
  '1/100': ' hundredths ',
  '1/1000': ' thousandths ',
};
/**
 * What a heading says of a column that holds the fraction of a second: one of its words, and none but those of the second beside it.
 * null: it names none.
 * @returns what the readings stay under, and the digits that one of them stands for, whatever their size: 25 of 0, 25, 50, 75 may be
 * hundredths only where the heading leaves it open
 */
export function fractionNamed(heading: string): { under: number; digits: number | null } | null {
  const words = heading
    .replace(/1\/10{1,3}(?!\d)/gu, (figures) => inFigures[figures] ?? figures)
    .split(/[^\p{L}\d]+/u)
    .filter((word) => word !== '');
  const found = words.map((word) => fractionWords.find(([named]) => named.test(word)));
  if (!words.every((word, i) => found[i] !== undefined || besideFraction.test(word))) return null;
  const all = found.filter((each) => each !== undefined).map(([, digits]) => digits);
  if (all.length === 0) return null;
  return { under: all.includes(MICRO) ? 1e6 : 1000, digits: all.find((digits) => digits !== null) ?? null };
}

/** A unit of time that stands in no log's results: days. */
const daysName = /^(?:d|days?|tage?|jours?|d[ií]as?|giorn[io]|dagen|dagar)$/iu;
/** Words in brackets behind a time that are no unit. */
const noUnit =
  /^(?:utc|gmt|local\w*|lokal\w*|rel\w*|abs\w*|elapsed|start\w*|since .*|from .*|seit .*|ab .*)$/iu;
/** What a heading or unit row says about the two parts of `12:34`. */
const hoursAndMinutes = /(?<![a-z:.])h{1,2}[:.]m{1,2}(?![:.]?[a-z])/iu;
const minutesAndSeconds = /(?<![a-z:.])m{1,2}[:.]s{1,2}(?![a-z])/iu;
/** What is said about times of two parts, `12:34`. */
export function partsHint(layout: Layout, column: number): 'hours' | 'minutes' | null {
  const said = `${layout.headings[column] ?? ''} ${layout.unitTexts[column] ?? ''}`;
  if (hoursAndMinutes.test(said)) return 'hours';
  return minutesAndSeconds.test(said) ? 'minutes' : null;
}

/** Seconds in the unit that unit row or heading give a numeric time: null where they say none, NaN where they say another one. */
export function secondsInUnit(layout: Layout, column: number): number | null {
  const heading = layout.lowestHeadings[column] ?? '';
  const inRow = bare(layout.unitTexts[column] ?? '');
  const inHeading = readHeading(heading);
  const unit =
    readUnit(inRow) ??
    inHeading.unit ??
    (isUnitOfTime(heading) ? readUnit(heading.replace(/\W/gu, '')) : null);
  const texts = `${inRow} ${heading}`;
  if (/(?:^|[^a-z])(?:[µμu]s|micros(?:ec(?:onds)?)?)(?:$|[^a-z])/iu.test(texts)) return 1e-6;
  if (/(?:^|[^a-z])(?:ns|nanos(?:ec(?:onds)?)?)(?:$|[^a-z])/iu.test(texts)) return 1e-9;
  switch (unit) {
    case 's':
      return 1;
    case 'ms':
      return 0.001;
    case 'min':
      return 60;
    case 'h':
      return 3600;
    case null: {
      const text = inRow === '' ? (inHeading.unitText ?? '') : inRow;
      if (daysName.test(text) || daysName.test(heading)) return 86400;
      return text === '' || noUnit.test(text) || unitRowWords.test(text) ? null : NaN;
    }
    case '1':
      return null;
    default:
      return NaN;
  }
}
const secondsIn: Readonly<Partial<Record<UnitName, number>>> = { s: 1, ms: 0.001, min: 60, h: 3600 };
/** Seconds in the unit that cells bear, where heading and unit row give none; NaN where they differ, or are no times. */
export function secondsOfCells({ cellUnit }: ColumnSummary, inHeading: number | null): number | null {
  if (cellUnit === null) return inHeading;
  const own = cellUnit === 'mixed' ? NaN : (secondsIn[cellUnit] ?? NaN);
  return inHeading === null || inHeading === own ? own : NaN;
}

/** What a unit row says of a time without giving a unit. */
const unitRowWords = /^(?:ts|rn|-+|n\/?a|[hms]{1,2}(?::[hms]{1,2}){1,2}.*|[ymdj]{1,4}[-./ ].*)$/iu;
/** That unit by its sign. */
export const secondsName = (seconds: number): string =>
  seconds === 1 ? 's' : seconds === 0.001 ? 'ms' : seconds === 3600 ? 'h' : seconds === 86400 ? 'd' : 'µs';

/** What stands beside a least temperature. */
const greatest = /^\W*t[\s_.]*(?:max|avg|mean|mittel|mw|act|ist)/iu;

/** Whether a column is of something else than time, by its unit: "T [°C]" is no time, however steadily it rises. */
export function isOtherQuantity(layout: Layout, column: number): boolean {
  const heading = layout.headings[column] ?? '';
  // "T min" is minutes by itself; beside "T max" it is the least temperature.
  if (/^\W*t[\s_.]*min\W*$/iu.test(heading) && layout.lowestHeadings.some((other) => greatest.test(other)))
    return true;
  const row = bare(layout.unitTexts[column] ?? '');
  const found = row === '' ? readHeading(heading) : readHeading(`x [${row}]`);
  return found.absolute || (found.unit !== null && found.unit !== '1' && unitKind(found.unit) !== 'time');
}

/** 1 for a column of seconds by its bare name, 2 of minutes, 3 of hours; 0 for any other. */
export const clockPart = (heading: string): number =>
  1 +
  [
    /^\W*(?:s|secs?|seconds?|sekunden?)\W*$/iu,
    /^\W*(?:m|min|mins|minutes?|minuten?)\W*$/iu,
    /^\W*(?:h|hrs?|hours?|stunden?|std)\W*$/iu,
  ].findIndex((name) => name.test(heading));

/** The order of a date's numbers as a heading or unit row spells it: `dd/mm/yyyy`, `TT.MM.JJJJ`, `yymmdd`. */
export function orderSaid(text: string): DateOrder | null {
  if (/(?:^|[^a-z])(?:[dtj]{1,2}[-./ ]?m{1,3}[-./ ]?(?:[yja]{2}|[yja]{4}))(?![a-z])/iu.test(text))
    return 'day-month-year';
  if (/(?:^|[^a-z])m{1,2}[-./ ]?[dtj]{1,2}[-./ ]?(?:[yja]{2}|[yja]{4})(?![a-z])/iu.test(text))
    return 'month-day-year';
  return /(?:^|[^a-z])(?:[yja]{2}|[yja]{4})[-./ ]?m{1,3}[-./ ]?[dtj]{1,2}(?![a-z])/iu.test(text)
    ? 'year-month-day'
    : null;
}
