import type { Assessment, Engagement, Phase } from '#formats/assessment.ts';
import type { Series } from '#formats/series.ts';
import type { Adjustment } from '#formats/unit-record.ts';
import { decimalsForStep, fixedText, statedText, type NumberStyle } from '#units/number-text.ts';
import type { ChartWords } from './chart-words.ts';
import { logClock, type LogClock } from './clock.ts';
import { envelope, reducedLine, type Column } from './columns.ts';
import type { TextWidth } from './display-list.ts';
import { pressureWasJudged } from './judged-facts.ts';
import { oilScale, OIL_HEIGHT, PANE_HEIGHT, paneScale, stripScale, type PaneScale } from './scales.ts';

/** One run of the chart. */
export interface ChartRun {
  assessment: Assessment;
  series: Series;
}
/** What a chart is made from. */
export interface ChartInput {
  /** The run that is judged last; before it the test that went before, where the setting was changed in between. */
  runs: readonly ChartRun[];
  /** What was changed between the two. */
  adjustment?: Adjustment | null;
  words: ChartWords;
  numbers: NumberStyle;
  width: TextWidth;
  /** 20, or 10 where the sheet is short. */
  stripHeight?: 20 | 10;
}

export const CHART_WIDTH = 175;
/** Left edge of the plot: figures and axis names stand to its left. */
export const PLOT_LEFT = 15;
/** The plot is never wider: the rest is for the gap column and its labels. */
export const PLOT_AT_MOST = 131;
export const LABEL_SIZE_PT = 8;
/** A line of labels. */
export const LINE_MM = 3.28;
const TITLE_HEIGHT = 5;
const LANE_HEIGHT = 7.2;
export const RULE_GRADUATION = 6;
export const RULE_PHASES = 4.5;
const FOOT_HEIGHT = 8;
/** The strip of paper for the time between two tests. */
export const BREAK_WIDTH = 17;

/** One run's place on the paper. */
export interface PlacedRun {
  assessment: Assessment;
  series: Series;
  clock: LogClock | null;
  left: number;
  right: number;
  first_s: number;
  last_s: number;
  /** Hour zero: the run's start, or the first reading where nothing engaged. */
  zero_s: number;
  engaged: boolean;
  x: (t_s: number) => number;
  phases: readonly Phase[];
  /** Judged; empty where the pressure has no verdict. */
  holds: readonly Phase[];
  /** Steady and warm, but not judged for another reason. */
  unjudgedHolds: readonly Phase[];
  /** Gaps wide enough to be seen on the paper. */
  wideGaps: readonly { start_s: number; end_s: number; left: number; right: number }[];
  narrowGaps: readonly { start_s: number; end_s: number; x: number }[];
  engagements: readonly Engagement[];
  envelope: Column[][];
  /** Polylines of x, pressure. */
  smoothed: number[][];
  oil: number[][];
}

/** Places and scales that all panes of the chart share, in millimetres. */
export interface Frame {
  words: ChartWords;
  numbers: NumberStyle;
  width: TextWidth;
  runs: readonly PlacedRun[];
  last: PlacedRun;
  charged: boolean;
  unit: string;
  band: { low: number | null; high: number | null };
  pane: PaneScale;
  strip: { perMillimetre: number; height: number };
  oil: (PaneScale & { unit: string }) | null;
  perHour: number;
  right: number;
  y: {
    strip: number;
    lane: number;
    pane: number;
    rule: number;
    phases: number;
    oil: number;
    foot: number;
    end: number;
  };
  paneY: (pressure: number) => number;
  stripY: (pressure: number) => number;
  /** A limit, an axis figure: digits as stated. */
  stated: (value: number) => string;
  fixed: (value: number, decimals: number) => string;
}

/** Everything of the run that needs no place on the paper yet. */
function spanOf(run: ChartRun): { first_s: number; last_s: number } {
  const times = run.series.time_s;
  return { first_s: times[0] ?? 0, last_s: times[times.length - 1] ?? 0 };
}

/** Highest kept pressure reading of the runs, for the strip. */
function highestReading(runs: readonly ChartRun[]): number {
  let highest = 0;
  for (const { series } of runs) {
    const values = series.pressure?.values;
    if (values)
      for (let i = 0; i < values.length; i++)
        if (series.pressure?.flags[i] === 0 && (values[i] ?? 0) > highest) highest = values[i] ?? 0;
  }
  return highest;
}

function smoothedRange(values: Float64Array | undefined): { min: number; max: number } | null {
  let min = Infinity,
    max = -Infinity;
  for (const value of values ?? []) {
    if (value < min) min = value;
    if (value > max) max = value;
  }
  return min <= max ? { min, max } : null;
}

