import type { Engagement, Quantities } from '#formats/assessment.ts';
import type { Spec } from '#formats/spec.ts';
import type { Draft, WorstEngagement } from './draft.ts';
import { atMost, draft, judgeSimple, maybeRounded, notAssessed, type Shape } from './judged.ts';

type Maker = (judgement: { quantities: Quantities; spec: Spec }) => Draft | null;

/**
 * A figure of the engagements: the worst is judged and named. Bounds count as they stand: an upper one that meets the limit passes, one
 * that does not leaves the criterion not assessed, and never fails it; a lower one beyond the limit fails.
 */
function judgeEngagements(
  shape: Shape,
  engagements: readonly Engagement[],
  valueOf: (engagement: Engagement) => number | null,
  boundOf: (engagement: Engagement) => number | null,
  leastOf: (engagement: Engagement) => number | null,
  none = 'no engagement in this log',
): Draft {
  const limit = shape.limits.high ?? Infinity;
  const measured = engagements.flatMap((engagement, index) => {
    const value = maybeRounded(valueOf(engagement)),
      bound = value === null ? maybeRounded(boundOf(engagement)) : null,
      atLeast = value === null ? maybeRounded(leastOf(engagement)) : null,
      least = atLeast !== null && atLeast > limit ? atLeast : null;
    return value === null && bound === null && least === null
      ? []
      : [{ engagement, number: index + 1, value, bound, least }];
  });
  if (measured.length === 0)
    return notAssessed(
      shape,
      engagements.find((engagement) => engagement.reason !== undefined)?.reason ??
        (engagements.length === 0 ? none : undefined),
    );
  // A value beyond the limit is worse than any bound; then the bound that leaves most open; then the largest value.
  const rank = (item: (typeof measured)[number]): number =>
    item.value === null
      ? item.least !== null
        ? 2
        : (item.bound ?? 0) > limit
          ? 1
          : 0
      : item.value > limit
        ? 2
        : 0;
  const size = (item: (typeof measured)[number]): number => item.value ?? item.least ?? item.bound ?? 0;
  const worst = measured.reduce((a, b) =>
    rank(b) > rank(a) || (rank(b) === rank(a) && size(b) > size(a)) ? b : a,
  );
  const engagement: WorstEngagement = {
    number: worst.number,
    of: measured.length,
    start_s: worst.engagement.start_s,
    unmeasured: engagements.length - measured.length,
  };
  if (worst.value !== null)
    return {
      ...judgeSimple(shape, worst.value, undefined),
      because: { kind: 'compared', guard: null, guardFactor: 1, engagement },
    };
  if (worst.least !== null)
    return draft(shape, null, null, null, 'fail', { kind: 'not-by-then', atLeast: worst.least, engagement });
  const bound = worst.bound ?? 0;
  return draft(shape, null, null, null, bound <= limit ? 'pass' : 'not-assessed', {
    kind: 'bound',
    atMost: bound,
    engagement,
  });
}

export const engagementRise: Maker = ({ quantities, spec }) =>
  spec.engagementRise
    ? judgeEngagements(
        { id: 'engagement-rise', unit: 's', limits: atMost(spec.engagementRise.atMost_s) },
        quantities.engagements,
        (engagement) => engagement.rise_s,
        (engagement) => engagement.riseAtMost_s ?? null,
        () => null,
      )
    : null;
export const fallAfterRelease: Maker = ({ quantities, spec }) =>
  spec.fallAfterRelease
    ? judgeEngagements(
        { id: 'fall-after-release', unit: 's', limits: atMost(spec.fallAfterRelease.atMost_s) },
        quantities.engagements,
        (engagement) => engagement.fall_s,
        (engagement) => engagement.fallAtMost_s ?? null,
        (engagement) => engagement.fallAtLeast_s ?? null,
      )
    : null;
/** A charged unit may have engaged all the same: that none was found is said, not that there was none. */
const noneFound = ({ quantities, spec }: Parameters<Maker>[0]): string | undefined =>
  spec.pressureBehaviour === 'held-charged' && quantities.operatingPressure.value !== null
    ? 'no engagement was found: without a solenoid channel a unit that holds its charge shows one only by a dip, and a quick dip falls between two readings'
    : undefined;

export const engagementDip: Maker = ({ quantities, spec }) =>
  spec.engagementDip?.atMost === undefined
    ? null
    : judgeEngagements(
        { id: 'engagement-dip', unit: '1', limits: atMost(spec.engagementDip.atMost) },
        quantities.engagements,
        (engagement) => engagement.dip,
        () => null,
        () => null,
        noneFound({ quantities, spec }),
      );
export const engagementRecovery: Maker = ({ quantities, spec }) =>
  spec.engagementDip?.recovered_s === undefined
    ? null
    : judgeEngagements(
        { id: 'engagement-recovery', unit: 's', limits: atMost(spec.engagementDip.recovered_s) },
        quantities.engagements,
        (engagement) => engagement.recovery_s,
        () => null,
        (engagement) => engagement.recoveryAtLeast_s ?? null,
        noneFound({ quantities, spec }),
      );
