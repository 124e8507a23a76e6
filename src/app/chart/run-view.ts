import type { Assessment, Criterion, Phase } from '#formats/assessment.ts';
import { seriesLevels, type DrawnSeries, type SeriesLevels } from '#drawing/drawn-series.ts';
import { pressureFactor, type PressureUnit } from '#units/pressure.ts';
import { convertTemperature, type TemperatureUnit } from '#units/temperature.ts';
import { isPressureUnit, isTemperatureUnit } from '#units/unit.ts';
import type { LaidLine } from './draw-laid-over.ts';
import { extentOf, type Blocks, type Extent } from '#drawing/blocks.ts';
import { otherChannels, type OtherChannel } from './other-channels.ts';
import { firstRowFrom, stretchesOf, type Stretch } from './rows.ts';
import { setAsideOf, type SetAsideRun } from './set-aside-runs.ts';
import { clockOf, secondDecimals, type ClockText } from './time-words.ts';

/** One channel with a smoothed line. */
export interface DrawnChannel {
  values: Float64Array;
  flags: Uint8Array;
  smoothed: Float64Array;
  raw: Blocks;
  line: Blocks;
  /** Of the kept readings. */
  extent: Extent;
}

/** Part of the run between two borders; a hold that a gap parts is one. */
export interface Part {
  kind: Phase['kind'];
  start_s: number;
  end_s: number;
  /** Without the gaps inside. */
  pieces: { start_s: number; end_s: number }[];
}

/** What the strip draws of a run: series and assessment brought together, in the judged units. Made once for each judging. */
export interface RunView {
  time_s: Float64Array;
  /** Place of the last row. */
  end_s: number;
  medianInterval_s: number;
  secondDecimals: number;
  /** Few readings, as taken down by hand: each is drawn, and nothing between them is a record. */
  sparse: boolean;
  stretches: Stretch[];
  gaps: { start_s: number; end_s: number }[];
  clock: ClockText | null;
  /** As logged, to be said beside the axis. */
  start: string | null;
  steps: { at_s: number; step_s: number }[];
  pressure: (DrawnChannel & { unit: PressureUnit }) | null;
  oil: (DrawnChannel & { unit: TemperatureUnit }) | null;
  others: OtherChannel[];
  band: { low: number | null; high: number | null };
  /** Half width of what is too near to call, null under the simple rule. */
  guard: number | null;
  /** Smoothed pressure of the judged part. */
  judged: { lowest: number; highest: number } | null;
  value: number | null;
  operatingFrom: number | null;
  holdTemperature: number | null;
  parts: Part[];
  settled: { at_s: number; time_s: number; tolerance: number | null } | null;
  setAside: SetAsideRun[];
  /** Where hand-moved borders were worked out to be. */
  wasHere: { border: 'hold-start' | 'hold-end'; at_s: number }[];
  /** Other runs that lie over this one. */
  laid?: readonly LaidLine[];
}

/** Readings further apart than this were not taken by a logger. Common practice, no source. */
const SPARSE_INTERVAL_s = 60;

export function runView(series: DrawnSeries, assessment: Assessment): RunView {
  const { time_s, gaps, medianInterval_s, start } = series;
  const end_s = time_s.length === 0 ? 0 : (time_s[time_s.length - 1] ?? 0);
  const { quantities } = assessment;
  const levels = series.levels ?? seriesLevels(series);
  const pressure =
    series.pressure === null
      ? null
      : { ...channel(series.pressure, levels.pressure), unit: series.pressure.unit };
  const oilUnit = series.oil?.unit ?? null;
  const oil =
    series.oil === null || !isTemperatureUnit(oilUnit)
      ? null
      : { ...channel(series.oil, levels.oil), unit: oilUnit };
  const parts = partsOf(assessment.phases);
  const { settling, operatingPressure, holdTemperature } = quantities;
  const pressed = pressureLimits(assessment, pressure?.unit ?? operatingPressure.unit);
  const run_s = runStart(assessment);
  return {
    time_s,
    end_s,
    medianInterval_s,
    secondDecimals: secondDecimals(medianInterval_s),
    sparse: medianInterval_s >= SPARSE_INTERVAL_s,
    stretches: stretchesOf(time_s, gaps),
    gaps,
    clock: clockOf(start, assessment.log.clockSteps),
    start,
    steps: assessment.log.clockSteps,
    pressure,
    oil,
    others: otherChannels(series, levels),
    ...pressed,
    judged: pressure === null ? null : judgedExtent(time_s, pressure.line, parts),
    value:
      operatingPressure.value === null
        ? null
        : operatingPressure.value *
          pressureFactor(operatingPressure.unit, pressure?.unit ?? operatingPressure.unit),
    operatingFrom: operatingFrom(assessment, oil?.unit ?? null),
    holdTemperature:
      oil === null || holdTemperature.mean === null
        ? null
        : convertTemperature(holdTemperature.mean, holdTemperature.unit, oil.unit),
    parts,
    settled:
      settling.time_s === null || run_s === null
        ? null
        : {
            at_s: run_s + settling.time_s,
            time_s: settling.time_s,
            tolerance:
              settling.tolerance === null
                ? null
                : settling.tolerance * pressureFactor(settling.unit, pressure?.unit ?? settling.unit),
          },
    setAside: setAsideOf(series),
    wasHere: assessment.judged.choices.flatMap(({ what, from_s }) =>
      (what === 'hold-start' || what === 'hold-end') && typeof from_s === 'number'
        ? [{ border: what, at_s: from_s }]
        : [],
    ),
  };
}

