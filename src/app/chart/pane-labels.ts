import { lastLaid } from './draw-laid-over.ts';
import { durationText, fixedText, noBreak, unitLabel, withUnit } from '#app/shown-numbers.ts';
import { temperatureDifferenceFactor } from '#units/temperature.ts';
import { convertTemperature } from '#units/temperature.ts';
import { extentOf, type Blocks, type Extent } from '#drawing/blocks.ts';
import { limitWords } from './axis-labels.ts';
import { gapAlong } from './draw-ground.ts';
import type { Pane, ShownFrame } from './frame.ts';
import {
  LINE_PX,
  overlaps,
  pushedApart,
  sizeOf,
  type Box,
  type Label,
  type Measure,
  type TextRun,
} from './label.ts';
import { figureDecimals } from './read-out.ts';
import { firstRowFrom } from './rows.ts';
import type { RunView } from './run-view.ts';
import { countOf } from './set-aside-runs.ts';

const RIGHT_PX = 12,
  FLAG_PX = 18;
/** So many gaps are named, the longest first. */
const NAMED_GAPS = 6;

/** Where a channel's readings lie between two places along the plot, in across px; null where there are none. */
function traceExtent(
  frame: ShownFrame,
  view: RunView,
  blocks: Blocks,
  px: (value: number) => number,
  from: number,
  to: number,
): { low: number; high: number } | null {
  const extent: Extent = { lowest: 0, highest: 0 };
  const first = Math.max(0, firstRowFrom(view.time_s, frame.at(from)) - 1),
    end = firstRowFrom(view.time_s, frame.at(to)) + 1;
  if (!extentOf(blocks, first, end, extent)) return null;
  return { low: px(extent.lowest), high: px(extent.highest) };
}

/** A box of the paper, given along and across, as px of the strip. */
function boxAt(frame: ShownFrame, along: number, across: number, width: number, height: number): Box {
  const { plot } = frame;
  return frame.turned
    ? { left: plot.left + across, top: plot.top + along, width, height }
    : { left: plot.left + along, top: plot.top + plot.height - across - height, width, height };
}

interface Wish {
  key: string;
  lines: TextRun[][];
  pane: Pane;
  /** Along at which the box starts (its end where `before`). */
  along: number;
  before?: boolean;
  /** Starts looking at the pane's foot, not at its top. */
  fromFoot?: boolean;
  /** Goes somewhere else along before it gives up. */
  roams?: boolean;
  /** May stand across a limit: its paper lets the line through. */
  overLimits?: boolean;
  flag?: Label['flag'];
  action?: Label['action'];
}

/** Finds free paper for texts inside the panes: nothing is put over the readings, a limit or another text. */
class Places {
  readonly labels: Label[] = [];
  private readonly frame: ShownFrame;
  private readonly view: RunView;
  private readonly measure: Measure;
  private readonly taken: readonly Label[];
  /** Across of each limit. */
  private readonly limits: readonly number[];
  constructor(frame: ShownFrame, view: RunView, measure: Measure, taken: readonly Label[]) {
    this.frame = frame;
    this.view = view;
    this.measure = measure;
    this.taken = taken;
    this.limits = [view.band.low, view.band.high]
      .filter((limit): limit is number => limit !== null)
      .map((limit) => frame.pressurePane.from + frame.pressure.px(limit));
  }

  place(wish: Wish): boolean {
    const { frame } = this;
    const text = sizeOf(wish.lines, this.measure);
    const width = text.width + (wish.flag === undefined ? 0 : FLAG_PX),
      { height } = text;
    // Size along and across: turned, a text still runs from left to right.
    const alongSize = frame.turned ? height : width,
      acrossSize = frame.turned ? width : height;
    const shifts =
      wish.roams === true ? [0, 30, -30, 60, -60, 120, -120, 200, -200, 300, -300, 450, -450] : [0, 14, 28];
    const { from, size } = wish.pane;
    const first = wish.fromFoot === true ? from + 4 : from + size - acrossSize - 6;
    const step = wish.fromFoot === true ? 6 : -6;
    for (const shift of shifts) {
      const along = wish.along + shift - (wish.before === true ? alongSize : 0);
      if (along < 2 || along + alongSize > frame.along - 2) continue;
      const trace = this.traces(wish.pane, along - 6, along + alongSize + 6);
      for (let across = first; across >= from + 2 && across + acrossSize <= from + size - 2; across += step) {
        if (trace.some(({ low, high }) => across - 5 < high && across + acrossSize + 5 > low)) continue;
        if (
          wish.overLimits !== true &&
          this.limits.some((limit) => across - 2 < limit && across + acrossSize + 2 > limit)
        )
          continue;
        const box = boxAt(frame, along, across, width, height);
        const over = (other: Box): boolean => overlaps(box, other, 4);
        if (this.labels.some(over) || this.taken.some(over)) continue;
        const { key, lines, flag, action } = wish;
        this.labels.push({
          key,
          ...box,
          align: 'left',
          lines,
          ground: true,
          ...(flag === undefined ? {} : { flag, flagAfter: wish.before === true }),
          ...(action === undefined ? {} : { action }),
        });
        return true;
      }
    }
    return false;
  }

