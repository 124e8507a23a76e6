import { pressureFactor } from '#units/pressure.ts';
import { convert, convertDifference } from '#units/unit.ts';
import { sign, signThresholds, type Look, type Seen } from './sign.ts';

const t = signThresholds;

/** The limits of the band in the unit of the operating pressure. */
function bandIn({ q, spec }: Seen): { low: number | null; high: number | null } {
  if (!spec) return { low: null, high: null };
  const factor = pressureFactor(spec.pressureBand.unit, q.operatingPressure.unit);
  const { low, high } = spec.pressureBand;
  return {
    low: low === undefined || low === null ? null : low * factor,
    high: high === undefined || high === null ? null : high * factor,
  };
}

/** By how much the pressure was higher at the run's start temperature, by the run's own slope; null where the slope may be nothing. */
function lostWithHeat({ q }: Seen): number | null {
  const { value, high } = q.temperatureSensitivity;
  const start = q.warmUp.startTemperature,
    hot = q.holdTemperature.mean;
  if (value === null || high === null || high >= 0 || start === null || hot === null) return null;
  return value * (convert(start, q.warmUp.unit, q.holdTemperature.unit) - hot);
}

const sagsWithHeat: Look = (seen) => {
  const lost = lostWithHeat(seen),
    { q, pressure } = seen;
  if (lost === null || pressure === null || lost < t.sagShare * pressure) return null;
  const { low } = bandIn(seen);
  if (low !== null && pressure < low && pressure + lost >= low)
    return sign(
      'in-band-cold-below-hot',
      lost,
      q.operatingPressure.unit,
      ['a worn pump or leakage inside: rings, O-rings, seat', 'oil too thin for the unit'],
      'the pressure at a higher speed, hot: if it comes back, it is leakage and not the setting',
    );
  const run_s = q.runLength?.length_s ?? null;
  const settledLate =
    run_s !== null && q.settling.time_s !== null && q.settling.time_s > t.sagSettlingShare * run_s;
  const fell = q.drift.trend === 'falling' ? -(q.drift.overHold.value ?? 0) : 0;
  return (settledLate && q.drift.trend !== 'rising') || fell > t.sagInHoldShare * pressure
    ? sign(
        'sags-with-heat',
        lost,
        q.operatingPressure.unit,
        ['the normal thinning of oil as it warms', 'leakage inside, where the fall is large for this type'],
        'the pressure at level heat: if it stands, the fall was thinning; and sister units on the same oil',
      )
    : null;
};

const fallsAtLevelHeat: Look = ({ q, pressure }) => {
  const { temperatureCorrectedSlope: slope, temperatureCorrectedHigh: high, trend } = q.drift;
  const { start_s, end_s } = q.operatingPressure;
  // A step that stays bends the slope: it is a sign of its own.
  if (
    slope === null ||
    slope >= 0 ||
    pressure === null ||
    start_s === null ||
    end_s === null ||
    q.changePoint
  )
    return null;
  const certain = high === undefined || high === null ? trend === 'falling' : high < 0;
  return certain && (-slope * (end_s - start_s)) / 3600 > t.fallShare * pressure
    ? sign(
        'falls-at-level-heat',
        slope,
        q.drift.unit,
        ['leakage that grows: rings, O-rings, wear of the seat', 'a strainer that clogs'],
        'strainer and oil after the run; the same hold once more',
      )
    : null;
};

const creepsUp: Look = ({ q }) =>
  q.drift.trend === 'rising' && q.drift.slope !== null && (q.drift.low ?? -1) > 0
    ? sign(
        'creeps-up',
        q.drift.slope,
        q.drift.unit,
        [
          'a relief that sticks or is slowly blocked',
          'oil that cools',
          'a gauge whose zero moves as it warms',
        ],
        'zero of the gauge before and after the run; oil temperature over the hold',
      )
    : null;

/** Clear of any doubt by U where there is one. */
function beyondBand(seen: Seen): 'low' | 'high' | null {
  const { low, high } = bandIn(seen);
  const u = seen.q.operatingPressure.expandedUncertainty ?? 0;
  if (seen.pressure === null) return null;
  if (low !== null && seen.pressure + u < low) return 'low';
  return high !== null && seen.pressure - u > high ? 'high' : null;
}

