import { durationText, noBreak, statedText, withUnit } from '#units/number-text.ts';
import {
  BREAK_WIDTH,
  CHART_WIDTH,
  chartFrame,
  hoursShown,
  LINE_MM,
  PLOT_AT_MOST,
  PLOT_LEFT,
  type ChartInput,
  type Frame,
} from './chart-frame.ts';
import { clockAt } from './clock.ts';
import { BLACK, line, text, type Drawing, type Item } from './display-list.ts';
import { eventLane } from './event-lane.ts';
import { averageOf, columnLabels, gapColumn, labelRoom } from './gap-column.ts';
import { hourRule } from './hour-rule.ts';
import { oilPane } from './oil-pane.ts';
import { paneLabels } from './pane-labels.ts';
import { largePane, pressureAxis, stripPane } from './pressure-panes.ts';
import { graduation, PANE_HEIGHT, timeScale } from './scales.ts';

/**
 * The chart of a delivery record: the whole run from zero, the large pane at a whole scale, the hour rule, the oil, and beside them the
 * opening that limits and gauge leave with the average in it.
 * @returns a drawing 175 mm wide, black on white, to be printed at full size
 * @throws RangeError without a run: a mistake of ours
 */
export function chart(input: ChartInput): Drawing {
  const last = input.runs[input.runs.length - 1];
  if (!last) throw new RangeError('a chart needs a run');
  const labels = columnLabels(
    averageOf(last.assessment),
    last.assessment.quantities.operatingPressure.unit,
    input.words,
    input.numbers,
  );
  const breaks = (input.runs.length - 1) * BREAK_WIDTH;
  const room = Math.min(PLOT_AT_MOST, CHART_WIDTH - PLOT_LEFT - labelRoom(labels, input.width));
  const frame = chartFrame(input, timeScale(hoursShown(input.runs), room - breaks));
  const inPane = paneLabels(frame);
  const items: Item[] = [
    ...stripPane(frame),
    ...eventLane(frame, inPane.homeless),
    ...largePane(frame),
    ...inPane.items,
    ...betweenTests(frame, input),
    ...pressureAxis(frame),
    ...gapColumn(frame),
    ...hourRule(frame),
    ...oilPane(frame),
    text(PLOT_LEFT, frame.y.foot + 4, footWords(frame)),
  ];
  return { width: CHART_WIDTH, height: frame.y.end, items };
}

function footWords(frame: Frame): string {
  const { words, last } = frame;
  const { unit } = graduation(frame.perHour);
  const first = frame.runs[0];
  const clock = first?.clock ?? null;
  const axis = last.engaged
    ? words.hoursSinceEngaging(unit, frame.charged)
    : words.hoursSinceFirstReading(unit);
  const started = clock
    ? ` ${words.started(clockAt(clock, 0), clock.date === null ? null : words.dateInWords(clock.date))}`
    : '';
  const unitsOf = (value: number, name: string): string =>
    noBreak(withUnit(statedText(value, frame.numbers), name)).replace(/ /g, '\u00a0');
  const time = timeScaleWords(frame);
  const scale = words.atFullSize(
    unitsOf(frame.pane.perMillimetre, frame.unit),
    words.millimetresAre(statedText(time.millimetres, frame.numbers), time.unit),
    frame.oil ? unitsOf(frame.oil.perMillimetre, frame.oil.unit) : null,
  );
  return `${axis}${started}. ${scale}`;
}

/** The time scale in the unit in which it is a whole number of millimetres. */
function timeScaleWords(frame: Frame): { millimetres: number; unit: string } {
  const { perHour, words } = frame;
  if (perHour >= 3600) return { millimetres: perHour / 3600, unit: `1\u00a0${words.timeUnit.s}` };
  if (perHour >= 120) return { millimetres: perHour / 60, unit: `1\u00a0${words.timeUnit.min}` };
  return { millimetres: perHour, unit: `1\u00a0${words.timeUnit.h}` };
}

