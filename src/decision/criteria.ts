import type { CriterionId, Quantities } from '#formats/assessment.ts';
import { rounded } from '#formats/number.ts';
import type { Spec } from '#formats/spec.ts';
import { pressureFactor } from '#units/pressure.ts';
import { durationText } from '#units/number-text.ts';
import { convert, convertDifference } from '#units/unit.ts';
import type { Because, Draft } from './draft.ts';
import {
  engagementDip,
  engagementRecovery,
  engagementRise,
  fallAfterRelease,
} from './engagement-criteria.ts';
import type { ChannelFacts, DecisionFacts, FindingReach } from './facts.ts';
import {
  atLeast,
  atMost,
  channelLevel,
  draft,
  judgeLevel,
  judgeSimple,
  maybeRounded,
  notAssessed,
  type Shape,
} from './judged.ts';
import {
  bandRule,
  channelRule,
  guardedVerdict,
  guardFactorOf,
  simpleVerdict,
  type DecisionRule,
} from './rule.ts';

/** Everything one criterion is made from. */
export interface Judgement {
  quantities: Quantities;
  spec: Spec;
  facts: DecisionFacts;
}

type Maker = (judgement: Judgement) => Draft | null;

/** Whether half or more of the variance behind U is the gauge's. */
function gaugeLeads({ stated, typeBExpanded }: ChannelFacts, expanded: number | null): boolean {
  return (
    stated &&
    typeBExpanded !== null &&
    expanded !== null &&
    2 * typeBExpanded * typeBExpanded >= expanded * expanded
  );
}

const operatingPressure: Maker = ({ quantities, spec, facts }) => {
  const q = quantities.operatingPressure,
    { unit } = spec.pressureBand,
    factor = pressureFactor(q.unit, unit);
  const scaled = (value: number | null): number | null => (value === null ? null : value * factor);
  const shape = {
    id: 'operating-pressure' as const,
    unit,
    limits: { low: spec.pressureBand.low ?? null, high: spec.pressureBand.high ?? null },
    rule: bandRule(spec, facts.pressure.stated),
    gaugeStated: facts.pressure.stated,
    gaugeLeads: gaugeLeads(facts.pressure, scaled(q.expandedUncertainty)),
  };
  const made = judgeLevel(
    shape,
    {
      value: scaled(q.value),
      expanded: scaled(q.expandedUncertainty),
      standard: scaled(q.standardUncertainty),
      degreesOfFreedom: q.effectiveDegreesOfFreedom,
      reason: q.reason,
    },
    guardFactorOf(spec),
  );
  const few = facts.pressureLost ?? tooLittle(facts);
  return made.verdict === 'pass' && few !== null ? notAssessed(shape, few, made.value) : made;
};

/** With fewer readings, or of so short a time, a unit is not passed (docs/definitions.md, "Decisions"). */
const READINGS_TO_PASS = 20;
const TIME_TO_PASS_s = 5;

/** Why the hold is too little to pass on; null where it is enough. Out of its band a unit fails on little, too. */
function tooLittle({ holdReadings, holdRecorded_s }: DecisionFacts): string | null {
  if (holdReadings !== undefined && holdReadings < READINGS_TO_PASS)
    return `the hold has only ${holdReadings} valid ${holdReadings === 1 ? 'reading' : 'readings'}; to pass needs ${READINGS_TO_PASS}`;
  if (holdRecorded_s !== undefined && holdRecorded_s < TIME_TO_PASS_s)
    return `the hold lasted ${durationText(holdRecorded_s)}; to pass needs ${TIME_TO_PASS_s} s`;
  return null;
}

/**
 * Time in band: simple by the share as read; guarded by the shares with the limits drawn in (for a pass) and pushed out (for a fail).
 * Without a known UB the guard is nothing and the share as read stands for both.
 */
