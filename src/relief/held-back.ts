import type { Advice } from '#formats/advice.ts';
import type { Assessment } from '#formats/assessment.ts';
import { rounded } from '#formats/number.ts';
import type { Spec } from '#formats/spec.ts';
import { pressureFactor } from '#units/pressure.ts';
import { convert } from '#units/unit.ts';
import { decimalsForStep, fixedText, statedText, withUnit } from '#units/number-text.ts';

type HeldBack = NonNullable<Advice['heldBack']>;

/** Remark of the assessment that says the gauge stood at the end of its range. */
export const CLIPPED_REMARK = 'clipped';

/**
 * Why no setting is advised from this run, the first reason that holds; null where advice may be given. A setting changed on such a
 * reading would hide the fault or rest on a number that is not the unit's.
 * @param target in the unit of the spec's band
 */
export function heldBackBy(assessment: Assessment, spec: Spec, target: number): HeldBack | null {
  return (
    clipped(assessment) ??
    notAssessed(assessment) ??
    followsSpeed(assessment) ??
    unsettled(assessment, spec) ??
    leaking(assessment, spec, target)
  );
}

function clipped({ remarks }: Assessment): HeldBack | null {
  return remarks.some(({ code }) => code === CLIPPED_REMARK)
    ? {
        code: 'gauge-clipped',
        text: 'The gauge stood at the end of its range: the pressure was higher than it could show. Test again with a gauge of a larger range.',
      }
    : null;
}

/** No settled hot hold: cold, no run, or never settled. */
function unsettled({ quantities, complete }: Assessment, spec: Spec): HeldBack | null {
  const { operatingPressure, settling } = quantities;
  const code = 'no-settled-hot-hold';
  if (operatingPressure.value === null)
    return {
      code,
      text: `There is no reading to set by: ${operatingPressure.reason ?? 'the run has no hold'}.${coldShift(quantities, spec)} Run it hot and settled first.`,
    };
  if (settling.time_s === null)
    return {
      code,
      text: `The pressure never settled: what it would read at the end is not known. Find out why it moves, or run it longer.`,
    };
  return complete
    ? null
    : { code, text: 'The run is still going on. The setting is advised when it has ended.' };
}

/** How much the run's own temperature sensitivity would move a cold reading on the way to operating temperature. */
function coldShift({ temperatureSensitivity, warmUp }: Assessment['quantities'], spec: Spec): string {
  const low = spec.operatingTemperature?.low ?? null;
  if (
    temperatureSensitivity.value === null ||
    warmUp.finalTemperature === null ||
    low === null ||
    !spec.operatingTemperature
  )
    return '';
  const missing = convert(low, spec.operatingTemperature.unit, warmUp.unit) - warmUp.finalTemperature;
  const shift = temperatureSensitivity.value * missing;
  const unit = temperatureSensitivity.unit.split('/')[0] ?? '';
  const size = Math.abs(shift);
  return missing > 0
    ? ` By this run's own slope the pressure would go ${shift < 0 ? 'down' : 'up'} by about ${withUnit(fixedText(size, decimalsForStep(size / 10)), unit)} on the way to ${withUnit(statedText(low), spec.operatingTemperature.unit)}.`
    : '';
}

/**
 * The reading itself is not assessed, for another reason than that there is none (wrong unit, columns swapped, frozen …). An uncertainty that
 * is missing does not hold the advice back.
 */
function notAssessed({ criteria, quantities }: Assessment): HeldBack | null {
  const criterion = criteria.find(({ id }) => id === 'operating-pressure');
  return criterion?.verdict === 'not-assessed' &&
    criterion.value === null &&
    criterion.reason !== quantities.operatingPressure.reason
    ? { code: 'not-assessed', text: `The operating pressure is not assessed: ${criterion.reason}.` }
    : null;
}

function followsSpeed({ quantities }: Assessment): HeldBack | null {
  return quantities.speedDependence?.kind === 'in-proportion'
    ? {
        code: 'pressure-follows-speed',
        text: 'The pressure rises in proportion to the shaft speed: the relief is not in control, it may be stuck or its passage blocked. A change of shims would change nothing; look at the valve first.',
      }
    : null;
}

/**
 * Leakage is likelier than the setting: the value is below the target, pressure falls with heat for certain, and cold it would reach the
 * low limit that it misses hot; or it keeps falling at constant heat, beyond the limit for drift.
 */
function leaking({ quantities }: Assessment, spec: Spec, target: number): HeldBack | null {
  const { operatingPressure, temperatureSensitivity, warmUp, holdTemperature, drift } = quantities;
  const { unit } = spec.pressureBand;
  const low = spec.pressureBand.low ?? null;
  const value =
    operatingPressure.value === null
      ? null
      : operatingPressure.value * pressureFactor(operatingPressure.unit, unit);
  if (value === null) return null;
  const code = 'leakage-suspected';
  const checks =
    'More shims would hide it. Look at pump, rings, O-rings and the seat first; a reading that comes back with more speed points the same way.';
  const coldest = warmUp.startTemperature ?? holdTemperature.min;
  if (
    low !== null &&
    value < target &&
    value < low &&
    temperatureSensitivity.value !== null &&
    temperatureSensitivity.high !== null &&
    temperatureSensitivity.high < 0 &&
    coldest !== null &&
    holdTemperature.mean !== null
  ) {
    const perDegree = temperatureSensitivity.value * pressureFactor(operatingPressure.unit, unit);
    const cold =
      value + perDegree * (convert(coldest, warmUp.unit, holdTemperature.unit) - holdTemperature.mean);
    if (rounded(cold) >= low)
      return {
        code,
        text: `Leakage is likelier than the setting: cold, at ${withUnit(fixedText(coldest, 0), warmUp.unit)}, the pressure would be about ${withUnit(fixedText(cold, 0), unit)}, inside the limit of ${withUnit(statedText(low), unit)} that it misses warm. ${checks}`,
      };
  }
  const limit = spec.drift;
  const hold_h =
    operatingPressure.start_s === null || operatingPressure.end_s === null
      ? null
      : (operatingPressure.end_s - operatingPressure.start_s) / 3600;
  if (limit && hold_h !== null && drift.temperatureCorrectedSlope !== null) {
    const change = rounded(
      drift.temperatureCorrectedSlope * hold_h * pressureFactor(drift.overHold.unit, limit.unit),
    );
    if (change < -limit.atMost)
      return {
        code,
        text: `Leakage is likelier than the setting: at constant heat the pressure keeps falling, by ${withUnit(fixedText(-change, decimalsForStep(limit.atMost / 50)), limit.unit)} over the hold, where ${withUnit(statedText(limit.atMost), limit.unit)} are allowed. ${checks}`,
      };
  }
  return null;
}
