import type { Engagement } from '#formats/assessment.ts';
import { pressureFactor } from '#units/pressure.ts';
import { sign, signThresholds, type Look, type Seen } from './sign.ts';

const t = signThresholds;

const worst = (
  engagements: readonly Engagement[],
  of: (engagement: Engagement) => number | null,
): number | null => {
  const values = engagements.map(of).filter((value) => value !== null);
  return values.length === 0 ? null : Math.max(...values);
};

const dipsDeep: Look = ({ q }) => {
  const dip = worst(q.engagements, ({ dip: value }) => value);
  return dip !== null && dip > t.deepDip
    ? sign(
        'dips-deep',
        dip,
        '1',
        [
          'an accumulator that does not hold its charge',
          'rings or O-rings of the accumulator',
          'a pump that gives too little',
        ],
        'time to recover; pressure kept after stopping',
      )
    : null;
};
const recoversSlowly: Look = ({ q }) => {
  const recovery = worst(q.engagements, ({ recovery_s }) => recovery_s);
  return recovery !== null && recovery > t.slowRecovery_s
    ? sign(
        'recovers-slowly',
        recovery,
        's',
        ['a pump that gives too little', 'accumulator rings or O-rings', 'a strainer partly blocked'],
        'the same at a higher speed; depth of the dip',
      )
    : null;
};
/** A pressure that follows the shaft rises and falls with it: that is the speed, no fault of engaging. */
const withTheShaft = ({ q }: Seen): boolean => q.speedDependence?.kind === 'in-proportion';

const risesSlowly: Look = (seen) => {
  const { q } = seen;
  if (withTheShaft(seen)) return null;
  // The worst, as the limit on it judges.
  const slowest = worst(q.engagements, ({ rise_s }) => rise_s);
  return slowest !== null && slowest > t.slowRise_s
    ? sign(
        'rises-slowly',
        slowest,
        's',
        [
          'a strainer, orifice or restrictor partly blocked',
          'oil level low, or air in the oil',
          'a gauge line or snubber that holds the gauge back',
        ],
        'the time the unit itself takes to change over; the gauge without its snubber',
      )
    : null;
};
const engagesSlowerAndSlower: Look = ({ q }) => {
  const rises = q.engagements.map(({ rise_s }) => rise_s).filter((value) => value !== null);
  if (rises.length < 4) return null;
  const third = Math.ceil(rises.length / 3);
  const median = (list: readonly number[]): number => {
    const sorted = list.toSorted((a, b) => a - b),
      middle = sorted.length >> 1;
    return sorted.length % 2 === 1
      ? (sorted[middle] ?? NaN)
      : ((sorted[middle - 1] ?? NaN) + (sorted[middle] ?? NaN)) / 2;
  };
  const ratio = median(rises.slice(-third)) / median(rises.slice(0, third));
  return ratio > t.slowerBy
    ? sign(
        'engages-slower-and-slower',
        ratio,
        '1',
        ['a seal that gives way as it warms', 'a solenoid that heats up', 'a strainer that clogs'],
        'solenoid current over the run; the first engagement after cooling down',
      )
    : null;
};

const releasesSlowly: Look = (seen) => {
  const { q, spec } = seen;
  if (withTheShaft(seen)) return null;
  const fall = worst(q.engagements, ({ fall_s }) => fall_s);
  return fall !== null && fall > (spec?.fallAfterRelease?.atMost_s ?? t.slowFall_s)
    ? sign(
        'releases-slowly',
        fall,
        's',
        [
          'a restrictor partly blocked: the oil cannot get out while the springs pull back',
          'oil too thick or too cold',
        ],
        'the same hot; the bore of the restrictor',
      )
    : null;
};

const releasesAtOnce: Look = ({ q }) => {
  const falls = q.engagements
    .map(({ fall_s, fallAtMost_s }) => fall_s ?? fallAtMost_s ?? null)
    .filter((value) => value !== null);
  const quickest = falls.length === 0 ? null : Math.min(...falls);
  return quickest !== null && quickest < t.quickFall_s
    ? sign(
        'releases-at-once',
        quickest,
        's',
        ['a restrictor that is missing or bored out', 'a dashpot or accumulator that holds no charge'],
        'the bore of the restrictor; whether the unit drops out with a jerk',
      )
    : null;
};

const releasedHigh: Look = ({ q, spec, pressure }) => {
  const { value, unit } = q.releasedPressure;
  if (value === null) return null;
  const limit = spec?.releasedPressure
    ? spec.releasedPressure.atMost * pressureFactor(spec.releasedPressure.unit, unit)
    : pressure === null
      ? null
      : t.releasedShare * pressure;
  return limit !== null && value > limit
    ? sign(
        'pressure-left-when-released',
        value,
        unit,
        [
          'a restrictor that is blocked',
          'a relief or dashpot that sticks',
          'a wrong lift of the operating valve',
          'a zero of the gauge that is off',
        ],
        'the gauge at rest; the manual, since some types have none and some keep a little',
      )
    : null;
};

const plateausSpread: Look = ({ q }) => {
  const { value, unit, engagements } = q.plateauSpread;
  const plateaus = q.engagements.map(({ plateau }) => plateau.value).filter((each) => each !== null);
  const highest = plateaus.length === 0 ? null : Math.max(...plateaus);
  return value !== null && engagements >= 3 && highest !== null && value > t.spreadShare * highest
    ? sign(
        'plateaus-spread',
        value,
        unit,
        ['a relief that sticks', 'dirt in the bore of the relief'],
        'three engagements one after the other at the same heat and speed',
      )
    : null;
};

const leaksDownQuickly: Look = ({ q, spec }) => {
  const half = q.leakDown.halfTime_s;
  return half !== null && half > 0 && half < (spec?.leakDown?.halfTimeAtLeast_s ?? t.quickLeakDown_s)
    ? sign(
        'leaks-down-quickly',
        half,
        's',
        [
          'the outlet non-return valve, where the drop is sudden and then stands',
          'rings, seat or a passage, where it keeps falling',
        ],
        'the shape of the fall after the shaft stops',
      )
    : null;
};

/** Signs in engaging, releasing and stopping. */
export const engagementSigns: readonly Look[] = [
  dipsDeep,
  recoversSlowly,
  risesSlowly,
  engagesSlowerAndSlower,
  releasesSlowly,
  releasesAtOnce,
  releasedHigh,
  plateausSpread,
  leaksDownQuickly,
];
