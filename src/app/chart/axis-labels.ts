import { fixedText, statedText, unitLabel } from '#app/shown-numbers.ts';
import type { Frame, ShownFrame } from './frame.ts';
import { LINE_PX, pushedApart, sizeOf, type Label, type Measure, type TextRun } from './label.ts';
import { otherDecimals } from './other-channels.ts';
import type { RunView } from './run-view.ts';
import { sinceStart } from './time-words.ts';

/** Numbers stand so far from the plot. */
const AWAY_PX = 12;
const LIMIT_TEXT_PX = 18;
/** Digits with which a converted limit is shown: enough that it does not read as a rounder one than it is. */
const LIMIT_DIGITS = 5;

/** Decimals that tell neighbouring ticks apart. */
function tickDecimals(ticks: readonly { shown: number }[]): number {
  const step = Math.abs((ticks.at(-1)?.shown ?? 1) - (ticks.at(-2)?.shown ?? 0));
  return step > 0 ? Math.max(0, Math.min(6, Math.ceil(-Math.log10(step) - 1e-6))) : 0;
}

interface ScaleText {
  run: TextRun;
  /** Across, from the plot's foot. */
  at: number;
}

/** A limit in the unit for viewing, not rounded to look nice. */
export function limitWords(limit: number, frame: Frame): string {
  return statedText(Number((limit * frame.factor).toPrecision(LIMIT_DIGITS)));
}

/** Numbers of the pressure scale: limits first, ticks where they leave room, the unit at the top. */
function pressureTexts(frame: Frame, view: RunView, apart: (texts: ScaleText) => number): ScaleText[] {
  if (view.pressure === null) return [];
  const { pressure, pressurePane } = frame;
  const px = (value: number): number => pressurePane.from + pressure.px(value);
  const limits = [view.band.low, view.band.high]
    .filter((limit): limit is number => limit !== null)
    .map((limit): ScaleText => {
      const run: TextRun = { text: limitWords(limit, frame), tone: 'limit', bold: true, size: LIMIT_TEXT_PX };
      return { run, at: px(limit) };
    })
    .filter(({ at }) => at >= pressurePane.from && at <= pressurePane.from + pressurePane.size);
  const middles = pushedApart(
    limits.map(({ at }) => at),
    limits.map(apart),
    -Infinity,
    Infinity,
  );
  const texts: ScaleText[] = limits.map((limit, index) => ({ ...limit, at: middles[index] ?? limit.at }));
  const free = (text: ScaleText): boolean =>
    texts.every((other) => Math.abs(other.at - text.at) >= (apart(other) + apart(text)) / 2);
  const unit: ScaleText = {
    run: { text: unitLabel(frame.unit), tone: 'ink', bold: true },
    at: pressurePane.from + pressurePane.size,
  };
  // A limit at the very top moves the unit over it.
  while (!free(unit)) unit.at += 2;
  texts.push(unit);
  const decimals = tickDecimals(pressure.ticks);
  for (const { value, shown } of pressure.ticks) {
    const text: ScaleText = { run: { text: fixedText(shown, decimals), tone: 'ink2' }, at: px(value) };
    if (shown === 0) text.run.text = '0';
    if (free(text)) texts.push(text);
  }
  return texts;
}

function oilTexts(frame: Frame, apart: (texts: ScaleText) => number): ScaleText[] {
  const { oil, oilPane, temperatureUnit } = frame;
  if (oil === null || oilPane === null || temperatureUnit === null) return [];
  const unit = unitLabel(temperatureUnit);
  const texts: ScaleText[] = [
    { run: { text: unit, tone: 'ink', bold: true }, at: oilPane.from + oilPane.size },
  ];
  const decimals = tickDecimals(oil.ticks);
  for (const { value, shown } of oil.ticks) {
    const text: ScaleText = { run: { text: fixedText(shown, decimals), tone: 'ink2' }, at: oil.px(value) };
    if (texts.every((other) => Math.abs(other.at - text.at) >= (apart(other) + apart(text)) / 2))
      texts.push(text);
  }
  return texts;
}

function otherTexts(frame: Frame): ScaleText[] {
  return frame.otherPanes.flatMap(({ ticks, px, channel }) => {
    const decimals = Math.max(0, ...ticks.map((tick) => (String(tick).split('.')[1] ?? '').length));
    const texts: ScaleText[] = [];
    for (const value of ticks) {
      const text: ScaleText = {
        run: { text: fixedText(value, Math.min(decimals, otherDecimals(channel) + 1)), tone: 'ink2' },
        at: px(value),
      };
      if (texts.every((other) => Math.abs(other.at - text.at) > LINE_PX)) texts.push(text);
    }
    return texts;
  });
}