function channel(
  from: { values: Float64Array; flags: Uint8Array; smoothed: Float64Array },
  levels: SeriesLevels['pressure'],
): DrawnChannel {
  const { values, flags, smoothed } = from;
  const raw: Blocks = { values, flags, levels: levels?.raw ?? [] };
  const extent: Extent = { lowest: 0, highest: 0 };
  if (!extentOf(raw, 0, values.length, extent)) extent.lowest = extent.highest = 0;
  const line: Blocks = { values: smoothed, flags: null, levels: levels?.line ?? [] };
  return { values, flags, smoothed, raw, line, extent };
}

/** The run's start: where settling is counted from. */
function runStart({ judged }: Assessment): number | null {
  return judged.start_s;
}

/** Limits and the zone around them, in the unit of the pressure as drawn. */
function pressureLimits(assessment: Assessment, unit: PressureUnit): Pick<RunView, 'band' | 'guard'> {
  const criterion = assessment.criteria.find(({ id }) => id === 'operating-pressure');
  const found = criterion ?? null;
  if (found === null || !isPressureUnit(found.unit)) {
    const stated = assessment.spec?.pressureBand;
    if (stated === undefined) return { band: { low: null, high: null }, guard: null };
    const factor = pressureFactor(stated.unit, unit);
    return {
      band: { low: times(stated.low ?? null, factor), high: times(stated.high ?? null, factor) },
      guard: null,
    };
  }
  const factor = pressureFactor(found.unit, unit);
  return {
    band: { low: times(found.limits.low, factor), high: times(found.limits.high, factor) },
    guard: times(guardOf(found, assessment.settings.guardFactor), factor),
  };
}
const times = (value: number | null, factor: number): number | null =>
  value === null ? null : Number((value * factor).toPrecision(12));

function guardOf(criterion: Criterion, guardFactor: number): number | null {
  if (criterion.decisionRule !== 'guarded' || criterion.expandedUncertainty === null) return null;
  return guardFactor * criterion.expandedUncertainty;
}

function operatingFrom({ spec }: Assessment, unit: TemperatureUnit | null): number | null {
  const stated = spec?.operatingTemperature;
  if (unit === null || stated === undefined || typeof stated.low !== 'number') return null;
  return convertTemperature(stated.low, stated.unit, unit);
}

/** The phases, one that goes on after a gap as one part. */
function partsOf(phases: readonly Phase[]): Part[] {
  const parts: Part[] = [];
  phases.forEach((phase, index) => {
    const { kind, start_s, end_s } = phase;
    const last = parts.at(-1);
    if (kind === 'gap') {
      const before = phases[index - 1],
        after = phases[index + 1];
      // A gap between two different parts is a part of its own.
      if (before?.kind !== after?.kind) parts.push({ kind, start_s, end_s, pieces: [] });
      return;
    }
    if (last !== undefined && last.kind === kind) {
      last.end_s = end_s;
      last.pieces.push({ start_s, end_s });
    } else parts.push({ kind, start_s, end_s, pieces: [{ start_s, end_s }] });
  });
  return parts;
}

function judgedExtent(
  time_s: Float64Array,
  line: Blocks,
  parts: readonly Part[],
): { lowest: number; highest: number } | null {
  const all = { lowest: Infinity, highest: -Infinity },
    one: Extent = { lowest: 0, highest: 0 };
  for (const { kind, pieces } of parts) {
    if (kind !== 'hold') continue;
    for (const { start_s, end_s } of pieces) {
      // The last row may already be the falling edge; the border belongs to what follows.
      if (!extentOf(line, firstRowFrom(time_s, start_s), firstRowFrom(time_s, end_s), one)) continue;
      all.lowest = Math.min(all.lowest, one.lowest);
      all.highest = Math.max(all.highest, one.highest);
    }
  }
  return all.lowest <= all.highest ? all : null;
}
