import type { Remark } from '#formats/remark.ts';
import { settleDays } from './date-order.ts';
import type { DateRun } from './log-table.ts';
import { newClockParts, NO_OFFSET, readClockText } from './read-clock.ts';
import { readNumber } from './read-number.ts';
import type { Layout } from './settle-layout.ts';
import type { TimePlan } from './time-plan.ts';

/** Less than this share is a clock that is out of true. */
const SHARE = 0.02;
/** The clock is known where it changes; one that does so in gusts is early or late by about as much as it goes on in one. */
const GUSTS = 2;
const FEWEST_CHANGES = 4;
const DAY_S = 86400;

/**
 * Holds an elapsed time against the clock beside it, over the rows of the head.
 * @returns a remark where they go on by different times; null where they agree, or nothing can be told
 */
export function clockBesideDisagrees(plan: TimePlan, layout: Layout): Remark | null {
  if (plan.startColumn < 0 || plan.parts.length > 0 || plan.unmarked) return null;
  const found = changesOf(plan, layout);
  const first = found[0],
    last = found.at(-1);
  if (first === undefined || last === undefined || found.length < FEWEST_CHANGES) return null;
  const elapsed_s = last.elapsed_s - first.elapsed_s,
    clock_s = last.clock_s - first.clock_s;
  const gust_s = Math.max(elapsed_s, Math.abs(clock_s)) / (found.length - 1);
  if (!(Math.abs(clock_s - elapsed_s) > Math.max(SHARE * elapsed_s, GUSTS * gust_s))) return null;
  const shown = (seconds: number): string => `${Number(seconds.toPrecision(6))} s`;
  const name = (column: number): string => layout.lowestHeadings[column] ?? '';
  return {
    code: 'clock-beside-disagrees',
    text: `From line ${first.line} to ${last.line} column "${name(plan.column)}" goes on by ${shown(elapsed_s)} and the clock beside it, "${name(plan.startColumn)}", by ${shown(clock_s)}: they disagree, and the times of "${name(plan.column)}" were used. If the clock is right, name it as "column" in a rig file.`,
  };
}

/** Elapsed time and clock of the head's rows in which the clock is another than before. */
function changesOf(plan: TimePlan, layout: Layout): { line: number; elapsed_s: number; clock_s: number }[] {
  const rows: { line: number; elapsed_s: number; run: DateRun; ns: number }[] = [];
  let before = '';
  for (const [i, row] of layout.rows.entries()) {
    const cell = row.cells[plan.startColumn] ?? '';
    if (cell === before) continue;
    const isFirst = before === '';
    before = cell;
    const elapsed_s = elapsedOf(row.cells[plan.column] ?? '', plan, layout);
    const parts = newClockParts();
    if (isFirst || Number.isNaN(elapsed_s) || !readClockText(cell, 'date-time', parts)) continue;
    rows.push({ line: row.line, elapsed_s, run: { row: i, line: row.line, ...parts }, ns: parts.clock_ns });
  }
  const { days } = settleDays(
    rows.map(({ run }) => run),
    layout.rows.length,
    plan.dateOrder,
    plan.dateOrderHint,
  );
  return rows.flatMap(({ line, elapsed_s, run, ns }, i) => {
    const offset_s = run.offset_min === NO_OFFSET ? 0 : run.offset_min * 60;
    const clock_s = (days[i] ?? NaN) * DAY_S + ns / 1e9 - offset_s;
    return Number.isNaN(clock_s) ? [] : [{ line, elapsed_s, clock_s }];
  });
}

function elapsedOf(cell: string, plan: TimePlan, layout: Layout): number {
  if (plan.source === 'elapsed') {
    const parts = newClockParts();
    return readClockText(cell, 'elapsed', parts) ? parts.clock_ns / 1e9 : NaN;
  }
  const reading = readNumber(cell, { decimal: layout.decimal });
  return reading.kind === 'number' ? reading.value * plan.unit_s : NaN;
}