  private traces(pane: Pane, from: number, to: number): { low: number; high: number }[] {
    const { frame, view } = this;
    const found: { low: number; high: number }[] = [];
    const add = (blocks: Blocks, px: (value: number) => number): void => {
      const extent = traceExtent(frame, view, blocks, px, from, to);
      if (extent !== null) found.push(extent);
    };
    if (pane === frame.pressurePane && view.pressure !== null) {
      const px = (value: number): number => pane.from + frame.pressure.px(value);
      add(view.pressure.raw, px);
      add(view.pressure.line, px);
    } else if (view.oil !== null && frame.oil !== null) {
      add(view.oil.line, frame.oil.px);
      if (view.operatingFrom !== null) {
        const at = frame.oil.px(view.operatingFrom);
        found.push({ low: at - 1, high: at + 1 });
      }
    }
    return found;
  }
}

/** Texts inside the panes: gaps, settled, the fold, the highest value off the paper, operating temperature, steps of the clock. */
export function paneLabels(
  frame: ShownFrame,
  view: RunView,
  measure: Measure,
  taken: readonly Label[],
): Label[] {
  const gaps = gapLabels(frame, view, measure, taken);
  const places = new Places(frame, view, measure, [...taken, ...gaps]);
  const fold = foldLabel(frame, view, measure);
  if (fold !== null) places.labels.push(fold);
  settled(places, frame, view);
  for (const { border, at_s } of view.wasHere) {
    const along = frame.x(at_s);
    if (along < 0 || along > frame.along) continue;
    const wish = {
      key: `was here ${border}`,
      lines: [[{ text: 'was here', tone: 'ink2' as const }]],
      pane: frame.pressurePane,
      fromFoot: true,
    };
    const beside = { along: along + 8 },
      before = { along: along - 8, before: true };
    // On the side from which the border came away.
    for (const side of border === 'hold-start' ? [before, beside] : [beside, before])
      if (places.place({ ...wish, ...side })) break;
  }
  offThePaper(places, frame, view);
  oilTexts(places, frame, view);
  for (const { at_s, step_s } of view.steps) {
    const along = frame.x(at_s);
    if (along < 0 || along > frame.along) continue;
    const words = `clock set ${step_s < 0 ? 'back' : 'forward'} ${noBreak(durationText(Math.abs(step_s)))}`;
    places.place({
      key: `step ${at_s}`,
      lines: [[{ text: words, tone: 'ink' }]],
      pane: frame.oilPane ?? frame.pressurePane,
      along: along + 6,
      fromFoot: true,
      roams: true,
    });
  }
  return [...gaps, ...places.labels];
}

/** "no record 6 min 20 s", right of its gap; turned, in the margin beside it. */
function gapLabels(frame: ShownFrame, view: RunView, measure: Measure, taken: readonly Label[]): Label[] {
  const labels: Label[] = [];
  const longest = view.gaps
    .map((gap) => ({ gap, where: gapAlong({ frame }, gap) }))
    .sort((a, b) => b.gap.end_s - b.gap.start_s - (a.gap.end_s - a.gap.start_s))
    .slice(0, NAMED_GAPS);
  const places = new Places(frame, view, measure, [...taken]);
  for (const { gap, where } of longest) {
    if (where === null) continue;
    const length = noBreak(durationText(gap.end_s - gap.start_s));
    if (frame.turned) {
      const lines: TextRun[][] = [[{ text: 'no record', tone: 'ink' }], [{ text: length, tone: 'ink' }]];
      const { width, height } = sizeOf(lines, measure);
      const label: Label = {
        key: `gap ${gap.start_s}`,
        left: frame.plot.left - 8 - width,
        top: frame.plot.top + (where.from + where.to) / 2 - height / 2,
        width,
        height,
        align: 'right',
        lines,
      };
      if ([...taken, ...labels].every((other) => !overlaps(label, other, 2))) labels.push(label);
      continue;
    }
    const wish = {
      key: `gap ${gap.start_s}`,
      lines: [[{ text: `no record ${length}`, tone: 'ink' as const }]],
      pane: frame.pressurePane,
    };
    // In the gap itself where it is wide, else after it, else before it.
    const inside = where.to - where.from > measure({ text: `no record ${length}`, tone: 'ink' }) + 16;
    if (inside && places.place({ ...wish, along: where.from + 8 })) continue;
    if (!places.place({ ...wish, along: where.to + 8 }))
      places.place({ ...wish, along: where.from - 8, before: true });
  }
  return [...labels, ...places.labels];
}

