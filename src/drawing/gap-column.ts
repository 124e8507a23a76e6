import {
  decimalsForUncertainty,
  decimalsToTell,
  fixedText,
  noBreak,
  statedText,
  withUnit,
} from '#units/number-text.ts';
import type { ChartWords } from './chart-words.ts';
import { LABEL_SIZE_PT, LINE_MM, type Frame } from './chart-frame.ts';
import { gaugeIsStated, pressureWasJudged } from './judged-facts.ts';
import { BLACK, line, text, WHITE, type Item, type TextWidth, type Weight } from './display-list.ts';
import { hatch } from './hatch.ts';
import { HALF_FIGURE, HATCH_PITCH } from './pressure-panes.ts';
import { PANE_HEIGHT } from './scales.ts';
import type { Assessment } from '#formats/assessment.ts';
import type { NumberStyle } from '#units/number-text.ts';

/** Distance from the plot, and width. */
export const COLUMN_AWAY = 1.4;
export const COLUMN_WIDTH = 3.8;
const LEADER = 2.3;
const GUARD_PITCH = 0.62;
const GUARD_WIDTH = 0.09;
export const DOT_RADIUS = 1.15;
/** Decimals of a pressure that has no uncertainty to choose them by. */
const decimalsOfPressure: Readonly<Record<string, number>> = {
  psi: 1,
  bar: 2,
  'kgf/cm2': 2,
  MPa: 3,
  atm: 2,
  kPa: 0,
};
/** Digits after the decimal mark of a pressure in this unit, on the chart. */
export const pressureDecimals = (unit: string): number => decimalsOfPressure[unit] ?? 1;

/** A label beside the column: where it points, and its lines. */
export interface ColumnLabel {
  level: number;
  lines: string[];
  weight: Weight;
}

/** Where the judged average stands against limits and gauge. */
export interface Average {
  value: number | null;
  expanded: number | null;
  gaugeStated: boolean;
  low: number | null;
  high: number | null;
  /** L + gU and H − gU; null under the simple rule or without U. */
  passFrom: number | null;
  passTo: number | null;
}

/** The operating pressure as the chart shows it, with its ± where there is one. */
export function averageOf(assessment: Assessment): Average {
  const { operatingPressure: operating } = assessment.quantities;
  const low = assessment.spec?.pressureBand.low ?? null,
    high = assessment.spec?.pressureBand.high ?? null;
  const guard =
    assessment.settings.decisionRule === 'guarded' && operating.expandedUncertainty !== null
      ? assessment.settings.guardFactor * operating.expandedUncertainty
      : null;
  // A figure that was not judged is no average to hold against the limits.
  const judged = pressureWasJudged(assessment);
  return {
    value: judged ? operating.value : null,
    expanded: judged ? operating.expandedUncertainty : null,
    gaugeStated: gaugeIsStated(assessment),
    low,
    high,
    passFrom: guard === null || low === null ? null : low + guard,
    passTo: guard === null || high === null ? null : high - guard,
  };
}

