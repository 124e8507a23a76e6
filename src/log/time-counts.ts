import { plainText } from './plain-text.ts';
import {
  countForms,
  countScales,
  EARLIEST_COUNT_DAY,
  LATEST_COUNT_DAY,
  type CountForm,
} from './clock-count.ts';
import type { ColumnSummary } from './column-summary.ts';
import {
  epochName,
  isOtherCount,
  isOtherDate,
  isOtherTime,
  namesClock,
  recordName,
  timeName,
} from './heading-words.ts';
import type { Layout } from './settle-layout.ts';
import { isOtherQuantity, isUnitOfTime, secondsInUnit, secondsOfCells } from './time-headings.ts';
import type { TimePlan } from './time-plan.ts';

const DAY_S = 86400;
const julianName = /(?:^|[^a-z])(?:jd|julian[ _]?(?:day|date)s?|julianisch\w*)(?![a-z])/iu;
const modifiedName = /(?:^|[^a-z])(?:mjd|modified[ _]julian\w*|modifiziert\w* julian\w*)(?![a-z])/iu;
const ticksName = /(?:^|[^a-z])ticks?(?![a-z])/iu;
/** Without a heading's help a row comes no faster and no slower. */
const FASTEST_S = 1e-3;
const SLOWEST_S = 3600;
/** `2026030408150012`: date, time and hundredths without marks, which as microseconds would lie about 2034. */
const dateInDigits = /^20\d{2}(?:0[1-9]|1[0-2])(?:0[1-9]|[12]\d|3[01])(?:[01]\d|2[0-3])[0-5]\d[0-5]\d\d{2}$/u;
/** A day number with fewer digits is good to no more than eight seconds. */
const FEWEST_DAY_DIGITS = 4;
const SURE_DAY_DIGITS = 6;
/** Digits of a day that a second's whole digits need. */
const DIGITS_OF_SECOND = 5;
const FINEST_DAY_PLACES = 3;
/** A spreadsheet's day number of 2061: what counts beyond it and would be a day from 2020 on as a modified Julian day is one. */
const MODIFIED_FROM = 58849;

/**
 * The form of a count from a fixed day, by its size: 16 to 19 digits between 2000 and 2100 in one of the forms (they do not overlap),
 * or a Julian day. The heading helps; without its help the first column alone is taken, where it rises evenly.
 * @param told what may decide: the heading, the size where it says nothing, or a rig file that names the column
 */
export function countForm(
  c: ColumnSummary,
  layout: Layout,
  told: 'by-heading' | 'by-size' | 'by-rig' = 'by-size',
): { form: CountForm; assumed: boolean } | null {
  if (c.kind !== 'number' || c.min === null || c.max === null || !(c.rises || c.falls)) return null;
  if (isOtherQuantity(layout, c.column)) return null;
  const heading = layout.lowestHeadings[c.column] ?? '';
  const says = `${heading} ${layout.unitTexts[c.column] ?? ''}`;
  const unit_s = secondsOfCells(c, secondsInUnit(layout, c.column));
  const days = dayForm(c, heading, says, unit_s === null || unit_s === DAY_S);
  if (days !== null) return days;
  const form = c.integers ? countForms.find((each) => liesWithin(c, each)) : undefined;
  if (form === undefined) return null;
  const { secondDigits } = countScales[form];
  if (secondDigits === null) return null;
  const ticks = secondDigits === 7 && /100 ?ns/iu.test(says);
  if (unit_s !== null && unit_s !== Number(`1e-${secondDigits}`) && !ticks) return null;
  if (recordName.test(heading) || isOtherDate(heading) || isOtherTime(heading)) return null;
  if (unit_s === null && secondDigits === 6 && areDates(c.column, layout)) return null;
  const said =
    unit_s !== null ||
    told === 'by-rig' ||
    timeName.test(heading) ||
    epochName.test(heading) ||
    namesClock(heading) ||
    isUnitOfTime(heading) ||
    (secondDigits === 7 && ticksName.test(heading));
  const step_s = (c.medianStep ?? 0) * Number(`1e-${secondDigits}`);
  const alone =
    told === 'by-size' &&
    c.column === 0 &&
    c.rises &&
    c.even &&
    step_s >= FASTEST_S &&
    step_s <= SLOWEST_S &&
    !isOtherCount(heading);
  return said || alone ? { form, assumed: false } : null;
}