/** The time left out between two tests, with what was changed in it: zigzag edges, an arrow. */
function betweenTests(frame: Frame, input: ChartInput): Item[] {
  const before = frame.runs[frame.runs.length - 2];
  if (!before) return [];
  const left = before.right + 1.2,
    right = frame.last.left - 1.2,
    middle = (left + right) / 2;
  const top = frame.y.pane,
    bottom = top + PANE_HEIGHT;
  const zigzag = (x: number): number[] => {
    const points: number[] = [];
    for (let k = 0; k * 2.5 <= PANE_HEIGHT; k++) points.push(x + (k % 2 === 0 ? -0.5 : 0.5), top + k * 2.5);
    return points;
  };
  const items: Item[] = [
    { kind: 'lines', lines: [zigzag(left), zigzag(right)], stroke: { width: 0.2, ink: BLACK } },
    text(middle, top - 0.9, frame.words.stopped, { anchor: 'middle' }),
  ];
  const { adjustment } = input;
  const rows: { words: string; heavy: boolean }[] = [];
  if (adjustment) {
    const sum = (shims: readonly number[]): number => shims.reduce((total, shim) => total + shim, 0);
    const from = sum(adjustment.before_mm),
      to = sum(adjustment.after_mm);
    const change = Number((to - from).toPrecision(12));
    const sign = change > 0 ? '+' : '';
    rows.push({ words: frame.words.shims, heavy: true });
    rows.push({ words: `${sign}${statedText(change, frame.numbers)}\u00a0mm`, heavy: false });
    rows.push(
      ...frame.words
        .stack(frame.fixed(from, 2), `${frame.fixed(to, 2)}\u00a0mm`)
        .map((words) => ({ words, heavy: false })),
    );
  }
  const start = top + 16;
  rows.forEach(({ words, heavy }, row) =>
    items.push(text(middle, start + row * LINE_MM, words, { anchor: 'middle', weight: heavy ? 600 : 400 })),
  );
  const arrowY = start + rows.length * LINE_MM + 1;
  items.push(line(middle - 4, arrowY, middle + 4, arrowY, 0.3), {
    kind: 'lines',
    lines: [[middle + 2.4, arrowY - 1.2, middle + 4, arrowY, middle + 2.4, arrowY + 1.2]],
    stroke: { width: 0.3, ink: BLACK },
  });
  const pause = pauseBetween(before, frame.last);
  if (pause !== null)
    items.push(
      text(middle, bottom + 4.8, noBreak(durationText(pause, false, frame.numbers)), { anchor: 'middle' }),
    );
  if (unlike(before, frame.last))
    frame.words.notLikeForLike.forEach((words, row) =>
      items.push(text(middle, bottom - 8 + row * LINE_MM, words, { anchor: 'middle' })),
    );
  return items;
}

/** Seconds from the first test's last reading to the re-test's first, where both logs have dates. */
function pauseBetween(before: Frame['last'], after: Frame['last']): number | null {
  if (
    before.clock === null ||
    before.clock.date === null ||
    after.clock === null ||
    after.clock.date === null
  )
    return null;
  const days = dayNumber(after.clock.date) - dayNumber(before.clock.date);
  const pause =
    days * 86400 +
    after.clock.startSecondOfDay -
    before.clock.startSecondOfDay -
    (before.last_s - before.first_s);
  return pause > 0 ? pause : null;
}
/** Days since 1970 of an ISO date, counted in the proleptic Gregorian calendar (ISO 8601, 4.2.1). */
function dayNumber(isoDate: string): number {
  const [year = 0, month = 1, day = 1] = isoDate.split('-').map(Number);
  const y = month <= 2 ? year - 1 : year;
  const dayOfYear = Math.floor((153 * (month + (month > 2 ? -3 : 9)) + 2) / 5) + day - 1;
  return y * 365 + Math.floor(y / 4) - Math.floor(y / 100) + Math.floor(y / 400) + dayOfYear - 719468;
}

/** Oil further apart than this between the two holds makes the pressures incomparable. Common practice, no source. */
const LIKE_TEMPERATURE_C = 5;
function unlike(before: Frame['last'], after: Frame['last']): boolean {
  const a = before.assessment.quantities.holdTemperature,
    b = after.assessment.quantities.holdTemperature;
  if (a.mean === null || b.mean === null || a.unit !== b.unit) return false;
  const step = a.unit === 'degF' ? 1.8 : 1;
  return Math.abs(a.mean - b.mean) > LIKE_TEMPERATURE_C * step;
}
