import { SetAside } from '#formats/log.ts';
import { durationText, fixedText, noBreak, unitLabel } from '#app/shown-numbers.ts';
import { pascalsIn, type PressureUnit } from '#units/pressure.ts';
import { convertTemperature } from '#units/temperature.ts';
import { extentOf, type Extent } from '#drawing/blocks.ts';
import type { ShownFrame } from './frame.ts';
import { otherWords } from './other-channels.ts';
import { firstRowFrom, nearestRow } from './rows.ts';
import type { RunView } from './run-view.ts';
import { setAsideKind, setAsideWords } from './set-aside-runs.ts';
import { sinceStart } from './time-words.ts';

/** What stands under the hairline: a reading, or a place in a gap. */
export interface Cursor {
  at_s: number;
  /** null in a gap, and in a log without rows. */
  row: number | null;
}

/** What the tab says, in its parts. */
export interface ReadOut {
  /** "425.4 psi"; null where there is no pressure. */
  pressure: string | null;
  /** "5.4 above the band". */
  place: string | null;
  /** "raw 422.8 to 428.0", or what was set aside. */
  raw: string | null;
  oil: string | null;
  /** The other channels, where they are shown. */
  others: string[];
  time: string;
}

/** Figures show about a tenth of a psi, in whole digits of each unit. Common practice, no source. */
const SHOWN_STEP_Pa = 690;
export function figureDecimals(unit: PressureUnit): number {
  return Math.max(0, Math.round(Math.log10(pascalsIn[unit] / SHOWN_STEP_Pa)));
}

/** The cursor nearest to an instant: snapped to a reading, or in a gap. */
export function cursorAt(view: RunView, at_s: number): Cursor {
  const held = Math.min(view.end_s, Math.max(0, at_s));
  const gap = gapAt(view, held);
  if (gap !== null) return { at_s: held, row: null };
  if (view.time_s.length === 0) return { at_s: held, row: null };
  const row = nearestRow(view.time_s, held);
  return { at_s: view.time_s[row] ?? held, row };
}

function gapAt(view: RunView, at_s: number): { start_s: number; end_s: number } | null {
  // Within a sampling interval of its ends the nearest reading is meant.
  const edge = view.medianInterval_s / 2;
  return view.gaps.find((gap) => at_s > gap.start_s + edge && at_s < gap.end_s - edge) ?? null;
}

/** The readings under a cursor in words, as drawn at this closeness. */
export function readOut(view: RunView, frame: ShownFrame, cursor: Cursor): ReadOut {
  const { at_s, row } = cursor;
  const time = timeWords(view, at_s);
  if (row === null) {
    const gap = gapAt(view, at_s);
    const length = gap === null ? '' : ` for ${noBreak(durationText(gap.end_s - gap.start_s))}`;
    return { pressure: null, place: `no record${length}`, raw: null, oil: null, others: [], time };
  }
  const others = frame.otherPanes.flatMap(({ channel }) => otherWords(channel, row) ?? []);
  return { ...pressureWords(view, frame, row), oil: oilWords(view, frame, row), others, time };
}

export function timeWords(view: RunView, at_s: number): string {
  const since = at_s === 0 ? noBreak('0 s') : sinceStart(at_s, view.secondDecimals);
  return view.clock === null ? since : `${since}, ${view.clock(at_s, view.secondDecimals)}`;
}

function pressureWords(
  view: RunView,
  frame: ShownFrame,
  row: number,
): Pick<ReadOut, 'pressure' | 'place' | 'raw'> {
  const { pressure } = view;
  if (pressure === null) return { pressure: null, place: null, raw: null };
  const decimals = figureDecimals(frame.unit);
  const figure = (value: number): string => fixedText(value * frame.factor, decimals);
  const smoothed = pressure.smoothed[row] ?? NaN;
  return {
    pressure: Number.isNaN(smoothed) ? null : `${figure(smoothed)}\u00a0${unitLabel(frame.unit)}`,
    place: Number.isNaN(smoothed) ? null : placeWords(view, smoothed, figure),
    raw: rawWords(view, frame, row, figure),
  };
}

function placeWords(view: RunView, value: number, figure: (value: number) => string): string | null {
  const { low, high } = view.band;
  if (low === null && high === null) return null;
  const whole = low !== null && high !== null ? 'band' : 'limit';
  if (high !== null && value > high) return `${figure(value - high)} above the ${whole}`;
  if (low !== null && value < low) return `${figure(low - value)} below the ${whole}`;
  const room = Math.min(value - (low ?? -Infinity), (high ?? Infinity) - value);
  return whole === 'band' ? `${figure(room)} inside the band` : `${figure(room)} clear of the limit`;
}

/** The readings of one px of paper, or the one that was set aside and why. */
function rawWords(
  view: RunView,
  frame: ShownFrame,
  row: number,
  figure: (value: number) => string,
): string | null {
  const { pressure } = view;
  if (pressure === null) return null;
  const kind = setAsideKind(pressure.flags[row]);
  if (kind !== null) {
    const value = pressure.values[row] ?? NaN;
    const words = setAsideWords[kind].one;
    return Number.isNaN(value) ? `set aside: ${words}` : `set aside: ${words} ${figure(value)}`;
  }
  const perPx = (frame.shown.to_s - frame.shown.from_s) / frame.along;
  const at_s = view.time_s[row] ?? 0;
  const from = firstRowFrom(view.time_s, at_s - perPx / 2),
    to = Math.max(row + 1, firstRowFrom(view.time_s, at_s + perPx / 2));
  const extent: Extent = { lowest: 0, highest: 0 };
  if (!extentOf(pressure.raw, Math.min(from, row), to, extent)) return null;
  const low = figure(extent.lowest),
    high = figure(extent.highest);
  return low === high ? `raw ${low}` : `raw ${low} to ${high}`;
}

function oilWords(view: RunView, frame: ShownFrame, row: number): string | null {
  const { oil } = view;
  if (oil === null || frame.temperatureUnit === null) return null;
  const kept = oil.flags[row] === SetAside.kept;
  const value = oil.smoothed[row] ?? NaN;
  if (Number.isNaN(value)) return kept ? null : 'no oil reading';
  const shown = convertTemperature(value, oil.unit, frame.temperatureUnit);
  return `oil ${fixedText(shown, 1)}\u00a0${unitLabel(frame.temperatureUnit)}`;
}

/** The whole tab as one line, for those who hear the page. */
export function readOutText({ pressure, place, raw, oil, others, time }: ReadOut): string {
  return [pressure, place, raw, oil, ...others, time].filter((part) => part !== null).join(', ');
}
