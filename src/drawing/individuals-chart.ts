import type { Comparison, ComparisonRow } from '#formats/comparison.ts';
import { verdictWords } from '#formats/criterion-text.ts';
import { decimalsForStep, fixedText, statedText, withUnit } from '#units/number-text.ts';
import { BLACK, line, text, WHITE, type Drawing, type Item, type TextWidth } from './display-list.ts';
import { roundStepAtLeast } from './scales.ts';

/** What the chart is drawn from; the band is that of the spec, in the unit of the comparison. */
export interface IndividualsInput {
  comparison: Comparison;
  band: { low: number | null; high: number | null };
  width: TextWidth;
}

const WIDTH = 180;
const PLOT_LEFT = 18;
const PLOT_RIGHT = 140;
const LABEL_X = PLOT_RIGHT + 2;
const TOP = 16;
const VALUES_HEIGHT = 70;
const BETWEEN = 10;
const RANGES_HEIGHT = 30;
const RANGES_TOP = TOP + VALUES_HEIGHT + BETWEEN;
const FOOT = RANGES_TOP + RANGES_HEIGHT;
/** Names of the runs: rows in columns below the chart. */
const NAMES_TOP = FOOT + 16;
const NAME_ROW = 4.2;
const NAME_COLUMNS = 2;
/** More names than this would push the chart off its sheet; the .csv has them all. */
const NAMES_AT_MOST = 40;
const LABEL_APART = 3.4;
/** From the baseline to the middle of a figure of 8 pt. */
const HALF_FIGURE = 1;
const GREY = '#666666';
const LIMIT_DASH = [2.4, 1.2] as const;

interface Pane {
  top: number;
  height: number;
  bottom: number;
  per: number;
  step: number;
  y: (value: number) => number;
}

/** Whole steps round what is to be seen. */
function paneOf(top: number, height: number, seen: readonly number[], fromZero: boolean): Pane {
  const low = fromZero ? 0 : Math.min(...seen);
  const high = Math.max(...seen, low);
  const spread = high - low || Math.abs(high) * 0.05 || 1;
  const step = roundStepAtLeast(spread / (height / 9));
  const bottom = fromZero ? 0 : Math.floor((low - spread * 0.04) / step) * step;
  const above = Math.ceil((high + spread * 0.04) / step) * step;
  const per = height / (above - bottom);
  return { top, height, bottom, per, step, y: (value) => top + height - (value - bottom) * per };
}

function axis(pane: Pane): Item[] {
  const decimals = decimalsForStep(pane.step);
  const count = Math.round(pane.height / pane.per / pane.step);
  const items: Item[] = [
    line(PLOT_LEFT, pane.top, PLOT_LEFT, pane.top + pane.height, 0.2),
    line(PLOT_LEFT, pane.top + pane.height, PLOT_RIGHT, pane.top + pane.height, 0.2),
  ];
  for (let index = 0; index <= count; index++) {
    const value = pane.bottom + index * pane.step;
    const y = pane.y(value);
    items.push(
      line(PLOT_LEFT - 1.2, y, PLOT_LEFT, y, 0.2),
      text(PLOT_LEFT - 2, y + HALF_FIGURE, fixedText(value, decimals), { anchor: 'end' }),
    );
  }
  return items;
}

/** Labels at the right, pushed apart so that none lies on another; in the order of their places. */
function sideLabels(wanted: readonly { y: number; words: string }[], top: number, foot: number): Item[] {
  const sorted = wanted.toSorted((a, b) => a.y - b.y);
  const places = sorted.map(({ y }) => Math.min(Math.max(y, top), foot));
  for (let i = 1; i < places.length; i++)
    places[i] = Math.max(places[i] ?? 0, (places[i - 1] ?? 0) + LABEL_APART);
  for (let i = places.length - 1; i >= 0; i--)
    places[i] = Math.min(places[i] ?? 0, i === places.length - 1 ? foot : (places[i + 1] ?? 0) - LABEL_APART);
  return sorted.flatMap(({ y, words }, index) => {
    const at = places[index] ?? y;
    return [line(PLOT_RIGHT, y, LABEL_X - 0.4, at, 0.1), text(LABEL_X, at + HALF_FIGURE, words)];
  });
}