/** The labels, before they have a place. */
export function columnLabels(
  average: Average,
  unit: string,
  words: ChartWords,
  numbers: NumberStyle,
): ColumnLabel[] {
  const labels: ColumnLabel[] = [];
  const { value, expanded, low, high, passFrom, passTo } = average;
  const noClearPart = passFrom !== null && passTo !== null && passFrom > passTo;
  const asked = expanded !== null && expanded > 0 ? decimalsForUncertainty(expanded) : pressureDecimals(unit);
  const decimals = value === null ? asked : decimalsToTell(value, [low, high, passFrom, passTo], asked);
  const stated = (limit: number): string => statedText(Number(limit.toFixed(decimals + 1)), numbers);
  if (high !== null) labels.push({ level: high, lines: [words.upperLimit(stated(high))], weight: 600 });
  if (low !== null) labels.push({ level: low, lines: [words.lowerLimit(stated(low))], weight: 600 });
  if (!noClearPart) {
    if (passTo !== null)
      labels.push({
        level: passTo,
        lines: [words.passUpTo(fixedText(passTo, decimals, numbers))],
        weight: 400,
      });
    if (passFrom !== null)
      labels.push({
        level: passFrom,
        lines: [words.passFrom(fixedText(passFrom, decimals, numbers))],
        weight: 400,
      });
  }
  if (value !== null) {
    const lines = [words.average(fixedText(value, decimals, numbers))];
    if (!average.gaugeStated) lines.push(...words.gaugeNotStated);
    else if (expanded !== null)
      lines.push(
        noBreak(withUnit(`± ${fixedText(expanded, decimalsForUncertainty(expanded), numbers)}`, unit)),
      );
    if (noClearPart) lines.push(words.noClearPart);
    labels.push({ level: value, lines, weight: 600 });
  } else if (low !== null || high !== null)
    labels.push({
      level: ((low ?? high ?? 0) + (high ?? low ?? 0)) / 2,
      lines: [...words.noAverage],
      weight: 600,
    });
  return labels;
}

/** Room to keep at the right of the plot: column, leader and the widest label. */
export function labelRoom(labels: readonly ColumnLabel[], width: TextWidth): number {
  const widest = Math.max(
    0,
    ...labels.flatMap((label) => label.lines.map((words) => width(words, LABEL_SIZE_PT, label.weight))),
  );
  return COLUMN_AWAY + COLUMN_WIDTH + LEADER + 0.5 + widest;
}

/**
 * The opening that limits and gauge leave, with the average in it. The guard zone stands here and not in the pane: it binds the average,
 * and a single reading that crosses it means nothing.
 */
export function gapColumn(frame: Frame): Item[] {
  const average = averageOf(frame.last.assessment);
  if (average.low === null && average.high === null) return [];
  const x = frame.right + COLUMN_AWAY;
  const top = frame.y.pane,
    bottom = top + PANE_HEIGHT;
  const within = (y: number): number => Math.min(Math.max(y, top), bottom);
  const upper = average.high === null ? top : within(frame.paneY(average.high)),
    lower = average.low === null ? bottom : within(frame.paneY(average.low));
  const part = (from: number, to: number): { x: number; y: number; width: number; height: number } => ({
    x,
    y: from,
    width: COLUMN_WIDTH,
    height: to - from,
  });
  const items: Item[] = [
    ...hatch(part(top, upper), true, HATCH_PITCH, 0.11),
    ...hatch(part(lower, bottom), true, HATCH_PITCH, 0.11),
  ];
  const { passFrom, passTo } = average;
  const from = passFrom === null ? lower : within(frame.paneY(passFrom)),
    to = passTo === null ? upper : within(frame.paneY(passTo));
  if (from < to) items.push(...hatch(part(upper, lower), false, GUARD_PITCH, GUARD_WIDTH));
  else
    items.push(
      ...hatch(part(upper, to), false, GUARD_PITCH, GUARD_WIDTH),
      ...hatch(part(from, lower), false, GUARD_PITCH, GUARD_WIDTH),
      ...[to, from]
        .filter((y) => y > upper + 0.01 && y < lower - 0.01)
        .map((y) => line(x, y, x + COLUMN_WIDTH, y, 0.14)),
    );
  if (average.high !== null) items.push(line(x, upper, x + COLUMN_WIDTH, upper, 0.35));
  if (average.low !== null) items.push(line(x, lower, x + COLUMN_WIDTH, lower, 0.35));
  items.push({ kind: 'rect', ...part(top, bottom), stroke: { width: 0.25, ink: BLACK } });
  items.push(...averageMark(frame, average, x + COLUMN_WIDTH / 2));
  return [...items, ...placedLabels(frame, average, x + COLUMN_WIDTH)];
}

