import { SetAside } from '#formats/log.ts';
import type { Remark } from '#formats/remark.ts';
import { mannKendall } from '#statistics/mann-kendall.ts';
import { median } from '#statistics/median.ts';
import { fixedText, unitLabel, withUnit } from '#units/number-text.ts';
import { bandRemarks } from './band-remarks.ts';
import type { Found } from './quantities.ts';
import { wordsFor, type Words } from './remark-text.ts';
import type { Situation } from './situation.ts';
import { bandShares } from './time-in-band.ts';
import type { Solenoid } from './solenoid.ts';
import { at, rowFrom, within, type Rows } from './timeline.ts';

/** A run whose final value is under this share of the band's low limit is far below it. */
const FAR_BELOW_SHARE = 0.5;
/** Less of the log than this judged: it is said, and joining is offered. */
const JUDGED_SHARE = 0.5;
/** A change over the hold smaller than this share of the tolerance is level for all purposes. */
const LEVEL_SHARE = 0.25;
/** So many measured rises, and so sure, before engaging is said to take longer from time to time. */
const RISES_NEEDED = 5;
const RISE_SIGNIFICANCE = 0.01;

/** Sensors that a grave finding puts in doubt: nothing is said of a run from readings that are none. */
export interface Doubts {
  /** The pressure's readings. */
  pressure: boolean;
  /** What the pressure column is at all. */
  column: boolean;
  oil: boolean;
}

type Maker = (situation: Situation, found: Found, words: Words, doubts: Doubts) => Remark | null;

const remark = (code: string, text: string): Remark => ({ code, text });

const noRun: Maker = ({ unjudged, reading, band, oil, timeline }, _found, words, doubts) => {
  switch (unjudged) {
    case 'no-readings':
      return remark('no-readings', 'The pressure column has no usable reading, so nothing is judged.');
    case 'no-engagement':
      if (reading.level.level !== null)
        return remark(
          'no-engagement',
          `The pressure reached ${words.pressure(reading.level.sustained ?? 0)}, but for less than 2 s together in a log of ${words.count(timeline.time_s.length, 'reading', 'readings')} over ${words.duration(at(timeline.time_s, timeline.time_s.length - 1))}: that is no engagement, so nothing is judged.`,
        );
      return remark(
        'no-engagement',
        `${reading.flags.includes(SetAside.outOfRange) ? "Within the gauge's range the pressure" : 'The pressure'} never held more than ${words.pressure(reading.level.sustained ?? 0)} for 10 s${band?.low == null ? '' : `, under a tenth of ${words.pressure(band.low)}`}: there is no engagement in this log, so nothing is judged.`,
      );
    case 'never-warm':
      return remark(
        'never-warm',
        doubts.oil
          ? `Whether the oil reached operating temperature (${words.temperature(oil?.operating.low ?? 0)}) is not known, since its readings are none: what is judged warm is not assessed.`
          : `The oil never reached operating temperature (${words.temperature(oil?.operating.low ?? 0)}): cold is not a result, so what is judged warm is not assessed. Run on until the oil is warm.`,
      );
    case 'empty':
    case 'no-run':
    case null:
      return null;
  }
};

const cutLog: Maker = ({ timeline, run }, _found, words) =>
  timeline.cut && run
    ? remark(
        'longest-part-judged',
        `The clock jumped by no whole number of hours, which cuts the log: its longest part is judged, from ${words.duration(at(timeline.time_s, timeline.part.from))} to ${words.duration(at(timeline.time_s, timeline.part.to - 1))}.`,
      )
    : null;

const farBelow: Maker = ({ run, band }, _found, words) =>
  run && band?.low != null && run.finalValue < FAR_BELOW_SHARE * band.low
    ? remark(
        'run-far-below-band',
        `The pressure stood at ${words.pressure(run.finalValue)}, under half of the low limit ${words.pressure(band.low)}: it is judged as a run all the same.`,
      )
    : null;

