import { accuracyClasses, gaugeAgainstBand, type GaugeStatement } from '#decision/gauge-against-band.ts';
import { passZone, type Limits } from '#decision/rule.ts';
import type { GaugeBandCheck, GaugeReadingsCheck } from '#formats/gauge-check.ts';
import { rounded, roundedData } from '#formats/number.ts';
import type { Problem, Result } from '#formats/problem.ts';
import type { Remark } from '#formats/remark.ts';
import { fitLine } from '#statistics/fit-line.ts';
import { mean } from '#statistics/mean.ts';
import { studentTQuantile } from '#statistics/student-t.ts';
import { statedText, withUnit } from '#units/number-text.ts';
import { pressureFactor, type PressureUnit } from '#units/pressure.ts';
import { isPressureUnit, isTemperatureUnit, type UnitName } from '#units/unit.ts';

/** Pairs of a reference and what the gauge under test read, in one unit. */
export interface GaugeReadings {
  unit: UnitName;
  reference: readonly number[];
  reading: readonly number[];
  /** Whether the reference was rising or falling; absent where it was not noted. */
  direction?: readonly ('up' | 'down' | null)[];
}
/** How a gauge check is to be written down. */
export interface GaugeCheckOptions {
  /** Reading at which the intercept is taken; the mean of the readings unless said (then intercept and slope are independent, H.3.5). */
  t0?: number;
  file?: string | null;
  /** The class that the gauge is said to hold, and the range it is of, in the unit of the readings (EN 837-1: per cent of the span). */
  stated?: { range: { low: number; high: number }; percentOfSpan: number };
  /** Days "2026-03-04", handed on to the rig file. */
  calibratedOn?: string;
  dueOn?: string;
}

/** Coverage quantile of k, as for the operating pressure (JCGM 100:2008, Table G.2: 95.45 %). */
const COVERAGE = 0.97725;

/**
 * A gauge held against a reference: least squares of the correction b = reference − reading on the reading t, b(t) = y1 + y2·(t − t0).
 * Source: JCGM 100:2008, Annex H.3 (Eqs. H.12 to H.16). The uncertainty for the rig file is that of a corrected single reading, at the
 * place of the checked range where it is largest: √(s² + u_b²(t)); the reference's own uncertainty is not in it.
 * @returns problems below two points, where all readings are equal, or where the unit is neither of pressure nor of temperature
 */
export function checkGauge(
  readings: GaugeReadings,
  options: GaugeCheckOptions = {},
): Result<GaugeReadingsCheck> {
  const file = options.file ?? null;
  const pairs = readings.reference.flatMap((reference, index) => {
    const reading = readings.reading[index] ?? NaN;
    return Number.isFinite(reference) && Number.isFinite(reading)
      ? [
          {
            reference,
            reading,
            correction: reference - reading,
            direction: readings.direction?.[index] ?? null,
          },
        ]
      : [];
  });
  const problem = refusal(readings.unit, pairs, file);
  if (problem) return { ok: false, problems: [problem] };
  const x = pairs.map(({ reading }) => reading),
    b = pairs.map(({ correction }) => correction);
  const t0 = rounded(options.t0 ?? mean(x));
  const references = pairs.map(({ reference }) => reference);
  const span = Math.max(...references) - Math.min(...references);
  const largest = Math.max(...b.map(Math.abs));
  const share = rounded(largest / span);
  const line = lineThrough(x, b, t0);
  const hysteresis = hysteresisOf(pairs);
  const reasons = [
    ...(line.errors === null ? ['two points give no standard errors: check at five or more'] : []),
    ...(hysteresis.value === null ? [hysteresis.reason] : []),
  ];
  const result: GaugeReadingsCheck = {
    format: 'overdrive-bench/gauge-check',
    version: 1,
    unit: readings.unit,
    points: pairs.length,
    t0,
    intercept: line.intercept,
    interceptStandardUncertainty: line.errors?.intercept ?? null,
    slope: line.slope,
    slopeStandardUncertainty: line.errors?.slope ?? null,
    correlation: line.errors?.correlation ?? null,
    residualStandardDeviation: line.errors?.residual ?? null,
    ...(line.errors === null ? {} : { degreesOfFreedom: line.errors.degreesOfFreedom }),
    residuals: pairs.map(({ reading, correction }) => ({
      reading,
      correction,
      residual: correction - (line.intercept + line.slope * (reading - t0)),
    })),
    hysteresis: hysteresis.value,
    largestErrorShareOfSpan: share,
    accuracyClass: accuracyClasses.findLast((percent) => rounded(share * 100) <= percent) ?? null,
    ...(options.stated === undefined ? {} : { stated: againstStated(options.stated, rounded(largest)) }),
    rigChannel:
      line.errors === null
        ? null
        : {
            ...rigChannelOf(line, line.errors, x, t0),
            ...(options.calibratedOn === undefined ? {} : { calibratedOn: options.calibratedOn }),
            ...(options.dueOn === undefined ? {} : { dueOn: options.dueOn }),
          },
    ...(reasons.length === 0 ? {} : { reason: reasons.join('; ') }),
    remarks: remarksOf(pairs, line, readings.unit, options),
  };
  return { ok: true, value: roundedData(result) };
}