const lowThroughout: Look = (seen) => {
  const { low } = bandIn(seen);
  const lost = lostWithHeat(seen) ?? 0;
  if (beyondBand(seen) !== 'low' || seen.pressure === null || low === null || seen.pressure + lost >= low)
    return null;
  return sign(
    'low-throughout',
    seen.pressure - low,
    seen.q.operatingPressure.unit,
    ['shims missing, or a weak or short spring', 'accumulator rings or piston', 'an air lock or a worn pump'],
    'free length of the spring; whether the pressure rises with speed',
  );
};

const highAndLevel: Look = (seen) => {
  const { high } = bandIn(seen);
  if (
    beyondBand(seen) !== 'high' ||
    seen.pressure === null ||
    high === null ||
    seen.q.speedDependence?.kind === 'in-proportion'
  )
    return null;
  return sign(
    'high-and-level',
    seen.pressure - high,
    seen.q.operatingPressure.unit,
    ['too many shims', 'the wrong spring', 'oil thicker than the unit is meant for'],
    'stack height and the spring against the manual; the oil in it',
  );
};

const followsSpeed: Look = ({ q }) =>
  q.speedDependence?.kind === 'in-proportion' && q.speedDependence.exponent !== null
    ? sign(
        'follows-speed',
        q.speedDependence.exponent,
        '1',
        ['a relief that is stuck shut', 'a blocked passage to the relief'],
        'speed held level: the pressure then stands; the relief taken out and looked at',
      )
    : null;

const settlesLate: Look = ({ q, facts }) => {
  const run_s = q.runLength?.length_s ?? null;
  const time_s = facts.settlingRecorded_s === undefined ? q.settling.time_s : facts.settlingRecorded_s;
  return time_s !== null && run_s !== null && time_s > t.lateSettlingShare * run_s
    ? sign(
        'settles-late',
        time_s,
        's',
        [
          'oil that warms slowly on an unloaded bench',
          'air that works its way out',
          'a relief that sticks and frees itself',
        ],
        'the oil temperature against the pressure; the same run started warm',
      )
    : null;
};

const stepThatStays: Look = ({ q }) =>
  q.changePoint
    ? sign(
        'step-that-stays',
        q.changePoint.after - q.changePoint.before,
        q.changePoint.unit,
        ['dirt that came under the seat or off it', 'a shim or spring that moved', 'a sensor or its supply'],
        'the gauge at rest before and after; whether other channels stepped with it',
      )
    : null;

const neverSettles: Look = ({ q }) =>
  q.settling.time_s === null &&
  q.settling.finalValue !== null &&
  q.drift.slope !== null &&
  q.drift.trend !== 'none' &&
  !q.changePoint
    ? sign(
        'never-settles',
        q.drift.slope,
        q.drift.unit,
        [
          'oil that is still warming',
          'leakage that grows: rings, O-rings, seat',
          'a relief that sticks and hunts',
        ],
        'the oil temperature over the same time; the same run carried on',
      )
    : null;

const heatsLittle: Look = ({ q, spec }) => {
  const low = spec?.operatingTemperature?.low ?? null;
  const { finalTemperature, unit } = q.warmUp;
  if (low === null || finalTemperature === null || !spec?.operatingTemperature) return null;
  const missing = convert(low, spec.operatingTemperature.unit, unit) - finalTemperature;
  return missing > 0
    ? sign(
        'would-not-get-warm',
        missing / convertDifference(1, 'degC', unit),
        'degC',
        ['an unloaded bench that puts in little heat', 'a probe that is not in the oil'],
        'a heater or a blanket; the probe against another thermometer',
      )
    : null;
};

/** Signs in level, drift, heat and settling. */
export const pressureSigns: readonly Look[] = [
  sagsWithHeat,
  fallsAtLevelHeat,
  creepsUp,
  lowThroughout,
  highAndLevel,
  followsSpeed,
  settlesLate,
  neverSettles,
  stepThatStays,
  heatsLittle,
];