const partJudged: Maker = ({ run, reading, timeline }, _found, words) => {
  if (!run) return null;
  const whole_s = at(timeline.time_s, timeline.time_s.length - 1),
    share = (run.end_s - run.start_s) / whole_s;
  if (!(share < JUDGED_SHARE)) return null;
  const others = reading.pressured.length - run.engagements.length;
  return remark(
    'part-of-log-judged',
    `${words.share(share)} of the log is judged: the ${run.engagements.length > 1 ? 'joined engagements' : 'longest engagement'}, from ${words.duration(run.start_s)} to ${words.duration(run.end_s)}.${others > 0 ? ` There ${others === 1 ? 'is one more engagement' : `are ${others} more engagements`}; they can be joined into one run.` : ''}`,
  );
};

const joined: Maker = ({ run }) =>
  run && run.engagements.length > 1
    ? remark(
        'engagements-joined',
        `The run is made of ${run.engagements.length} engagements; the stretches between them are not judged and do not count as running.`,
      )
    : null;

const gaveWay: Maker = ({ run, lost }, _found, words) =>
  run?.gaveWay === true && lost === null
    ? remark(
        'gave-way',
        `The pressure fell below nine tenths of its final value (${words.pressure(run.finalValue)}) more than a minute before the run ended and did not come back.`,
      )
    : null;

/** When and how far the pressure was lost, as a sentence; it also says why the operating pressure does not pass. */
const lostPressure: Maker = ({ lost, held }, _found, words) => {
  if (!lost) return null;
  const span = `From ${words.duration(lost.from_s)} to ${words.duration(lost.to_s)}`,
    level = words.pressure(lost.level);
  switch (lost.kind) {
    case 'while-on':
      return remark(
        'pressure-lost',
        `${span} the pressure was lost while ${held ? 'the shaft turned' : 'the solenoid was on'}: it stood at ${level}. A unit that gives way is not released, so that time is judged with the rest.`,
      );
    case 'stays-up':
      return remark(
        'pressure-lost',
        `${span} the pressure stood at ${level}, far below its level and far above released, and nothing in the log says that the unit was released: it may have given way. If it was released there, set the end of the hold by hand.`,
      );
    case 'gone-while-on':
      return remark(
        'pressure-lost',
        `${span} the pressure was gone (${level}) with the solenoid on, and the log has no shaft speed: whether the bench was stopped or the unit gave way is not known. If it was stopped, set the end of the hold by hand.`,
      );
  }
};

const neverSteady: Maker = ({ hold, oil, input }) =>
  hold?.neverSteady === true
    ? remark(
        'never-steady',
        oil && oil.operating.low !== null
          ? 'The pressure was never within tolerance of its final value for 10 min together: the hold starts when the oil reached operating temperature.'
          : `The pressure was never within tolerance of its final value for 10 min together and ${input.spec?.operatingTemperature && !oil ? 'the log has no oil temperature' : 'no operating temperature is known'}: the hold is the second half of the run.`,
      )
    : null;

const noOil: Maker = ({ hold, oil, input }) =>
  hold && !oil && input.spec?.operatingTemperature
    ? remark(
        'warmth-not-known',
        'The log has no oil temperature: whether the unit was warm is not known, and the hold was found by the pressure alone.',
      )
    : null;

const paused: Maker = ({ hold, oil }, _found) =>
  hold && hold.pauses > 0
    ? remark(
        'hold-paused',
        `The hold pauses ${hold.pauses === 1 ? 'once' : `${hold.pauses} times`}, after a gap, a step of the clock or a release, until ${oil && oil.operating.low !== null ? 'the oil is back at operating temperature' : 'the pressure is steady again'}.`,
      )
    : null;