/**
 * Correction at a reading, and its standard uncertainty, from a finished check (JCGM 100:2008, Eqs. H.14, H.15); it grows outside the
 * checked range. Null uncertainty from two points.
 */
export function correctionAt(
  check: GaugeReadingsCheck,
  reading: number,
): { correction: number; standardUncertainty: number | null } {
  const {
    t0,
    intercept,
    slope,
    interceptStandardUncertainty: u1,
    slopeStandardUncertainty: u2,
    correlation: r,
  } = check;
  const d = reading - t0;
  return {
    correction: intercept + slope * d,
    standardUncertainty:
      u1 === null || u2 === null || r === null
        ? null
        : Math.sqrt(Math.max(0, u1 * u1 + d * d * u2 * u2 + 2 * d * r * u1 * u2)),
  };
}

interface Pair {
  reference: number;
  reading: number;
  correction: number;
  direction: 'up' | 'down' | null;
}

function refusal(unit: UnitName, pairs: readonly Pair[], file: string | null): Problem | null {
  const bad = (path: string, reason: string): Problem => ({ code: 'bad-field', file, path, reason });
  if (!isPressureUnit(unit) && !isTemperatureUnit(unit))
    return bad('unit', `must be a unit of pressure or temperature, "${unit}" is neither`);
  if (pairs.length < 2)
    return bad('reading', `needs two points or more, each with reference and reading; ${pairs.length} found`);
  const [first] = pairs;
  if (pairs.every(({ reading }) => reading === first?.reading))
    return bad('reading', 'is the same at every point; check the gauge over its range');
  if (pairs.every(({ reference }) => reference === first?.reference))
    return bad('reference', 'is the same at every point; check the gauge over its range');
  return null;
}

interface LineErrors {
  intercept: number;
  slope: number;
  correlation: number;
  residual: number;
  degreesOfFreedom: number;
  /** Standard uncertainty of the predicted correction at a reading (JCGM 100:2008, Eq. H.15). */
  at: (reading: number) => number;
}
interface CorrectionLine {
  intercept: number;
  slope: number;
  errors: LineErrors | null;
}

