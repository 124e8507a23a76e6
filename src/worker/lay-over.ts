import { compare } from '#comparison/compare.ts';
import type { Assessed } from '#assessment/assess.ts';
import { pressureFactor } from '#units/pressure.ts';
import { outline } from './outline.ts';
import type { LaidOver, LaidRun } from './relief-messages.ts';

/** Columns that a run is thinned to for drawing; more than a screen shows of two runs side by side. */
const COLUMNS = 720;

/** A judged run of the book. */
export interface RunToLay extends Assessed {
  id: string;
  name: string;
}

/** Runs of the book over each other, each from the engagement that is judged, in the unit of the first; the first gives the limits. */
export function layOver(runs: readonly RunToLay[]): LaidOver | null {
  const [first] = runs;
  if (first === undefined) return null;
  const { unit } = first.assessment.quantities.operatingPressure;
  const band = first.assessment.spec?.pressureBand;
  const factor = band === undefined ? 1 : pressureFactor(band.unit, unit);
  const limit = (value: number | null | undefined): number | null =>
    value === null || value === undefined ? null : value * factor;
  const compared = compare(runs);
  return {
    unit,
    limits: { low: limit(band?.low), high: limit(band?.high) },
    runs: runs.map((run) => laidRun(run, unit)),
    comparison: compared.ok ? compared.value : null,
  };
}

function laidRun({ id, name, assessment, series }: RunToLay, unit: LaidOver['unit']): LaidRun {
  const { time_s, pressure } = series;
  const start = assessment.judged.start_s ?? time_s[0] ?? 0;
  const { start_s, end_s } = assessment.quantities.operatingPressure;
  const values =
    pressure === null
      ? new Float64Array(time_s.length).fill(NaN)
      : pressure.smoothed.map((value) => value * pressureFactor(pressure.unit, unit));
  return {
    id,
    name,
    from_s: (time_s[0] ?? 0) - start,
    to_s: (time_s[time_s.length - 1] ?? 0) - start,
    hold: start_s === null || end_s === null ? null : { start_s: start_s - start, end_s: end_s - start },
    // A smoothed value counts also where the reading in its middle was set aside.
    outline: outline(time_s, values, new Uint8Array(values.length), COLUMNS),
  };
}