const timeInBand: Maker = ({ quantities, spec, facts }) => {
  if (!spec.timeInBand) return null;
  const rule = bandRule(spec, facts.pressure.stated);
  const shape = { id: 'time-in-band' as const, unit: '1', limits: atLeast(spec.timeInBand.atLeast), rule };
  const inside = maybeRounded(quantities.timeInBand.inside);
  if (inside === null) return notAssessed(shape, quantities.timeInBand.reason);
  if (rule === 'simple') return { ...judgeSimple(shape, inside, undefined), decisionRule: rule };
  const narrowed = rounded(facts.shareInNarrowedBand ?? inside),
    widened = rounded(facts.shareInWidenedBand ?? inside),
    limit = spec.timeInBand.atLeast;
  const verdict = narrowed >= limit ? 'pass' : widened < limit ? 'fail' : 'undecided';
  const guard =
    facts.pressure.typeBExpanded === null
      ? null
      : rounded(guardFactorOf(spec) * facts.pressure.typeBExpanded);
  return draft(shape, inside, null, null, verdict, {
    kind: 'shares',
    narrowed,
    widened,
    guard,
    gaugeStated: facts.pressure.stated,
    pressureUnit: spec.pressureBand.unit,
  });
};

/** Drift: the change over the hold with its sign; under the guarded rule both ends of its interval must agree. */
const drift: Maker = ({ quantities, spec, facts }) => {
  if (!spec.drift) return null;
  const { overHold, reason, confidence } = quantities.drift;
  const limit = spec.drift.atMost,
    factor = pressureFactor(overHold.unit, spec.drift.unit);
  const rule = bandRule(spec, facts.pressure.stated);
  const shape = { id: 'drift' as const, unit: spec.drift.unit, limits: { low: -limit, high: limit }, rule };
  if (overHold.value === null) return notAssessed(shape, reason);
  const value = rounded(overHold.value * factor);
  const end = (number: number | null | undefined): number | null =>
    number === null || number === undefined ? null : rounded(number * factor);
  const low = end(overHold.low),
    high = end(overHold.high);
  const because: Because = { kind: 'interval', low, high, confidence };
  if (rule === 'simple') return draft(shape, value, null, null, simpleVerdict(value, shape.limits), because);
  if (low === null || high === null)
    return notAssessed(
      shape,
      'the rule needs an interval for the change over the hold, and there is none',
      value,
    );
  const inside = low >= -limit && high <= limit,
    beyond = high < -limit || low > limit;
  return draft(shape, value, null, null, inside ? 'pass' : beyond ? 'fail' : 'undecided', because);
};

const settling: Maker = ({ quantities, spec, facts }) => {
  const within_min = spec.settling?.within_min;
  if (within_min === undefined) return null;
  const shape = { id: 'settling' as const, unit: 'min', limits: atMost(within_min) };
  const { time_s, tolerance, unit, finalValue, reason } = quantities.settling;
  const settingTolerance = maybeRounded(tolerance);
  if (time_s !== null) {
    const value = rounded(time_s / 60);
    return draft(shape, value, null, null, simpleVerdict(value, shape.limits), {
      kind: 'settled',
      tolerance: settingTolerance,
      pressureUnit: unit,
    });
  }
  if (finalValue === null) return notAssessed(shape, reason);
  const outlasted = facts.runSpan_s !== null && rounded(facts.runSpan_s / 60) > within_min;
  return draft(shape, null, null, null, outlasted ? 'fail' : 'not-assessed', {
    kind: 'never-settled',
    complete: facts.complete,
    runSpan_s: facts.runSpan_s,
    tolerance: settingTolerance,
    pressureUnit: unit,
  });
};

const runLength: Maker = ({ quantities, spec, facts }) => {
  if (!spec.runLength) return null;
  const shape = { id: 'run-length' as const, unit: 'h', limits: atLeast(spec.runLength.atLeast_h) };
  const length_s = quantities.runLength?.length_s ?? null;
  if (length_s === null) return notAssessed(shape, quantities.runLength?.reason);
  const judged = judgeSimple(shape, length_s / 3600, undefined);
  return judged.verdict === 'fail' && !facts.complete
    ? { ...judged, verdict: 'not-assessed', because: { kind: 'not-yet' } }
    : judged;
};