function lineThrough(x: readonly number[], b: readonly number[], t0: number): CorrectionLine {
  const fit = fitLine(
    x.map((reading) => reading - t0),
    b,
  );
  if (!fit) {
    const [x0 = NaN, x1 = NaN] = x,
      [b0 = NaN, b1 = NaN] = b;
    const slope = (b1 - b0) / (x1 - x0);
    return { intercept: b0 + slope * (t0 - x0), slope, errors: null };
  }
  const { interceptStandardError: u1, slopeStandardError: u2, correlation: r } = fit;
  return {
    intercept: fit.intercept,
    slope: fit.slope,
    errors: {
      intercept: u1,
      slope: u2,
      correlation: r,
      residual: fit.residualStandardDeviation,
      degreesOfFreedom: fit.degreesOfFreedom,
      at: (reading) => {
        const d = reading - t0;
        return Math.sqrt(Math.max(0, u1 * u1 + d * d * u2 * u2 + 2 * d * r * u1 * u2));
      },
    },
  };
}

/** What a rig file takes over: true = slope · reading + offset, and the uncertainty of a reading so corrected. */
function rigChannelOf(
  { intercept, slope }: CorrectionLine,
  errors: LineErrors,
  x: readonly number[],
  t0: number,
): NonNullable<GaugeReadingsCheck['rigChannel']> {
  const widest = Math.max(errors.at(Math.min(...x)), errors.at(Math.max(...x)));
  const u = Math.sqrt(errors.residual * errors.residual + widest * widest);
  const coverageFactor = rounded(studentTQuantile(COVERAGE, errors.degreesOfFreedom));
  return {
    correction: { offset: rounded(intercept - slope * t0), slope: rounded(1 + slope) },
    uncertainty: {
      name: 'calibration',
      expanded: rounded(coverageFactor * u),
      coverageFactor,
      distribution: 'normal',
      degreesOfFreedom: errors.degreesOfFreedom,
    },
  };
}

/** Largest difference between the means of rising and falling readings at one reference. */
function hysteresisOf(
  pairs: readonly Pair[],
): { value: number; reason: '' } | { value: null; reason: string } {
  if (pairs.every(({ direction }) => direction === null))
    return {
      value: null,
      reason: 'no column says whether the reference was rising or falling, so there is no hysteresis',
    };
  let largest: number | null = null;
  for (const reference of new Set(pairs.map((pair) => pair.reference))) {
    const read = (direction: 'up' | 'down'): number[] =>
      pairs
        .filter((pair) => pair.reference === reference && pair.direction === direction)
        .map(({ reading }) => reading);
    const up = read('up'),
      down = read('down');
    if (up.length > 0 && down.length > 0) largest = Math.max(largest ?? 0, Math.abs(mean(up) - mean(down)));
  }
  return largest === null
    ? { value: null, reason: 'no reference was met both rising and falling, so there is no hysteresis' }
    : { value: largest, reason: '' };
}

/** The largest error against what the stated class allows of its range. */
function againstStated(
  { range, percentOfSpan }: NonNullable<GaugeCheckOptions['stated']>,
  largestError: number,
): NonNullable<GaugeReadingsCheck['stated']> {
  const allowed = rounded(((range.high - range.low) * percentOfSpan) / 100);
  return { percentOfSpan, range, allowed, largestError, holds: largestError <= allowed };
}