const noisy: Maker = (_situation, { mean }) =>
  mean?.correlated === true
    ? remark(
        'hold-too-short-for-its-noise',
        'The pressure wanders or bends so slowly that the hold is too short for it: its parts are not independent, and the scatter in the uncertainty is likely too small. A longer hold would tell.',
      )
    : null;

const noUncertainty: Maker = (_situation, { quantities: { operatingPressure } }) =>
  operatingPressure.value !== null && operatingPressure.expandedUncertainty === null
    ? remark(
        'no-uncertainty',
        `The operating pressure has no uncertainty: ${operatingPressure.reason ?? ''}.`,
      )
    : null;

const endOutside: Maker = ({ hold, band, smoothed, timeline, run }, { quantities }, words) => {
  const mean = quantities.operatingPressure.value;
  if (!hold || !band || !run || mean === null) return null;
  const inside = (band.low === null || mean >= band.low) && (band.high === null || mean <= band.high);
  const from = rowFrom(timeline.time_s, hold.end_s - 0.1 * (hold.end_s - hold.start_s));
  const pieces = within(hold.pieces, { from, to: run.rows.to });
  const shares = bandShares(timeline, { ...hold, pieces }, smoothed, band);
  if (!inside || !shares || !(shares.inside < 0.5)) return null;
  const outside = shares.below + shares.above;
  const side = shares.above < 0.05 * outside ? 'below' : shares.below < 0.05 * outside ? 'above' : 'outside';
  return remark(
    'ends-outside-band',
    `The mean of the hold, ${words.pressure(mean)}, lies inside the band, but in its last tenth the pressure was ${side} it for ${words.share(outside)} of the time.`,
  );
};

const step: Maker = (_situation, { step: found }, words) =>
  found
    ? remark(
        'step-that-stays',
        `${words.place(found.at_s)} the pressure stepped from ${words.pressure(found.before)} to ${words.pressure(found.after)} and stayed there. The slope is that of the parts before and after it; the change over the hold includes it.`,
      )
    : null;

/** Falls with heat and is level at level heat, or keeps falling at constant heat: one plain sentence. */
const thinning: Maker = ({ run, hold, tolerance, oil, unit }, { quantities }, words, doubts) => {
  // What an oil probe in the air reads says nothing of the oil.
  if (doubts.oil) return null;
  const { value, low, high } = quantities.temperatureSensitivity;
  const {
    temperatureCorrectedSlope: slope,
    temperatureCorrectedLow,
    temperatureCorrectedHigh,
  } = quantities.drift;
  if (
    !run ||
    !hold ||
    !oil ||
    tolerance === null ||
    value === null ||
    low === null ||
    high === null ||
    slope === null
  )
    return null;
  const hold_h = (hold.end_s - hold.start_s) / 3600;
  const material =
    Math.abs(slope) * hold_h >= LEVEL_SHARE * tolerance &&
    ((temperatureCorrectedLow ?? 0) > 0 || (temperatureCorrectedHigh ?? 0) < 0);
  // A pressure that does not go with heat in a straight line leaves a slope that is none: the hold itself must show it too.
  const moves = material && quantities.drift.trend === (slope < 0 ? 'falling' : 'rising');
  if (material && !moves) return null;
  const perDegree = withUnit(fixedText(Math.abs(value), 2), `${unit}/${oil.unit}`);
  const warmed = Math.abs((quantities.holdTemperature.mean ?? NaN) - at(oil.smoothed, run.rows.from));
  const heat = !(Math.abs(value) * warmed >= LEVEL_SHARE * tolerance)
    ? null
    : high < 0
      ? `falls by ${perDegree} of oil temperature`
      : low > 0
        ? `rises by ${perDegree} of oil temperature`
        : null;
  if (moves)
    return remark(
      slope < 0 ? 'falls-at-constant-heat' : 'rises-at-constant-heat',
      `At constant oil temperature the pressure ${slope < 0 ? 'keeps falling' : 'keeps rising'}, by ${words.pressure(Math.abs(slope))} an hour${heat === null ? '' : `; besides it ${heat}`}: that is not the oil thinning.`,
    );
  return heat === null
    ? null
    : remark(
        'goes-with-heat',
        `The pressure ${heat}; what it moved is explained by the oil's temperature${high < 0 ? ', since oil thins as it warms' : ''}, and at level heat it is level.`,
      );
};