function settled(places: Places, frame: ShownFrame, view: RunView): void {
  const { settled: found } = view;
  if (found === null) return;
  const along = frame.x(found.at_s);
  if (along < -1 || along > frame.along) return;
  const decimals = figureDecimals(frame.unit);
  const tolerance =
    found.tolerance === null
      ? ''
      : ` ± ${noBreak(withUnit(fixedText(found.tolerance * frame.factor, found.tolerance * frame.factor >= 5 ? 0 : decimals), frame.unit))}`;
  const after = `settled after ${noBreak(durationText(found.time_s))}`;
  const flag = frame.turned ? 'down' : 'right';
  const wish = { key: 'settled', pane: frame.pressurePane, along: along + 8, flag, roams: false } as const;
  const text = (words: string): TextRun[][] => [[{ text: words, tone: 'ink' }]];
  if (frame.turned) {
    const choices = [`settled,${tolerance}`, 'settled'].map(text);
    for (const overLimits of [false, true])
      for (const lines of choices) if (places.place({ ...wish, lines, overLimits })) return;
    return;
  }
  if (places.place({ ...wish, lines: text(tolerance === '' ? after : `${after}, within${tolerance}`) }))
    return;
  if (!places.place({ ...wish, lines: text(after) }))
    places.place({ ...wish, lines: text('settled'), roams: true });
}

/** "0 to 390 psi folded away. Unfold", in the fold itself. */
function foldLabel(frame: ShownFrame, view: RunView, measure: Measure): Label | null {
  const { pressure, pressurePane, turned } = frame;
  if (turned || !pressure.foldable) return null;
  const { fold } = pressure;
  const unit = unitLabel(frame.unit);
  const words = (value: number): string => limitWords(value, frame);
  const lines: TextRun[][] =
    fold === null
      ? [[{ text: 'Fold', tone: 'ink' }]]
      : [
          [
            { text: `${words(fold.from)} to ${words(fold.to)} ${unit} folded away. `, tone: 'ink2' },
            { text: 'Unfold', tone: 'ink' },
          ],
        ];
  const size = sizeOf(lines, measure);
  // After the first border that leaves room, where it covers neither readings nor crosses; else where it covers the least.
  const start_s = view.parts.find(({ kind }) => kind === 'hold')?.start_s ?? view.parts[0]?.end_s ?? 0;
  const first = Math.max(10, frame.x(start_s) + 14);
  const under = underFold(frame, view, fold);
  const places: number[] = [];
  for (let at = 10; at + size.width < frame.along - 10; at += 12) places.push(at);
  const away = (at: number): number => Math.abs(at - first) / 1000;
  places.sort((a, b) => away(a) - away(b) || a - b);
  let along = 10,
    least = Infinity;
  for (const at of places) {
    // Each place after this one costs more by its distance alone.
    if (away(at) >= least) break;
    const cost = foldCost(frame, view, at, at + size.width, under) + away(at);
    if (cost >= least) continue;
    least = cost;
    along = at;
  }
  return {
    key: 'fold',
    ...boxAt(frame, along, pressurePane.from + 5, size.width, size.height),
    align: 'left',
    lines,
    action: 'fold',
    ground: true,
  };
}

/** What stands at the foot of the pane, along the plot. */
interface UnderFold {
  gaps: { from: number; to: number }[];
  crosses: number[];
}

