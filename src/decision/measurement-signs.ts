import { convert } from '#units/unit.ts';
import { sign, signThresholds, type Look } from './sign.ts';

const t = signThresholds;

const ripplesOnceATurn: Look = ({ q, facts, pressure }) => {
  const { order, peakToPeak, unit } = q.ripple;
  if (order === null || peakToPeak === null || order < t.onceATurn[0] || order > t.onceATurn[1]) return null;
  const ratio = facts.fallOverRise ?? null;
  return ratio !== null && ratio > t.fallOverRise
    ? sign(
        'saw-tooth-once-a-turn',
        ratio,
        '1',
        ['a non-return valve that leaks back', 'air in the pump chamber'],
        'the drop when the shaft stops: a sudden one points to the outlet valve as well',
      )
    : pressure !== null && peakToPeak > t.rippleShare * pressure
      ? sign(
          'ripples-once-a-turn',
          peakToPeak,
          unit,
          [
            'the stroke of a single-cam pump, normal in itself',
            'a non-return valve that leaks back, or air, where it grows when engaged',
          ],
          'the same when released; the ripple of sister units',
        )
      : null;
};

const currentHigh: Look = ({ q, spec }) => {
  const { max, unit } = q.solenoidCurrent;
  if (max === null || !spec?.solenoidCurrent) return null;
  return max > convert(spec.solenoidCurrent.atMost, spec.solenoidCurrent.unit, unit)
    ? sign(
        'solenoid-current-high',
        max,
        unit,
        [
          'a plunger that is not home',
          'points that do not open, or a wrong adjustment: the coil then burns',
          'a coil that is partly shorted or of another type',
        ],
        'the current one second after engaging; the travel of the plunger',
      )
    : null;
};
const currentMissing: Look = ({ q, facts }) => {
  const causes = ['an open circuit or a fuse', 'a current sensor that is not connected'];
  const check = 'the current with the command on, by another meter';
  const commands = facts.commandsWithoutCurrent ?? 0;
  if (commands > 0) return sign('solenoid-current-missing', commands, '1', causes, check);
  const { mean, unit } = q.solenoidCurrent;
  return mean !== null && q.engagements.length > 0 && convert(mean, unit, 'A') < t.noCurrent_A
    ? sign('solenoid-current-missing', mean, unit, [...causes, 'a unit held engaged by other means'], check)
    : null;
};

const zeroOff: Look = ({ q, pressure }) => {
  const { value, unit } = q.zeroAtRest;
  return value !== null && pressure !== null && Math.abs(value) > t.zeroShare * pressure
    ? sign(
        'zero-off-at-rest',
        value,
        unit,
        [
          'a shifted zero of the transducer, often the first sign of pressure spikes',
          'a range set wrongly in the logger',
          'pressure left in the unit',
        ],
        'the gauge with the line open to the air',
      )
    : null;
};

const clipped: Look = ({ facts }) =>
  facts.clippedShare !== undefined && facts.clippedShare !== null && facts.clippedShare > t.clippedShare
    ? sign(
        'clipped-gauge',
        facts.clippedShare,
        '1',
        ['a pressure beyond the range of the gauge', 'a range set wrongly in the logger'],
        'a gauge of a larger range',
      )
    : null;
const noisy: Look = ({ q, facts, pressure }) =>
  facts.noise !== undefined &&
  facts.noise !== null &&
  pressure !== null &&
  facts.noise > t.noiseShare * pressure
    ? sign(
        'noise-without-a-period',
        facts.noise,
        q.operatingPressure.unit,
        ['air or foam in the oil: level too low, too high, or the wrong oil', 'electrical noise'],
        'the oil as it comes out; whether other channels are noisy in the same samples',
      )
    : null;
const stepsWithSolenoid: Look = ({ q, facts, pressure }) =>
  facts.stepWithSolenoid !== undefined &&
  facts.stepWithSolenoid !== null &&
  pressure !== null &&
  Math.abs(facts.stepWithSolenoid) > t.stepShare * pressure
    ? sign(
        'steps-with-the-solenoid',
        facts.stepWithSolenoid,
        q.operatingPressure.unit,
        ['a supply that sags when the solenoid draws, read as pressure by a ratiometric sensor'],
        'the supply voltage; whether the temperature steps in the same sample',
      )
    : null;

/** Signs in ripple, solenoid and the measurement itself. */
export const measurementSigns: readonly Look[] = [
  ripplesOnceATurn,
  currentHigh,
  currentMissing,
  zeroOff,
  clipped,
  noisy,
  stepsWithSolenoid,
];