const stillMoving: Maker = (_situation, { late: moving }, words) => {
  return moving
    ? remark(
        'still-moving-at-the-end',
        `The pressure was still ${moving.change < 0 ? 'falling' : 'rising'} at the end: ${words.pressure(Math.abs(moving.change))} in the last ${words.duration(moving.over_s)}. What is given as its final value is no end value.${moving.end === null ? ' It shows no end yet that it is on its way to.' : ` It is on its way to ${words.pressure(moving.end.value)}, and the run would have to go on for about ${words.duration(moving.end.in_s)} to come within half of the settling tolerance of that.`}`,
      )
    : null;
};

const notWarmYet: Maker = ({ oil }, { quantities: { warmUp } }, words, doubts) =>
  oil &&
  !doubts.oil &&
  warmUp.stillToGo_s != null &&
  warmUp.stillToGo_s > 0 &&
  warmUp.finalTemperature !== null
    ? remark(
        'oil-still-warming',
        `The oil was still warming at the end: it is on its way to ${words.temperature(warmUp.finalTemperature)}, and the run would have to go on for about ${words.duration(warmUp.stillToGo_s)} to come within one degree of that.`,
      )
    : null;

const aliased: Maker = (_situation, { mayBeAliased }) =>
  mayBeAliased
    ? remark(
        'ripple-may-be-aliased',
        'The log has no shaft speed: the frequency of the ripple may be an alias of a faster one.',
      )
    : null;

const lengthening: Maker = (_situation, { quantities: { engagements } }, words) => {
  const rises = engagements.flatMap(({ rise_s, recovery_s }) => rise_s ?? recovery_s ?? []);
  const test = rises.length < RISES_NEEDED ? null : mannKendall(rises);
  if (!test || !(test.s > 0 && test.probability < RISE_SIGNIFICANCE)) return null;
  // The same medians as the sign's ratio, so that one number stands on the record.
  const third = Math.ceil(rises.length / 3);
  const seconds = (some: readonly number[]): string =>
    withUnit(fixedText(median(Float64Array.from(some)), 2), 's');
  return remark(
    'engages-more-slowly',
    `Engaging takes longer from time to time: ${seconds(rises.slice(0, third))} in the median of the first ${third}, ${seconds(rises.slice(-third))} in that of the last ${third} of ${words.count(rises.length, 'engagement', 'engagements')}.`,
  );
};

/** Off for so much of an engagement while it switches on elsewhere. */
const OFF_SHARE = 0.9;
const isOffOver = ({ on }: Solenoid, { from, to }: Rows): boolean => {
  let off = 0;
  for (let i = from; i < to; i++) if (on[i] === 0) off++;
  return off >= OFF_SHARE * (to - from);
};

const solenoidAlone: Maker = ({ solenoid, reading, held, timeline }, _found, words) => {
  if (!solenoid || held) return null;
  const lonely = solenoid.edges.filter(
    ({ row, on }) => on && !reading.pressured.some(({ rows }) => row < rows.to && row + 3 >= rows.from),
  );
  const [first] = lonely;
  const [inverted] = first ? reading.pressured.filter(({ rows }) => isOffOver(solenoid, rows)) : [];
  if (inverted)
    return remark(
      'solenoid-looks-inverted',
      `The solenoid reads off while the pressure is up (${words.place(at(timeline.time_s, inverted.rows.from))}) and on while it is down: its channel looks inverted. Engaging and releasing were told by the pressure.`,
    );
  return first
    ? remark(
        'solenoid-without-pressure',
        `The solenoid was switched on ${words.count(lonely.length, 'time', 'times')} without the pressure rising, first ${words.place(at(timeline.time_s, first.row))}.`,
      )
    : null;
};