function underFold(frame: ShownFrame, view: RunView, fold: { from: number; to: number } | null): UnderFold {
  const gaps = view.gaps
    .map(({ start_s, end_s }) => ({ from: frame.x(start_s), to: frame.x(end_s) }))
    .filter(({ from, to }) => to > 0 && from < frame.along);
  const crosses: number[] = [];
  const values = view.pressure?.values;
  if (fold !== null && values !== undefined)
    for (const run of view.setAside) {
      if (run.channel !== 'pressure' || run.to - run.from > 1) continue;
      const along = frame.x(run.start_s);
      const value = values[run.from] ?? NaN;
      if (along > 0 && along < frame.along && value <= fold.to && value >= fold.from) crosses.push(along);
    }
  return { gaps, crosses };
}

/** What a text at the foot of the pane would lie on: crosses, readings, a part without record. */
function foldCost(frame: ShownFrame, view: RunView, from: number, to: number, under: UnderFold): number {
  const { pressure } = view;
  if (pressure === null) return 0;
  let cost = 0;
  if (under.gaps.some((gap) => gap.to > from - 6 && gap.from < to + 6)) cost += 100;
  const trace = traceExtent(frame, view, pressure.line, frame.pressure.px, from, to);
  if (trace !== null && trace.low < LINE_PX + 8) cost += 50;
  for (const along of under.crosses) if (along > from - 6 && along < to + 6) cost++;
  return cost;
}

/** The highest value where the pen runs off the top of the paper. */
function offThePaper(places: Places, frame: ShownFrame, view: RunView): void {
  const { pressure } = view;
  if (pressure === null) return;
  const { from_s, to_s } = frame.shown;
  const first = firstRowFrom(view.time_s, from_s),
    end = firstRowFrom(view.time_s, to_s);
  const extent: Extent = { lowest: 0, highest: 0 };
  if (!extentOf(pressure.line, first, end, extent) || extent.highest <= frame.pressure.top) return;
  let at = first;
  for (let row = first; row < end; row++)
    if (pressure.smoothed[row] === extent.highest) {
      at = row;
      break;
    }
  const value = extent.highest * frame.factor;
  places.place({
    key: 'off',
    lines: [
      [
        {
          text: `up to ${withUnit(fixedText(value, figureDecimals(frame.unit)), frame.unit)}`,
          tone: 'pressure',
        },
      ],
    ],
    pane: frame.pressurePane,
    along: frame.x(view.time_s[at] ?? 0) + 12,
    roams: true,
  });
}

function oilTexts(places: Places, frame: ShownFrame, view: RunView): void {
  const { oilPane, temperatureUnit, turned } = frame;
  if (oilPane === null || temperatureUnit === null || view.oil === null || turned) return;
  if (view.operatingFrom === null) return;
  const value = convertTemperature(view.operatingFrom, view.oil.unit, temperatureUnit);
  const digits = temperatureDifferenceFactor(view.oil.unit, temperatureUnit) === 1 ? 0 : 1;
  const words = `operating from ${withUnit(fixedText(value, digits).replace(/[.,]0$/u, ''), temperatureUnit)}`;
  const wish = { key: 'operating', lines: [[{ text: words, tone: 'ink2' as const }]], pane: oilPane };
  const along = frame.along - 24;
  if (!places.place({ ...wish, along, before: true, fromFoot: true, roams: true }))
    places.place({ ...wish, along, before: true, roams: true });
}