/** Heights, scales and places of a chart, before anything is drawn. */
export function chartFrame(input: ChartInput, perHour: number): Frame {
  const lastRun = input.runs[input.runs.length - 1];
  if (!lastRun) throw new RangeError('a chart needs a run');
  const { assessment } = lastRun;
  const operating = assessment.quantities.operatingPressure;
  const band = {
    low: assessment.spec?.pressureBand.low ?? null,
    high: assessment.spec?.pressureBand.high ?? null,
  };
  const held = assessment.quantities.holdRange;
  const pane = paneScale(
    band,
    operating.value,
    held.min !== null && held.max !== null
      ? { min: held.min, max: held.max }
      : smoothedRange(lastRun.series.pressure?.smoothed),
  );
  const stripHeight = input.stripHeight ?? 20;
  const highest = Math.max(highestReading(input.runs), band.high ?? band.low ?? 0);
  const strip = { perMillimetre: stripScale(highest, stripHeight), height: stripHeight };
  const oilRanges = input.runs.flatMap((run) => smoothedRange(run.series.oil?.smoothed) ?? []);
  const oilUnit = lastRun.series.oil?.unit ?? null;
  const oil =
    oilUnit === null || oilRanges.length === 0
      ? null
      : {
          ...oilScale(
            Math.min(...oilRanges.map((range) => range.min)),
            Math.max(...oilRanges.map((range) => range.max)),
            oilUnit,
          ),
          unit: oilUnit,
        };
  const y = heights(stripHeight, oil !== null);
  const runs: PlacedRun[] = [];
  let left = PLOT_LEFT;
  for (const run of input.runs) {
    runs.push(placed(run, left, perHour));
    left = (runs[runs.length - 1]?.right ?? left) + BREAK_WIDTH;
  }
  const last = runs[runs.length - 1];
  if (!last) throw new RangeError('a chart needs a run');
  return {
    words: input.words,
    numbers: input.numbers,
    width: input.width,
    runs,
    last,
    charged: assessment.settings.pressureBehaviour === 'held-charged',
    unit: operating.unit,
    band,
    pane,
    strip,
    oil,
    perHour,
    right: last.right,
    y,
    paneY: (pressure) => y.pane + (pane.top - pressure) / pane.perMillimetre,
    stripY: (pressure) => y.strip + strip.height - pressure / strip.perMillimetre,
    // A limit that was converted may have twelve digits; a fifth of a thousandth of a millimetre is enough for a chart.
    stated: (value) =>
      statedText(
        Number(value.toFixed(Math.min(12, decimalsForStep(pane.perMillimetre / 10) + 1))),
        input.numbers,
      ),
    fixed: (value, decimals) => fixedText(value, decimals, input.numbers),
  };
}

function heights(stripHeight: number, withOil: boolean): Frame['y'] {
  const strip = TITLE_HEIGHT,
    lane = strip + stripHeight,
    pane = lane + LANE_HEIGHT,
    rule = pane + PANE_HEIGHT,
    phases = rule + RULE_GRADUATION,
    oil = phases + RULE_PHASES,
    foot = oil + (withOil ? OIL_HEIGHT : 0);
  return { strip, lane, pane, rule, phases, oil, foot, end: foot + FOOT_HEIGHT };
}

/** Narrower than this a gap cannot be seen as one; it is a tick in the lane. */
const GAP_AT_LEAST = 0.6;

function placed(run: ChartRun, left: number, perHour: number): PlacedRun {
  const { assessment, series } = run;
  const { first_s, last_s } = spanOf(run);
  const x = (t_s: number): number => left + ((t_s - first_s) / 3600) * perHour;
  const gaps = series.gaps.map((gap) => ({ ...gap, left: x(gap.start_s), right: x(gap.end_s) }));
  const { pressure, oil, time_s, medianInterval_s } = series;
  const holds = assessment.phases.filter((phase) => phase.kind === 'hold');
  const judged = pressureWasJudged(assessment);
  const start_s = assessment.judged.start_s;
  return {
    assessment,
    series,
    clock: logClock(series.start),
    left,
    right: x(last_s),
    first_s,
    last_s,
    zero_s: start_s ?? first_s,
    engaged: start_s !== null,
    x,
    phases: judged
      ? assessment.phases
      : assessment.phases.map((phase) => (phase.kind === 'hold' ? { ...phase, kind: 'not-judged' } : phase)),
    holds: judged ? holds : [],
    unjudgedHolds: judged ? [] : holds,
    wideGaps: gaps.filter((gap) => gap.right - gap.left >= GAP_AT_LEAST),
    narrowGaps: gaps
      .filter((gap) => gap.right - gap.left < GAP_AT_LEAST)
      .map((gap) => ({ start_s: gap.start_s, end_s: gap.end_s, x: (gap.left + gap.right) / 2 })),
    engagements: assessment.quantities.engagements,
    envelope: pressure
      ? envelope(time_s, pressure.values, pressure.flags, x, series.gaps, medianInterval_s)
      : [],
    smoothed: pressure ? reducedLine(time_s, pressure.smoothed, x, series.gaps) : [],
    oil: oil ? reducedLine(time_s, oil.smoothed, x, series.gaps) : [],
  };
}

/** Hours of record on the paper, breaks between tests left out. */
export function hoursShown(runs: readonly ChartRun[]): number {
  return runs.reduce((sum, run) => {
    const { first_s, last_s } = spanOf(run);
    return sum + (last_s - first_s) / 3600;
  }, 0);
}
