import type { Quantities } from '#formats/assessment.ts';
import { SetAside } from '#formats/log.ts';
import { statedText, withUnit } from '#units/number-text.ts';
import type { StayingStep } from './change-point.ts';
import {
  driftAndSensitivity,
  holdRange,
  holdTemperature,
  operatingPressure,
  timeInBand,
} from './hold-quantities.ts';
import { engagementFigures } from './engagement-figures.ts';
import { eachMarked } from './marked-rows.ts';
import { lateMovement, type LateMovement } from './late-movement.ts';
import { leakDown } from './leak-down.ts';
import type { HoldMean } from './operating-pressure.ts';
import { peakOf } from './peak.ts';
import { plateauSpread } from './plateau-spread.ts';
import type { HoldApart } from './quantities-apart.ts';
import { releasedPressure, zeroAtRest } from './released-pressure.ts';
import { rippleOf } from './ripple.ts';
import {
  recordCoverageQuantity,
  runLengthQuantity,
  settlingQuantity,
  warmUpQuantity,
} from './run-quantities.ts';
import type { Situation } from './situation.ts';
import { withRangeEnd } from './set-aside.ts';
import { solenoidCurrent } from './solenoid-current.ts';
import { speedDependence } from './speed-dependence.ts';
import { at, without, type Rows } from './timeline.ts';

/** All quantities of a run, and what was found on the way that remarks need. */
export interface Found {
  quantities: Quantities;
  mean: HoldMean | null;
  step: StayingStep | null;
  /** Height of the drift's line at the hold's end; null without one. */
  driftAtHoldEnd: number | null;
  /** The ripple's frequency is known, the shaft's is not. */
  mayBeAliased: boolean;
  /** The pressure was still moving at the end. */
  late: LateMovement | null;
}

/**
 * Works out every quantity of definitions.md; what the log can't show is null with its reason.
 * @param awaitApart waits for those that were begun elsewhere; gives null for none
 */
export function quantitiesOf(situation: Situation, awaitApart: () => HoldApart | null): Found {
  const { unit } = situation;
  const operating = operatingPressure(situation),
    { found, sensitivity } = driftAndSensitivity(situation);
  const speed = speedDependence(situation),
    late = lateMovement(situation);
  const { engagements, peak } = ofEveryReading(situation, speed?.kind === 'in-proportion');
  const others = {
    holdRange: holdRange(situation),
    timeInBand: timeInBand(situation),
    settling: settlingQuantity(situation, late),
    holdTemperature: holdTemperature(situation),
    releasedPressure: releasedPressure(situation),
    zeroAtRest: zeroAtRest(situation),
    leakDown: leakDown(situation),
    runLength: runLengthQuantity(situation),
    recordCoverage: recordCoverageQuantity(situation),
  };
  // What is worked out elsewhere at the same time comes last.
  const current = situation.awaitCurrent()?.solenoidCurrent ?? solenoidCurrent(situation);
  const apart = awaitApart();
  const { ripple, mayBeAliased } = apart?.ripple ?? rippleOf(situation);
  return {
    mean: operating.mean,
    step: found.step,
    driftAtHoldEnd: found.atHoldEnd,
    mayBeAliased,
    late,
    quantities: {
      operatingPressure: operating.quantity,
      holdRange: others.holdRange,
      peakPressure: peak,
      timeInBand: others.timeInBand,
      drift: found.drift,
      ...(found.step
        ? {
            changePoint: {
              at_s: found.step.at_s,
              before: found.step.before,
              after: found.step.after,
              unit,
              probability: found.step.probability,
            },
          }
        : {}),
      settling: others.settling,
      warmUp: apart?.warmUp ?? warmUpQuantity(situation),
      holdTemperature: others.holdTemperature,
      temperatureSensitivity: sensitivity,
      ...(speed ? { speedDependence: speed } : {}),
      ripple,
      engagements,
      releasedPressure: others.releasedPressure,
      zeroAtRest: others.zeroAtRest,
      leakDown: others.leakDown,
      plateauSpread: plateauSpread(engagements, unit),
      solenoidCurrent: current,
      runLength: others.runLength,
      recordCoverage: others.recordCoverage,
    },
  };
}

/** Engagement figures and the peak; what they are read from is let go with this call. */
function ofEveryReading(
  situation: Situation,
  withSpeed: boolean,
): { engagements: Quantities['engagements']; peak: Quantities['peakPressure'] } {
  const { timeline, unit, held, reading } = situation;
  const values = beforeSpikes(situation);
  return {
    engagements: engagementFigures({
      timeline,
      values,
      asRead: values === reading.channel.values,
      unit,
      held,
      engagements: reading.engagements,
      withSpeed,
    }),
    peak: peakPressure(situation, values),
  };
}

/** Judged pressure before spikes are set aside: engagement figures and peaks are of what the gauge really read. */
function beforeSpikes({ reading }: Situation): Float64Array {
  const { judged, flags, kept } = reading;
  if (judged === kept || onlySpikes(judged, flags)) return judged;
  const values = kept.slice();
  eachMarked(flags, 0, flags.length, (row) => {
    if (flags[row] === SetAside.spike) values[row] = at(judged, row);
  });
  return values;
}

/** Whether every reading that was set aside is a spike: then every reading counts, and there is nothing to copy. */
function onlySpikes(judged: Float64Array, flags: Uint8Array): boolean {
  let others = 0;
  eachMarked(flags, 0, flags.length, (row) => {
    const value = judged[row] ?? NaN;
    if (flags[row] !== SetAside.spike && value === value) others++;
  });
  return others === 0;
}

function peakPressure(situation: Situation, read: Float64Array): Quantities['peakPressure'] {
  const { timeline, leftOut, unit } = situation;
  const whole = without([{ from: 0, to: timeline.time_s.length }], leftOut);
  const beyond = beyondTheGauge(situation, read, whole);
  if (beyond) return beyond;
  const peak = peakOf(timeline, read, whole);
  return peak
    ? { value: peak.value, unit, at_s: at(timeline.time_s, peak.row) }
    : { value: null, unit, reason: 'there are not three pressure readings together' };
}

/**
 * Three readings together that stood at the end of the gauge's range: the pressure was at least that, and how high it went is not
 * known. Without them the peak would be what was left below the end, and a limit beyond it would pass. Null where there were none.
 */
function beyondTheGauge(
  { timeline, reading, unit }: Situation,
  read: Float64Array,
  whole: readonly Rows[],
): Quantities['peakPressure'] | null {
  const { range, channel, line } = reading;
  if (!range) return null;
  const end = range.high * line.slope + line.offset;
  const withEnd = withRangeEnd(reading, range, read, end);
  const peak = withEnd === read ? null : peakOf(timeline, withEnd, whole);
  if (!peak || peak.value < end) return null;
  return {
    value: null,
    unit,
    atLeast: end,
    at_s: at(timeline.time_s, peak.row),
    reason: `the pressure stood at the end of the gauge's range (${withUnit(statedText(range.high), channel.unit ?? '')}): how high it went is not known`,
  };
}
