import type { Assessment, CriterionId } from '#formats/assessment.ts';
import {
  decimalsForUncertainty,
  durationText,
  fixedText,
  shareText,
  statedText,
  uncertainText,
  withUnit,
} from '#units/number-text.ts';
import type { Row } from './text-table.ts';

/** Significant digits of a figure that has neither uncertainty nor limit. */
const DIGITS = 3;

/** A figure with its unit, three digits. */
const sized = (value: number, unit: string): string =>
  withUnit(statedText(Number(value.toPrecision(DIGITS))), unit);

/** A figure with its interval, to the second digit of the interval's half-width: "−0.16 (−0.60 to 0.00) psi/h". */
function withInterval(value: number, low: number, high: number, unit: string): string {
  const decimals = high > low ? decimalsForUncertainty((high - low) / 2) : 2;
  const text = (number: number): string => fixedText(number, decimals);
  return withUnit(`${text(value)} (${text(low)} to ${text(high)})`, unit);
}

/** What was found beyond the limits: quantities that no criterion of this assessment shows, and that have a value. */
export function figureRows({ quantities, criteria }: Assessment): Row[] {
  const shown = new Set<CriterionId>(criteria.map(({ id }) => id));
  const {
    operatingPressure: pressure,
    holdRange,
    timeInBand,
    drift,
    settling,
    warmUp,
    holdTemperature: oil,
    temperatureSensitivity: sensitivity,
    ripple,
    changePoint,
    peakPressure,
    releasedPressure,
    leakDown,
    solenoidCurrent,
  } = quantities;
  const rows: [string, string | null][] = [
    [
      'operating pressure',
      shown.has('operating-pressure') || pressure.value === null
        ? null
        : pressure.expandedUncertainty === null || pressure.expandedUncertainty === 0
          ? sized(pressure.value, pressure.unit)
          : uncertainText(pressure.value, pressure.expandedUncertainty, pressure.unit),
    ],
    [
      'lowest and highest of the hold',
      holdRange.min === null || holdRange.max === null
        ? null
        : `${sized(holdRange.min, holdRange.unit)}, ${sized(holdRange.max, holdRange.unit)}`,
    ],
    [
      'time in band',
      shown.has('time-in-band') || timeInBand.inside === null
        ? null
        : `${shareText(timeInBand.inside)} inside, ${shareText(timeInBand.above ?? 0)} above, ${shareText(timeInBand.below ?? 0)} below`,
    ],
    [
      'drift',
      drift.slope === null || drift.low === null || drift.high === null
        ? null
        : `${withInterval(drift.slope, drift.low, drift.high, drift.unit)}${drift.trend === 'none' || drift.trend === null ? ', no trend' : `, ${drift.trend}`}`,
    ],
    [
      'step that stays',
      changePoint
        ? `${sized(changePoint.before, changePoint.unit)} to ${sized(changePoint.after, changePoint.unit)}`
        : null,
    ],
    [
      'settled after',
      shown.has('settling') || settling.time_s === null ? null : durationText(settling.time_s),
    ],
    [
      'warm-up time constant',
      warmUp.timeConstant_s === null
        ? null
        : `${durationText(warmUp.timeConstant_s)}${warmUp.finalTemperature === null ? '' : `, towards ${sized(warmUp.finalTemperature, warmUp.unit)}`}`,
    ],
    [
      'oil over the hold',
      shown.has('hold-temperature') || oil.mean === null ? null : `${sized(oil.mean, oil.unit)} on average`,
    ],
    [
      'pressure with oil temperature',
      sensitivity.value === null || sensitivity.low === null || sensitivity.high === null
        ? null
        : withInterval(sensitivity.value, sensitivity.low, sensitivity.high, sensitivity.unit),
    ],
    [
      'peak pressure',
      shown.has('peak-pressure') || peakPressure.value === null
        ? null
        : sized(peakPressure.value, peakPressure.unit),
    ],
    [
      'ripple, peak to peak',
      shown.has('ripple') || ripple.peakToPeak === null ? null : sized(ripple.peakToPeak, ripple.unit),
    ],
    [
      'released pressure',
      shown.has('released-pressure') || releasedPressure.value === null
        ? null
        : sized(releasedPressure.value, releasedPressure.unit),
    ],
    [
      'leak-down to half',
      shown.has('leak-down') || leakDown.halfTime_s === null ? null : durationText(leakDown.halfTime_s),
    ],
    [
      'solenoid current, highest',
      shown.has('solenoid-current') || solenoidCurrent.max === null
        ? null
        : sized(solenoidCurrent.max, solenoidCurrent.unit),
    ],
  ];
  return rows.flatMap(([name, text]) => (text === null ? [] : [{ cells: [{ text: name }, { text }] }]));
}
