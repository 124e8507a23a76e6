import { pressureFactor, type PressureUnit } from '#units/pressure.ts';
import type { LaidOver } from '#worker/messages.ts';
import { limitAsViewed } from './viewing-unit.ts';

type Row = NonNullable<LaidOver['comparison']>['runs'][number];

/** Runs over each other in the unit for viewing; each was judged in its own. */
export function laidInUnit(laid: LaidOver, unit: PressureUnit): LaidOver {
  const times = (value: number | null, factor: number): number | null =>
    value === null ? null : value * factor;
  const factor = pressureFactor(laid.unit, unit);
  const limit = (value: number | null): number | null =>
    value === null || laid.unit === unit ? value : limitAsViewed(value * factor);
  const row = (of: Row): Row => {
    const { operatingPressure: pressure, drift } = of;
    const own = pressureFactor(pressure.unit, unit);
    return {
      ...of,
      operatingPressure: {
        ...pressure,
        unit,
        value: times(pressure.value, own),
        expandedUncertainty: times(pressure.expandedUncertainty, own),
      },
      drift: { ...drift, unit, overHold: times(drift.overHold, pressureFactor(drift.unit, unit)) },
    };
  };
  return {
    unit,
    limits: { low: limit(laid.limits.low), high: limit(laid.limits.high) },
    runs: laid.runs.map((run) => ({
      ...run,
      outline: {
        ...run.outline,
        low: run.outline.low.map((value) => times(value, factor)),
        high: run.outline.high.map((value) => times(value, factor)),
      },
    })),
    comparison: laid.comparison === null ? null : { ...laid.comparison, runs: laid.comparison.runs.map(row) },
  };
}