/** Days with their fractions: where the heading says so, or what under a time's heading can be nothing else. */
function dayForm(
  c: ColumnSummary,
  heading: string,
  says: string,
  mayBeDays: boolean,
): { form: CountForm; assumed: boolean } | null {
  if (c.decimals < FEWEST_DAY_DIGITS || c.min === null) return null;
  if (modifiedName.test(says))
    return liesWithin(c, 'modified-julian-day') ? { form: 'modified-julian-day', assumed: false } : null;
  // Steps of a second are no round part of a day; those of a count of anything else are.
  const isTime = timeName.test(heading) || (c.column === 0 && !/\p{L}/u.test(heading));
  const sure =
    isTime &&
    mayBeDays &&
    !c.roundSteps &&
    c.decimals >= SURE_DAY_DIGITS &&
    (c.medianStep ?? 0) * DAY_S <= SLOWEST_S;
  if (liesWithin(c, 'julian-day') && (julianName.test(says) || (sure && c.even)))
    return { form: 'julian-day', assumed: false };
  return sure && c.even && c.column === 0 && c.min >= MODIFIED_FROM && liesWithin(c, 'modified-julian-day')
    ? { form: 'modified-julian-day', assumed: true }
    : null;
}

function liesWithin(c: ColumnSummary, form: CountForm): boolean {
  const { secondDigits, zeroDay } = countScales[form];
  const unit = secondDigits === null ? 1 : DAY_S * Number(`1e${secondDigits}`);
  return (
    (c.min ?? NaN) >= (EARLIEST_COUNT_DAY - zeroDay) * unit &&
    (c.max ?? NaN) < (LATEST_COUNT_DAY - zeroDay) * unit
  );
}

const areDates = (column: number, layout: Layout): boolean =>
  layout.rows.every((row) => {
    const cell = plainText((row.cells[column] ?? '').trim());
    return cell === '' || dateInDigits.test(cell);
  });

/** Takes a column as a count of a form. */
export function setCount(plan: TimePlan, c: ColumnSummary | undefined, form: CountForm): boolean {
  if (c === undefined) return false;
  plan.source = 'clock';
  plan.column = c.column;
  plan.form = form;
  plan.count = { form, places: Math.max(0, Math.min(FINEST_DAY_PLACES, c.decimals - DIGITS_OF_SECOND)) };
  return true;
}

/** The first column that is a count from a fixed day. */
export function byCount(
  plan: TimePlan,
  columns: readonly ColumnSummary[],
  layout: Layout,
  told: Parameters<typeof countForm>[2],
): boolean {
  for (const c of columns) {
    const found = countForm(c, layout, told);
    if (found === null) continue;
    if (found.assumed)
      plan.remarks.push({
        code: 'days-modified-julian',
        text: `Column "${layout.lowestHeadings[c.column] ?? ''}" counts days; it was read as modified Julian days, since as a spreadsheet's day numbers they would lie beyond 2060. If that is wrong, name the form in a rig file.`,
      });
    return setCount(plan, c, found.form);
  }
  return false;
}

/** The form that a rig file states, from its column or from the first that rises. */
export function countOfRig(
  plan: TimePlan,
  columns: readonly ColumnSummary[],
  named: number,
  form: CountForm,
): boolean {
  const own = named >= 0 ? columns[named] : columns.find((c) => c.kind === 'number' && (c.rises || c.falls));
  return setCount(plan, own, form);
}
