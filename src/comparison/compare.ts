import type { Assessment } from '#formats/assessment.ts';
import type { Comparison, ComparisonRow } from '#formats/comparison.ts';
import { roundedData } from '#formats/number.ts';
import type { Problem, Result } from '#formats/problem.ts';
import type { Remark } from '#formats/remark.ts';
import { mean, sampleStandardDeviation } from '#statistics/mean.ts';
import { statedText, withUnit } from '#units/number-text.ts';
import { pressureFactor } from '#units/pressure.ts';
import { capability } from './capability.ts';
import { controlLimits, movingRanges, type ControlLimits } from './control-limits.ts';

/** One run of the comparison; the serial tells a re-test from the first test of a unit. */
export interface ComparedRun {
  assessment: Assessment;
  /** As the unit record or the book has it; null where it is not known: the run then counts as a unit of its own. */
  serial?: string | null;
}

/** So many runs before a spread is called a capability. */
const RUNS_FOR_CAPABILITY = 10;
/** Below so many, limits are as rough as the few ranges they come from. */
const RUNS_FOR_LIMITS = 5;

/**
 * Puts runs side by side, in the order given: one row each, control limits over their operating pressures, capability against the band
 * and the share of units that passed at their first test.
 * @returns a problem where a run was judged without limits, or not by the band of the first
 */
export function compare(runs: readonly ComparedRun[]): Result<Comparison> {
  const [first] = runs;
  const band = first?.assessment.spec?.pressureBand;
  const bad = (path: string, reason: string): { ok: false; problems: Problem[] } => ({
    ok: false,
    problems: [{ code: 'bad-field', file: null, path, reason }],
  });
  if (!first) return bad('runs', 'are missing; name two logs or more');
  if (!band) return bad('spec', 'is missing; runs are compared against one set of limits');
  const odd = runs.find(({ assessment }) => {
    const other = assessment.spec?.pressureBand;
    return (
      !other ||
      other.unit !== band.unit ||
      (other.low ?? null) !== (band.low ?? null) ||
      (other.high ?? null) !== (band.high ?? null)
    );
  });
  if (odd)
    return bad(
      'spec',
      `of ${odd.assessment.log.fileName ?? 'one of the runs'} has another band; judge all runs by the same limits`,
    );
  const { unit } = band;
  const limitsOfBand = { low: band.low ?? null, high: band.high ?? null };
  const values = runs.map(({ assessment }) => {
    const { value, unit: from } = assessment.quantities.operatingPressure;
    return value === null || inDoubt(assessment) !== null ? null : value * pressureFactor(from, unit);
  });
  const known = values.filter((value) => value !== null);
  const limits = controlLimits(known);
  const beyond = beyondLimits(values, limits);
  const seen = new Set<string>();
  const rows = runs.map(({ assessment, serial }, index): ComparisonRow => {
    const reTest = serial !== undefined && serial !== null && seen.has(serial);
    if (serial !== undefined && serial !== null) seen.add(serial);
    return { ...rowOf(assessment, unit), serial: serial ?? null, beyond: beyond[index] ?? null, reTest };
  });
  const firsts = rows.filter(({ reTest }) => reTest !== true);
  const passed = firsts.filter(({ verdict }) => verdict === 'pass').length;
  const deviation = known.length >= 2 ? sampleStandardDeviation(known) : null;
  const enough = known.length >= RUNS_FOR_CAPABILITY && deviation !== null && deviation > 0;
  const indices = enough ? capability(mean(known), deviation, limitsOfBand) : null;
  return {
    ok: true,
    value: roundedData({
      format: 'overdrive-bench/comparison',
      version: 1,
      unit,
      runs: rows,
      limits: limits && { ...limits, runs: known.length },
      capability: {
        cp: indices?.cp ?? null,
        cpk: indices?.cpk ?? null,
        standardDeviation: deviation,
        runs: known.length,
        ...(indices === null
          ? {
              reason:
                known.length < RUNS_FOR_CAPABILITY
                  ? `${known.length} runs have an operating pressure; capability is given from ${RUNS_FOR_CAPABILITY} on`
                  : 'all runs have the same operating pressure',
            }
          : indices.cp === null
            ? { reason: 'the band is one-sided: there is no Cp, only Cpk' }
            : {}),
      },
      passedAtFirstTest: {
        share: firsts.length === 0 ? null : passed / firsts.length,
        passed,
        units: firsts.length,
      },
      remarks: remarksOf(runs, rows, known, limits),
    } satisfies Comparison),
  };
}