/** A run's mark: dot inside the limits of the chart, ring with a cross beyond them. */
function mark(x: number, y: number, beyond: boolean): Item[] {
  if (!beyond) return [{ kind: 'dot', x, y, radius: 0.9, fill: BLACK }];
  return [
    { kind: 'dot', x, y, radius: 2.1, fill: BLACK },
    { kind: 'dot', x, y, radius: 1.7, fill: WHITE },
    line(x - 1, y - 1, x + 1, y + 1, 0.4),
    line(x - 1, y + 1, x + 1, y - 1, 0.4),
  ];
}

/** A text cut at the end so that it fits. */
function fitted(words: string, size_pt: number, room: number, width: TextWidth): string {
  if (width(words, size_pt, 400) <= room) return words;
  let cut = words;
  while (cut.length > 1 && width(`${cut}…`, size_pt, 400) > room) cut = cut.slice(0, -1);
  return `${cut}…`;
}

/**
 * Individuals and moving-range chart of the operating pressure, one value a run: the limits that the runs set themselves dashed, the
 * band that they are judged by full, so that neither is taken for the other. Source of the limits: NIST/SEMATECH e-Handbook, 6.3.2.2
 * (second-hand, see the comparison).
 */
export function individualsChart({ comparison, band, width }: IndividualsInput): Drawing {
  const { runs, unit, limits } = comparison;
  const slot = (PLOT_RIGHT - PLOT_LEFT) / Math.max(runs.length, 1);
  const xOf = (index: number): number => PLOT_LEFT + slot * (index + 0.5);
  const known = runs.flatMap((row, index) => {
    const { value, expandedUncertainty } = row.operatingPressure;
    return value === null ? [] : [{ row, index, value, expanded: expandedUncertainty ?? 0 }];
  });
  const items: Item[] = [
    text(0, 4, 'Operating pressure, run by run', { size_pt: 11, weight: 600 }),
    text(
      0,
      9,
      'Dots: one value a run, with its expanded uncertainty. Full lines: the band. Dashed: limits of the chart, from the runs themselves.',
    ),
    text(0, TOP - 2.4, unit),
  ];
  const bandEdges = [band.low, band.high].filter((value) => value !== null);
  const seen = [
    ...known.flatMap(({ value, expanded }) => [value - expanded, value + expanded]),
    ...bandEdges,
    ...(limits === null ? [] : [limits.low, limits.high]),
  ];
  const values = paneOf(TOP, VALUES_HEIGHT, seen.length > 0 ? seen : [0, 1], false);
  const labels: { y: number; words: string }[] = [];
  const say = (value: number): string => withUnit(fixedText(value, 1), unit);
  for (const [edge, words] of [
    [band.low, 'band from'],
    [band.high, 'band to'],
  ] as const)
    if (edge !== null) {
      const y = values.y(edge);
      items.push(line(PLOT_LEFT, y, PLOT_RIGHT, y, 0.5));
      labels.push({ y, words: `${words} ${withUnit(statedText(Number(edge.toPrecision(5))), unit)}` });
    }
  if (limits !== null)
    for (const [value, words] of [
      [limits.low, 'chart, low'],
      [limits.center, 'mean'],
      [limits.high, 'chart, high'],
    ] as const) {
      const y = values.y(value);
      items.push(line(PLOT_LEFT, y, PLOT_RIGHT, y, 0.2, value === limits.center ? [0.4, 0.9] : LIMIT_DASH));
      labels.push({ y, words: `${words} ${say(value)}` });
    }
  items.push(...axis(values));
  items.push({
    kind: 'lines',
    lines: [known.flatMap(({ index, value }) => [xOf(index), values.y(value)])],
    stroke: { width: 0.25, ink: GREY },
  });
  for (const { row, index, value, expanded } of known) {
    const x = xOf(index);
    if (expanded > 0) items.push(line(x, values.y(value - expanded), x, values.y(value + expanded), 0.3));
    items.push(...mark(x, values.y(value), row.beyond === 'value' || row.beyond === 'both'));
  }
  items.push(...sideLabels(labels, TOP, TOP + VALUES_HEIGHT));

  const ranges = known.slice(1).map(({ row, index, value }, at) => ({
    x: xOf(index),
    range: Math.abs(value - (known[at]?.value ?? value)),
    jumped: row.beyond === 'moving-range' || row.beyond === 'both',
  }));
  const moving = paneOf(
    RANGES_TOP,
    RANGES_HEIGHT,
    [...ranges.map(({ range }) => range), ...(limits === null ? [1] : [limits.movingRangeHigh])],
    true,
  );
  items.push(text(0, RANGES_TOP - 2.4, `${unit}, from the run before`));
  if (limits !== null) {
    const meanY = moving.y(limits.meanMovingRange);
    const highY = moving.y(limits.movingRangeHigh);
    items.push(
      line(PLOT_LEFT, meanY, PLOT_RIGHT, meanY, 0.2, [0.4, 0.9]),
      line(PLOT_LEFT, highY, PLOT_RIGHT, highY, 0.2, LIMIT_DASH),
      ...sideLabels(
        [
          { y: meanY, words: `mean ${say(limits.meanMovingRange)}` },
          { y: highY, words: `chart, high ${say(limits.movingRangeHigh)}` },
        ],
        RANGES_TOP,
        FOOT,
      ),
    );
  }
  items.push(...axis(moving));
  items.push({
    kind: 'lines',
    lines: [ranges.flatMap(({ x, range }) => [x, moving.y(range)])],
    stroke: { width: 0.25, ink: GREY },
  });
  for (const { x, range, jumped } of ranges) items.push(...mark(x, moving.y(range), jumped));

  items.push(...runNumbers(runs, xOf, slot));
  const { rows, height } = names(runs, width);
  items.push(...rows);
  return { width: WIDTH, height, items };
}