const holdTemperature: Maker = ({ quantities, spec, facts }) => {
  const limits = spec.operatingTemperature;
  if (!limits) return null;
  const q = quantities.holdTemperature;
  const value = q.mean === null ? null : convert(q.mean, q.unit, limits.unit);
  return judgeLevel(
    {
      id: 'hold-temperature',
      unit: limits.unit,
      limits: { low: limits.low ?? null, high: limits.high ?? null },
      rule: channelRule(spec, facts.oilTemperature.stated),
      gaugeStated: facts.oilTemperature.stated,
    },
    channelLevel(value, facts.oilTemperature, convertDifference(1, q.unit, limits.unit), q.reason),
    guardFactorOf(spec),
  );
};

/** A pressure level with an upper limit that the gauge reads at another place of its range than the operating pressure. */
function pressureLevel(
  { spec, facts }: Judgement,
  id: 'peak-pressure' | 'released-pressure',
  limit: { atMost: number; unit: Quantities['peakPressure']['unit'] } | undefined,
  found: Quantities['peakPressure'] | Quantities['releasedPressure'],
  typeB: number | null | undefined,
): Draft | null {
  if (!limit) return null;
  const value = found.value === null ? null : found.value * pressureFactor(found.unit, limit.unit);
  const channel: ChannelFacts = {
    stated: facts.pressure.stated,
    typeBExpanded: typeB === undefined ? facts.pressure.typeBExpanded : typeB,
  };
  return judgeLevel(
    {
      id,
      unit: limit.unit,
      limits: atMost(limit.atMost),
      rule: channelRule(spec, channel.stated),
      gaugeStated: channel.stated,
    },
    channelLevel(value, channel, pressureFactor(spec.pressureBand.unit, limit.unit), found.reason),
    guardFactorOf(spec),
  );
}

/**
 * A level beyond its gauge's range fails where the range's end is beyond the limit already; else nothing is known of it: null.
 * @param least the range's end in the limit's unit
 * @param typeBExpanded of the channel, in the limit's unit; null where it is not stated
 */
function beyondTheGauge(
  shape: Shape & { rule: DecisionRule },
  least: number,
  typeBExpanded: number | null,
  guardFactor: number,
): Draft | null {
  const end = rounded(least),
    guard = shape.rule === 'guarded' && typeBExpanded !== null ? rounded(guardFactor * typeBExpanded) : 0;
  return guardedVerdict(end, guard, shape.limits) === 'fail'
    ? draft(shape, null, null, null, 'fail', { kind: 'beyond-the-gauge', atLeast: end })
    : null;
}

const peakBeyondTheGauge: Maker = ({ quantities, spec, facts }) => {
  const limit = spec.peakPressure,
    { value, atLeast: least, unit } = quantities.peakPressure;
  if (!limit || value !== null || least === undefined || least === null) return null;
  const { stated, typeBExpanded } = facts.pressure;
  return beyondTheGauge(
    {
      id: 'peak-pressure',
      unit: limit.unit,
      limits: atMost(limit.atMost),
      rule: channelRule(spec, stated),
    },
    least * pressureFactor(unit, limit.unit),
    typeBExpanded === null ? null : typeBExpanded * pressureFactor(spec.pressureBand.unit, limit.unit),
    guardFactorOf(spec),
  );
};

const peakPressure: Maker = (judgement) =>
  peakBeyondTheGauge(judgement) ??
  pressureLevel(
    judgement,
    'peak-pressure',
    judgement.spec.peakPressure,
    judgement.quantities.peakPressure,
    judgement.facts.typeBAtPeak,
  );
const releasedPressure: Maker = (judgement) =>
  pressureLevel(
    judgement,
    'released-pressure',
    judgement.spec.releasedPressure,
    judgement.quantities.releasedPressure,
    judgement.facts.typeBAtReleased,
  );

const solenoidCurrent: Maker = ({ quantities, spec, facts }) => {
  const limit = spec.solenoidCurrent;
  if (!limit) return null;
  const q = quantities.solenoidCurrent;
  const { stated, typeBExpanded } = facts.solenoidCurrent;
  const shape = {
    id: 'solenoid-current' as const,
    unit: limit.unit,
    limits: atMost(limit.atMost),
    rule: channelRule(spec, stated),
    gaugeStated: stated,
  };
  const beyond =
    q.max === null && q.atLeast !== undefined && q.atLeast !== null
      ? beyondTheGauge(
          shape,
          convert(q.atLeast, q.unit, limit.unit),
          typeBExpanded === null ? null : typeBExpanded * convertDifference(1, q.unit, limit.unit),
          guardFactorOf(spec),
        )
      : null;
  if (beyond) return beyond;
  return judgeLevel(
    shape,
    channelLevel(
      q.max === null ? null : convert(q.max, q.unit, limit.unit),
      facts.solenoidCurrent,
      convertDifference(1, q.unit, limit.unit),
      q.reason,
    ),
    guardFactorOf(spec),
  );
};