/** Names right of the plot, at their line's last value, pushed apart. */
export function nameLabels(frame: ShownFrame, view: RunView, measure: Measure): Label[] {
  if (frame.turned) return [];
  const { plot, pressurePane } = frame;
  interface Name {
    key: string;
    lines: TextRun[][];
    /** Across of its middle. */
    at: number;
    action?: Label['action'];
  }
  const names: Name[] = [];
  const px = (value: number): number =>
    pressurePane.from + Math.min(pressurePane.size, Math.max(0, frame.pressure.px(value)));
  const last = view.pressure === null ? null : lastJudged(frame, view, view.pressure.smoothed);
  if (last !== null)
    names.push({
      key: 'pressure',
      lines: [
        [{ text: 'pressure', tone: 'pressure', bold: true }],
        ...(view.sparse ? [] : [[{ text: 'raw behind it', tone: 'ink2' as const }]]),
      ],
      at: px(last),
    });
  names.push(...bandNames(frame, view, px, measure));
  const room = frame.width - plot.left - plot.width - RIGHT_PX - 4;
  (view.laid ?? []).forEach((line, index) => {
    const at = lastLaid(line, frame.shown);
    if (at === null) return;
    const whole: TextRun = { text: line.short.join(', '), tone: 'ink2' };
    names.push({
      key: `laid ${index}`,
      lines: measure(whole) <= room ? [[whole]] : line.short.map((text) => [{ text, tone: 'ink2' as const }]),
      at: px(at),
    });
  });
  const count = countOf(view.setAside);
  names.push({
    key: 'set-aside',
    lines: [[{ text: `${count} set aside`, tone: count === 0 ? 'ink2' : 'ink' }]],
    at: frame.lane,
    ...(count === 0 ? {} : { action: 'set-aside' as const }),
  });
  const { oil, oilPane, temperatureUnit } = frame;
  if (view.oil !== null && oil !== null && oilPane !== null && temperatureUnit !== null) {
    const value = lastJudged(frame, view, view.oil.smoothed);
    const mean = view.holdTemperature;
    if (value !== null)
      names.push({
        key: 'oil',
        lines: [
          [{ text: 'oil', tone: 'oil', bold: true }],
          ...(mean === null
            ? []
            : [
                [
                  {
                    text: `hold ${withUnit(fixedText(convertTemperature(mean, view.oil.unit, temperatureUnit), 1), temperatureUnit)}`,
                    tone: 'oil' as const,
                  },
                ],
              ]),
        ],
        at: oil.px(value),
      });
  }
  for (const { from, size, channel } of frame.otherPanes)
    names.push({
      key: `other ${channel.name}`,
      lines: [
        [{ text: channel.name, tone: 'ink', bold: true }],
        ...(channel.unit === '' ? [] : [[{ text: channel.unit, tone: 'ink2' as const }]]),
      ],
      at: from + size / 2,
    });
  const heights = names.map(({ lines }) => lines.length * LINE_PX);
  const middles = pushedApart(
    names.map(({ at }) => frame.across - at),
    heights,
    -8,
    frame.across + 2,
  );
  return names.map(({ key, lines, action }, index) => {
    const { width, height } = sizeOf(lines, measure);
    return {
      key: `name ${key}`,
      left: plot.left + plot.width + RIGHT_PX,
      top: plot.top + (middles[index] ?? 0) - height / 2,
      width,
      height,
      align: 'left',
      lines,
      ...(action === undefined ? {} : { action }),
    };
  });
}

function bandNames(
  frame: ShownFrame,
  view: RunView,
  px: (value: number) => number,
  measure: Measure,
): { key: string; lines: TextRun[][]; at: number }[] {
  const { low, high } = view.band;
  const unit = unitLabel(frame.unit);
  const words = (value: number): string => limitWords(value, frame);
  const names: { key: string; lines: TextRun[][]; at: number }[] = [];
  const add = (name: string, texts: string[], at: number): void =>
    void names.push({
      key: 'band',
      lines: [
        [{ text: name, tone: 'limit', bold: true }],
        ...texts.map((text) => [{ text, tone: 'limit' as const }]),
      ],
      at,
    });
  if (low !== null && high !== null) {
    const text = `${words(low)} to ${words(high)} ${unit}`;
    const wide =
      measure({ text, tone: 'limit' }) > frame.width - frame.plot.left - frame.plot.width - RIGHT_PX - 4;
    add('band', wide ? [`${words(low)} to`, `${words(high)} ${unit}`] : [text], px((low + high) / 2));
  } else if (high !== null) add('limit', [`at most ${words(high)} ${unit}`], px(high));
  else if (low !== null) add('limit', [`at least ${words(low)} ${unit}`], px(low));
  const near = low ?? high;
  if (view.guard !== null && view.guard > 0 && near !== null)
    names.push({
      key: 'near',
      lines: [[{ text: 'too near to call', tone: 'ink2' }]],
      at: px(near) - (low === null ? -6 : 6),
    });
  return names;
}

/** A line's last value in the judged part that is shown; its last at all where none is. */
function lastJudged(frame: ShownFrame, view: RunView, smoothed: Float64Array): number | null {
  const { from_s, to_s } = frame.shown;
  const lastWithin = (start_s: number, end_s: number): number | null => {
    const first = firstRowFrom(view.time_s, Math.max(from_s, start_s));
    for (let row = firstRowFrom(view.time_s, Math.min(to_s, end_s)) - 1; row >= first; row--) {
      const value = smoothed[row] ?? NaN;
      if (!Number.isNaN(value)) return value;
    }
    return null;
  };
  for (const part of view.parts.toReversed()) {
    if (part.kind !== 'hold') continue;
    const value = lastWithin(part.start_s, part.end_s);
    if (value !== null) return value;
  }
  return lastWithin(from_s, to_s + 1);
}