const staysEngaged: Maker = ({ solenoid, reading, held, timeline }, _found, words) => {
  if (!solenoid || held) return null;
  for (const { rows, pressureFrom, toSolenoid } of reading.pressured) {
    const last = solenoid.edges.findLast(({ row }) => row > pressureFrom && row < rows.to);
    if (toSolenoid || !last || last.on) continue;
    return remark(
      'stays-engaged-without-solenoid',
      `${words.place(at(timeline.time_s, last.row))} the solenoid was switched off, and the pressure stayed up for ${words.duration(at(timeline.time_s, rows.to - 1) - at(timeline.time_s, last.row))} after that.`,
    );
  }
  return null;
};

const speed: Maker = (_situation, { quantities: { speedDependence } }) =>
  speedDependence?.kind === 'in-proportion'
    ? remark(
        'goes-with-speed',
        `The pressure goes with the shaft speed (exponent ${fixedText(speedDependence.exponent ?? 0, 2)}): the relief is not in control.`,
      )
    : speedDependence?.kind === 'level'
      ? remark(
          'level-with-speed',
          `The pressure is level against the shaft speed (exponent ${fixedText(speedDependence.exponent ?? 0, 2)}): the relief is in control.`,
        )
      : null;

const overdue: Maker = ({ input, reading }) => {
  const due = reading.rigChannel?.dueOn,
    day = /^\d{4}-\d{2}-\d{2}/.exec(input.log.start ?? '')?.[0];
  return due !== undefined && day !== undefined && day > due
    ? remark(
        'gauge-overdue',
        `The gauge's calibration was due on ${due}; the run is of ${day}. What the rig file says of its accuracy may no longer hold.`,
      )
    : null;
};

const zeroTaken: Maker = ({ reading, unit }, { quantities: { zeroAtRest } }, words) =>
  reading.rigChannel?.subtractZeroAtRest === true
    ? zeroAtRest.value === null
      ? remark(
          'zero-not-subtracted',
          `The rig file asks to take off the reading at rest, but there is none: ${zeroAtRest.reason ?? ''}.`,
        )
      : remark(
          'zero-subtracted',
          `The reading at rest, ${words.pressure(zeroAtRest.value)}, was taken off every pressure, as the rig file asks (${unitLabel(unit)}).`,
        )
    : null;

const byHand: Maker = ({ input }, _found, words) =>
  input.choices.length > 0
    ? remark(
        'chosen-by-hand',
        `What is judged was changed by hand: ${words.count(input.choices.length, 'choice', 'choices')}, each listed with who, when and why.`,
      )
    : null;

/** Of the record, the clock and hand-made choices: said in any case. */
const ofTheRecord: readonly Maker[] = [byHand, cutLog, overdue, zeroTaken];
/** Of the run as such. */
const ofTheRun: readonly Maker[] = [noRun, partJudged, joined, farBelow, solenoidAlone, staysEngaged];
/** Of how the pressure went. */
const ofThePressure: readonly Maker[] = [
  speed,
  gaveWay,
  lostPressure,
  noOil,
  neverSteady,
  paused,
  endOutside,
  ...bandRemarks,
  step,
  thinning,
  stillMoving,
  notWarmYet,
  noisy,
  noUncertainty,
  lengthening,
  aliased,
];

/** What a reader of the result should know about the run, one sentence or two each, made from facts. */
export function remarksOf(situation: Situation, found: Found, doubts: Doubts): Remark[] {
  const words = wordsFor(situation);
  const makers = [
    ...(doubts.column ? [] : ofTheRun),
    ...(doubts.pressure ? [] : ofThePressure),
    ...ofTheRecord,
  ];
  return makers.flatMap((make) => make(situation, found, words, doubts) ?? []);
}