const ripple: Maker = ({ quantities: { ripple: q }, spec }) =>
  spec.ripple
    ? judgeSimple(
        { id: 'ripple', unit: spec.ripple.unit, limits: atMost(spec.ripple.atMost) },
        q.peakToPeak === null ? null : q.peakToPeak * pressureFactor(q.unit, spec.ripple.unit),
        q.reason,
      )
    : null;

const plateauSpread: Maker = ({ quantities: { plateauSpread: q }, spec }) =>
  spec.plateauSpread
    ? judgeSimple(
        { id: 'plateau-spread', unit: spec.plateauSpread.unit, limits: atMost(spec.plateauSpread.atMost) },
        q.value === null ? null : q.value * pressureFactor(q.unit, spec.plateauSpread.unit),
        q.reason,
      )
    : null;

/** A pressure that was watched for long enough without falling to half passes: it only gets longer. */
const leakDown: Maker = ({ quantities: { leakDown: q }, spec }) => {
  if (!spec.leakDown) return null;
  const limit = spec.leakDown.halfTimeAtLeast_s;
  const shape = { id: 'leak-down' as const, unit: 's', limits: atLeast(limit) };
  const watched_s = maybeRounded(q.halfTimeAtLeast_s);
  return q.halfTime_s === null && watched_s !== null && watched_s >= limit
    ? draft(shape, null, null, null, 'pass', { kind: 'not-by-then', atLeast: watched_s, engagement: null })
    : judgeSimple(shape, q.halfTime_s, q.reason);
};

const recordCoverage: Maker = ({ quantities, spec }) =>
  spec.recordCoverage
    ? judgeSimple(
        { id: 'record-coverage', unit: '1', limits: atLeast(spec.recordCoverage.atLeast) },
        quantities.recordCoverage?.share ?? null,
        quantities.recordCoverage?.reason,
      )
    : null;

/** Each criterion's maker, in the order in which criteria are listed; one of them gives null where the spec sets no limit. */
const makers: readonly Maker[] = [
  operatingPressure,
  timeInBand,
  drift,
  settling,
  runLength,
  holdTemperature,
  peakPressure,
  ripple,
  engagementRise,
  engagementDip,
  engagementRecovery,
  fallAfterRelease,
  releasedPressure,
  leakDown,
  plateauSpread,
  solenoidCurrent,
  recordCoverage,
];

const oilCriteria: readonly CriterionId[] = ['hold-temperature'];
const currentCriteria: readonly CriterionId[] = ['solenoid-current'];
/** The record and the clock carry these, not a sensor. */
const sensorless: readonly CriterionId[] = ['run-length', 'record-coverage'];

/** Whether a grave finding reaches a criterion. */
function reaches(reach: FindingReach, id: CriterionId): boolean {
  if (reach === 'oil-temperature') return oilCriteria.includes(id);
  if (reach === 'solenoid-current') return currentCriteria.includes(id);
  if (reach === 'pressure')
    return !oilCriteria.includes(id) && !currentCriteria.includes(id) && !sensorless.includes(id);
  return reach === id;
}

/** All criteria that the spec sets, judged, without their sentences; a grave finding makes those it reaches not assessed. */
export function draftCriteria(judgement: Judgement): Draft[] {
  return makers.flatMap((make) => {
    const made = make(judgement);
    if (made === null) return [];
    const finding = judgement.facts.grave.find(({ reach }) => reaches(reach, made.id));
    return finding
      ? [
          {
            ...made,
            value: null,
            expandedUncertainty: null,
            verdict: 'not-assessed' as const,
            probabilityOfConformity: null,
            because: { kind: 'not-assessed' as const, reason: finding.reason },
          },
        ]
      : [made];
  });
}