/** Why a pressure that was read is not assessed (wrong unit, frozen …): it belongs in no limits. Null where it stands. */
function inDoubt({ criteria }: Assessment): string | null {
  const criterion = criteria.find(({ id }) => id === 'operating-pressure');
  return criterion?.verdict === 'not-assessed' && criterion.value === null ? criterion.reason : null;
}

function rowOf(assessment: Assessment, unit: Comparison['unit']): Omit<ComparisonRow, 'beyond'> {
  const { log, verdict, quantities } = assessment;
  const { operatingPressure, drift, settling } = quantities;
  const doubt = inDoubt(assessment);
  const reasonOf = (reason: string | undefined): { reason?: string } =>
    reason === undefined ? {} : { reason };
  const inUnit = (value: number | null, from: Comparison['unit']): number | null =>
    value === null ? null : value * pressureFactor(from, unit);
  return {
    fileName: log.fileName,
    start: log.start,
    verdict,
    operatingPressure: {
      value: doubt === null ? inUnit(operatingPressure.value, operatingPressure.unit) : null,
      expandedUncertainty:
        doubt === null ? inUnit(operatingPressure.expandedUncertainty, operatingPressure.unit) : null,
      unit,
      ...reasonOf(doubt ?? operatingPressure.reason),
    },
    drift: {
      overHold: inUnit(drift.overHold.value, drift.overHold.unit),
      unit,
      trend: drift.trend,
      ...reasonOf(drift.reason),
    },
    settling: { time_s: settling.time_s, ...reasonOf(settling.reason) },
  };
}

/** Which runs lie beyond the limits; runs without a value are passed over, their neighbours are neighbours then. */
function beyondLimits(
  values: readonly (number | null)[],
  limits: ControlLimits | null,
): ComparisonRow['beyond'][] {
  if (limits === null) return values.map(() => null);
  const known = values.flatMap((value, index) => (value === null ? [] : [{ value, index }]));
  const ranges = movingRanges(known.map(({ value }) => value));
  const result: ComparisonRow['beyond'][] = values.map(() => null);
  known.forEach(({ value, index }, at) => {
    const off = value < limits.low || value > limits.high;
    const jumped = at > 0 && (ranges[at - 1] ?? 0) > limits.movingRangeHigh;
    result[index] = off && jumped ? 'both' : off ? 'value' : jumped ? 'moving-range' : null;
  });
  return result;
}

function remarksOf(
  runs: readonly ComparedRun[],
  rows: readonly ComparisonRow[],
  known: readonly number[],
  limits: ControlLimits | null,
): Remark[] {
  const remarks: Remark[] = [];
  if (limits !== null && known.length < RUNS_FOR_LIMITS)
    remarks.push({
      code: 'few-runs',
      text: `The limits come from ${known.length} runs and are rough; they settle from about twenty on.`,
    });
  const without = rows.length - known.length;
  if (without > 0)
    remarks.push({
      code: 'runs-without-a-value',
      text: `${without === 1 ? 'One run has' : `${without} runs have`} no operating pressure and ${without === 1 ? 'is' : 'are'} left out of the limits.`,
    });
  const tests = new Set(
    runs.map(({ assessment }) => {
      const { runLength, operatingTemperature } = assessment.spec ?? {};
      return JSON.stringify([runLength, operatingTemperature]);
    }),
  );
  if (tests.size > 1)
    remarks.push({
      code: 'not-like-for-like',
      text: 'The runs were not judged by the same length and temperature.',
    });
  const means = runs.flatMap(({ assessment }) => {
    const { mean: value, unit } = assessment.quantities.holdTemperature;
    return value === null || unit !== runs[0]?.assessment.quantities.holdTemperature.unit
      ? []
      : [{ value, unit }];
  });
  const temperatures = means.map(({ value }) => value);
  const spread = Math.max(...temperatures) - Math.min(...temperatures);
  const [{ unit } = { unit: 'degC' as const }] = means;
  // Ten degrees of oil are several psi on a unit that thins; our own choice, no source.
  if (means.length > 1 && spread > (unit === 'degF' ? 18 : 10))
    remarks.push({
      code: 'not-equally-warm',
      text: `The oil was not equally warm: the holds lie ${withUnit(statedText(Number(spread.toPrecision(2))), unit)} apart.`,
    });
  return remarks;
}