/** Every run that has room gets its number; one without a value gets a dash over it. */
function runNumbers(runs: readonly ComparisonRow[], xOf: (index: number) => number, slot: number): Item[] {
  const every = roundStepAtLeast(Math.max(1, 5 / slot));
  return runs.flatMap((row, index) => [
    ...(index === 0 || (index + 1) % every === 0
      ? [text(xOf(index), FOOT + 4, String(index + 1), { anchor: 'middle' })]
      : []),
    ...(row.operatingPressure.value === null
      ? [line(xOf(index) - 0.8, TOP + VALUES_HEIGHT + 2, xOf(index) + 0.8, TOP + VALUES_HEIGHT + 2, 0.4)]
      : []),
  ]);
}

/** Number, file, and verdict of each run; a dash in the chart means that no value stands for it. */
function names(runs: readonly ComparisonRow[], width: TextWidth): { rows: Item[]; height: number } {
  const shown = runs.slice(0, NAMES_AT_MOST);
  const perColumn = Math.ceil(shown.length / NAME_COLUMNS);
  const room = WIDTH / NAME_COLUMNS;
  const rows: Item[] = [
    text(0, NAMES_TOP - 5, 'Runs', { weight: 600 }),
    ...shown.flatMap((row, index) => {
      const x = Math.floor(index / perColumn) * room;
      const y = NAMES_TOP + (index % perColumn) * NAME_ROW;
      const verdict = `${verdictWords[row.verdict]}${row.operatingPressure.value === null ? ', no value' : ''}`;
      return [
        text(x + 6, y, String(index + 1), { anchor: 'end' }),
        text(x + 8, y, fitted(row.fileName ?? 'standard input', 8, room - 40, width)),
        text(x + room - 30, y, verdict),
      ];
    }),
  ];
  const left = runs.length - shown.length;
  const end = NAMES_TOP + perColumn * NAME_ROW;
  if (left > 0) rows.push(text(0, end, `and ${left} more; the table of the comparison has them all`));
  return { rows, height: end + (left > 0 ? NAME_ROW : 0) };
}