function averageMark(frame: Frame, average: Average, x: number): Item[] {
  const { value, expanded } = average;
  if (value === null) return [];
  const top = frame.y.pane,
    bottom = top + PANE_HEIGHT;
  const y = frame.paneY(value);
  const items: Item[] = [];
  if (expanded !== null && average.gaugeStated) {
    const highEnd = frame.paneY(value + expanded),
      lowEnd = frame.paneY(value - expanded);
    const from = Math.max(highEnd, top),
      to = Math.min(lowEnd, bottom);
    const bar = [[x, from, x, to]];
    // An end that lies beyond the pane has no cross stroke: it goes on.
    if (highEnd >= top) bar.push([x - 1, highEnd, x + 1, highEnd]);
    if (lowEnd <= bottom) bar.push([x - 1, lowEnd, x + 1, lowEnd]);
    items.push(
      { kind: 'lines', lines: bar, stroke: { width: 1.3, ink: WHITE } },
      { kind: 'dot', x, y, radius: DOT_RADIUS + 0.4, fill: WHITE },
      { kind: 'lines', lines: bar, stroke: { width: 0.55, ink: BLACK } },
    );
  } else items.push({ kind: 'dot', x, y, radius: DOT_RADIUS + 0.4, fill: WHITE });
  return [...items, { kind: 'dot', x, y, radius: DOT_RADIUS, fill: BLACK }];
}

/** Labels in the order of their levels, pushed apart to a line each and kept beside the pane. */
function placedLabels(frame: Frame, average: Average, x: number): Item[] {
  const top = frame.y.pane,
    bottom = top + PANE_HEIGHT;
  const labels = columnLabels(average, frame.unit, frame.words, frame.numbers)
    .map((label) => ({
      ...label,
      points: Math.min(Math.max(frame.paneY(label.level), top), bottom),
      height: label.lines.length * LINE_MM,
    }))
    .sort((a, b) => a.points - b.points || b.level - a.level);
  const places = spread(
    labels.map(({ points, height }) => ({ wanted: points - height / 2, height })),
    top,
    bottom,
  );
  return labels.flatMap((label, index): Item[] => {
    const from = places[index] ?? label.points;
    const middle = from + label.height / 2;
    return [
      line(x + 0.3, label.points, x + LEADER - 0.3, middle, 0.15),
      ...label.lines.map((words, row) =>
        text(x + LEADER, from + row * LINE_MM + LINE_MM / 2 + HALF_FIGURE, words, { weight: label.weight }),
      ),
    ];
  });
}

/**
 * Places for blocks of given heights, in their order, as near as may be to where each wants to be, none over another.
 * Blocks that touch are joined and share the way, as when beads on a wire are pushed together.
 */
export function spread(
  blocks: readonly { wanted: number; height: number }[],
  top: number,
  bottom: number,
): number[] {
  interface Cluster {
    start: number;
    height: number;
    /** Sum of the places that its blocks would like the cluster to start at. */
    wish: number;
    count: number;
  }
  const clusters: Cluster[] = [];
  const settle = (cluster: Cluster): number =>
    Math.max(top, Math.min(cluster.wish / cluster.count, bottom - cluster.height));
  for (const block of blocks) {
    let cluster: Cluster = { start: 0, height: block.height, wish: block.wanted, count: 1 };
    cluster.start = settle(cluster);
    for (;;) {
      const before = clusters[clusters.length - 1];
      if (!before || before.start + before.height <= cluster.start) break;
      clusters.pop();
      cluster = {
        start: 0,
        height: before.height + cluster.height,
        wish: before.wish + cluster.wish - before.height * cluster.count,
        count: before.count + cluster.count,
      };
      cluster.start = settle(cluster);
    }
    clusters.push(cluster);
  }
  const places: number[] = [];
  let index = 0;
  for (const cluster of clusters) {
    let at = cluster.start;
    for (let k = 0; k < cluster.count; k++) {
      places.push(at);
      at += blocks[index]?.height ?? 0;
      index++;
    }
  }
  return places;
}