function remarksOf(
  pairs: readonly Pair[],
  line: CorrectionLine,
  unit: UnitName,
  { stated, calibratedOn, dueOn }: GaugeCheckOptions,
): Remark[] {
  const remarks: Remark[] = [
    {
      code: 'reference-not-included',
      text: "The reference's own uncertainty is not in these numbers: add it to the rig file as a statement of its own.",
    },
  ];
  if (line.errors && Math.abs(line.slope) <= 3 * line.errors.slope)
    remarks.push({
      code: 'a-constant-would-do',
      text: 'The slope of the correction is no more than three times its standard uncertainty: a constant correction would do as well (JCGM 100:2008, H.3.3).',
    });
  // At least five points over the range, up and down: IEC 60770-2:2010, 5.5.1, read second-hand.
  if (pairs.length > 2 && pairs.length < 5)
    remarks.push({
      code: 'few-points',
      text: `${pairs.length} points are few: check at five or more over the range, rising and falling.`,
    });
  const readings = pairs.map(({ reading }) => reading);
  // Half of the range checked would be called a whole check by nobody; our own choice, no source.
  if (
    stated !== undefined &&
    Math.max(...readings) - Math.min(...readings) < 0.5 * (stated.range.high - stated.range.low)
  )
    remarks.push({
      code: 'range-hardly-covered',
      text: 'The points cover less than half of the stated range; the class is not shown for the rest.',
    });
  if (calibratedOn !== undefined && dueOn === undefined)
    remarks.push({
      code: 'no-due-date',
      text: 'No next due date is said: then no run will be told that the check has run out.',
    });
  if (calibratedOn !== undefined && dueOn !== undefined && dueOn <= calibratedOn)
    remarks.push({
      code: 'due-before-checked',
      text: `The next check is due on ${dueOn}, which is not after ${calibratedOn}: look at the dates.`,
    });
  remarks.push({
    code: 'range-checked',
    text: `Checked from ${statedText(rounded(Math.min(...readings)))} to ${withUnit(statedText(rounded(Math.max(...readings))), unit)}; outside that the correction is an extrapolation and its uncertainty grows.`,
  });
  return remarks;
}

/** What a gauge leaves of a band, as the `gauge` command prints it before any run. */
export function gaugeBandCheck(
  gauge: GaugeStatement,
  band: Limits & { unit: PressureUnit },
  guardFactor = 1,
): GaugeBandCheck {
  const found = gaugeAgainstBand(gauge, band, guardFactor);
  const remarks: Remark[] = [];
  if (!found.canPass)
    remarks.push({
      code: 'no-reading-can-pass',
      text: `No reading can pass this band with this gauge under the guarded rule.${
        found.classThatWouldDo === null
          ? ''
          : ` The same range good to ± ${statedText(found.classThatWouldDo)} % of its span would leave half of the band or more.`
      }`,
    });
  const end = rounded(gauge.range.high * pressureFactor(gauge.range.unit, band.unit));
  const below = band.low !== null && end <= band.low;
  if (below || (band.high !== null && end < band.high))
    remarks.push({
      code: 'range-too-small',
      text: below
        ? 'The range ends below the band: the gauge would stand at its end.'
        : `The range ends inside the band, at ${withUnit(statedText(end), band.unit)}: above that the gauge would stand at its end.`,
    });
  return roundedData({
    format: 'overdrive-bench/gauge-check',
    version: 1,
    unit: found.unit,
    expandedUncertainty: found.expandedUncertainty,
    passFrom: found.passFrom,
    passTo: found.passTo,
    canPass: found.canPass,
    room: found.room,
    accuracyThatWouldDo: found.classThatWouldDo,
    remarks,
  } satisfies GaugeBandCheck);
}

/**
 * What a gauge leaves of a band once its readings are corrected as a check found: the limits drawn in by the uncertainty of a corrected
 * reading. Null where the check gives none, or is of temperatures.
 */
export function correctedGaugeBand(
  { rigChannel, unit }: GaugeReadingsCheck,
  band: Limits & { unit: PressureUnit },
  guardFactor = 1,
): GaugeBandCheck | null {
  if (rigChannel === null || !isPressureUnit(unit)) return null;
  const U = rounded(rigChannel.uncertainty.expanded * pressureFactor(unit, band.unit));
  const zone = passZone(band, rounded(guardFactor * U));
  return roundedData({
    format: 'overdrive-bench/gauge-check',
    version: 1,
    unit: band.unit,
    expandedUncertainty: U,
    passFrom: zone.empty ? null : zone.low,
    passTo: zone.empty ? null : zone.high,
    canPass: !zone.empty,
    room: zone.empty || zone.low === null || zone.high === null ? null : zone.high - zone.low,
    remarks: [
      {
        code: 'reference-not-included',
        text: "The reference's own uncertainty, and what drifts until the next check, come on top.",
      },
    ],
  } satisfies GaugeBandCheck);
}
