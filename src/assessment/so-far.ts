import { rounded } from '#formats/number.ts';
import type { SoFar, SoFarDrift } from '#formats/so-far.ts';
import { convertTemperature } from '#units/temperature.ts';
import { isTemperatureUnit } from '#units/unit.ts';
import type { Assessed } from './assess.ts';

const HOUR_s = 3600;

/**
 * What somebody at the bench wants to know of a run that is still being logged: the readings now, the time still to go, where the
 * line of the drift leads. Made from the assessment of the log so far; computes no quantity of its own.
 */
export function soFarOf({ assessment, series }: Assessed): SoFar {
  const { quantities, phases, spec, criteria } = assessment;
  const run_s = quantities.runLength?.length_s ?? null;
  const asked_h = spec?.runLength?.atLeast_h ?? null;
  const toGo_s = asked_h === null ? null : rounded(Math.max(0, asked_h * HOUR_s - (run_s ?? 0)));
  const { start_s, end_s } = quantities.operatingPressure;
  const pressure = lastOf(series.pressure?.smoothed);
  const oil = lastOf(series.oil?.smoothed);
  const oilUnit = series.oil?.unit ?? null;
  return {
    at_s: rounded(series.time_s.at(-1) ?? 0),
    pressure:
      pressure === null || series.pressure === null ? null : { value: pressure, unit: series.pressure.unit },
    oil: oil === null || oilUnit === null ? null : { value: oil, unit: oilUnit },
    phase: phases.at(-1)?.kind ?? null,
    run_s,
    toGo_s,
    hold_s: start_s === null || end_s === null ? null : rounded(end_s - start_s),
    oilWanted: start_s === null ? oilWanted(assessment, oilUnit) : null,
    drift: driftOf({ assessment, series }, toGo_s),
    noDrift: quantities.drift.slope === null ? (quantities.drift.reason ?? null) : null,
    fails: criteria.filter(({ verdict }) => verdict === 'fail').map(({ id }) => id),
  };
}

/** The last value of a smoothed column that is one. */
function lastOf(values: Float64Array | undefined): number | null {
  for (let i = (values?.length ?? 0) - 1; i >= 0; i--) {
    const value = values?.[i] ?? NaN;
    if (!Number.isNaN(value)) return rounded(value);
  }
  return null;
}

/** The lowest operating temperature in the unit of the oil's column. */
function oilWanted({ spec }: Assessed['assessment'], oilUnit: string | null): SoFar['oilWanted'] {
  const limits = spec?.operatingTemperature;
  const low = limits?.low ?? null;
  if (limits === undefined || low === null || oilUnit === null || !isTemperatureUnit(oilUnit)) return null;
  return { value: rounded(convertTemperature(low, limits.unit, oilUnit)), unit: oilUnit };
}

function driftOf({ assessment, series }: Assessed, toGo_s: number | null): SoFarDrift | null {
  const { slope, low, high, unit, trend, bandExit_h } = assessment.quantities.drift;
  const { driftLine } = series;
  // A unit that was released or stopped leads nowhere.
  const last = assessment.phases.at(-1)?.kind;
  const goesOn = last === 'hold' || last === 'warm-up';
  if (slope === null || trend === null || driftLine === undefined) return null;
  return {
    slope,
    low,
    high,
    unit,
    trend,
    bandExit_h: goesOn ? bandExit_h : null,
    atRunEnd:
      !goesOn || toGo_s === null || toGo_s <= 0 || series.pressure === null
        ? null
        : { value: rounded(driftLine.value + (slope * toGo_s) / HOUR_s), unit: series.pressure.unit },
  };
}