/** Numbers left of the plot. */
export function scaleLabels(frame: Frame, view: RunView, measure: Measure): Label[] {
  const apart = (): number => LINE_PX + 1;
  const foot = frame.plot.top + frame.plot.height;
  return [...pressureTexts(frame, view, apart), ...oilTexts(frame, apart), ...otherTexts(frame)].map(
    ({ run, at }) => {
      const { width } = sizeOf([[run]], measure);
      return {
        key: `scale ${at} ${run.text}`,
        left: frame.plot.left - AWAY_PX - width,
        top: foot - at - LINE_PX / 2,
        width,
        height: LINE_PX,
        align: 'right',
        lines: [[run]],
      };
    },
  );
}

/** What the numbers left of the plot take up, px. */
export const scaleRoom = (frame: Frame, view: RunView, measure: Measure): number =>
  AWAY_PX + Math.max(0, ...scaleLabels(frame, view, measure).map(({ width }) => width));

/** Numbers over the plot when turned; they stay in view while the page scrolls. */
export function headLabels(frame: Frame, view: RunView, measure: Measure): Label[] {
  const apart = ({ run }: ScaleText): number => measure(run) + 10;
  const pressure = pressureTexts(frame, view, apart);
  const texts = pressure.map((text) =>
    // The pressure scale's unit stands inside its pane: the oil has the corner.
    text.run.text === unitLabel(frame.unit)
      ? {
          ...text,
          at: Math.min(text.at, frame.pressurePane.from + frame.pressurePane.size - measure(text.run) / 2),
        }
      : text,
  );
  const { oilPane, temperatureUnit } = frame;
  if (oilPane !== null && temperatureUnit !== null) {
    const run: TextRun = { text: `oil ${unitLabel(temperatureUnit)}`, tone: 'oil', bold: true };
    texts.push({ run, at: oilPane.from + oilPane.size - measure(run) / 2 });
  }
  const placed: ScaleText[] = [];
  for (const text of texts)
    if (placed.every((other) => Math.abs(other.at - text.at) >= (apart(other) + apart(text)) / 2))
      placed.push(text);
  return placed.map(({ run, at }) => {
    const { width } = sizeOf([[run]], measure);
    return {
      key: `head ${run.text}`,
      left: frame.plot.left + at - width / 2,
      top: 0,
      width,
      height: LINE_PX,
      align: 'center',
      lines: [[run]],
    };
  });
}

const SECOND_TICK_DECIMALS = 3;

/** Digits of a second that the ticks need. */
function tickSecondDecimals(step_s: number): number {
  return step_s >= 1 ? 0 : Math.min(SECOND_TICK_DECIMALS, Math.ceil(-Math.log10(step_s) - 1e-6));
}

/** Numbers of the time axis; looked at closely, the time of day under each. */
export function timeLabels(frame: ShownFrame, view: RunView, measure: Measure): Label[] {
  const { plot, turned } = frame;
  const decimals = tickSecondDecimals(frame.ticks.step_s);
  const labels: Label[] = [];
  const side = turned ? null : sideLabel(frame, view, measure);
  for (const { at_s, long } of frame.ticks.ticks) {
    if (!long) continue;
    const lines: TextRun[][] = [[{ text: sinceStart(at_s, decimals), tone: 'ink' }]];
    if (frame.zoomed && view.clock !== null) lines.push([{ text: view.clock(at_s, decimals), tone: 'ink2' }]);
    const { width, height } = sizeOf(lines, measure);
    const along = frame.x(at_s);
    const label: Label = turned
      ? {
          key: `time ${at_s}`,
          left: plot.left - AWAY_PX - width,
          top: plot.top + along - LINE_PX / 2,
          width,
          height,
          align: 'right',
          lines,
        }
      : {
          key: `time ${at_s}`,
          left: plot.left + along - width / 2,
          top: plot.top + plot.height + 11,
          width,
          height,
          align: 'center',
          lines,
        };
    const before = labels.at(-1);
    if (!turned && before !== undefined && before.left + before.width + 10 > label.left) continue;
    if (side !== null && label.left + label.width + 10 > side.left) continue;
    labels.push(label);
  }
  if (side !== null) labels.push(side);
  return labels;
}

/** "from 08:15:00", right of the axis. */
function sideLabel(frame: ShownFrame, view: RunView, measure: Measure): Label | null {
  if (view.clock === null) return null;
  const lines: TextRun[][] = [[{ text: `from ${view.clock(0)}`, tone: 'ink2' }]];
  const { width, height } = sizeOf(lines, measure);
  return {
    key: 'from',
    left: frame.plot.left + frame.plot.width + AWAY_PX,
    top: frame.plot.top + frame.plot.height + 11,
    width,
    height,
    align: 'left',
    lines,
  };
}
