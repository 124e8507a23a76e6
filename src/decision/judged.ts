import type { CriterionId } from '#formats/assessment.ts';
import { rounded } from '#formats/number.ts';
import { probabilityOfConformity } from './conformity.ts';
import type { Because, Draft } from './draft.ts';
import type { ChannelFacts } from './facts.ts';
import { guardedVerdict, simpleVerdict, type DecisionRule, type Limits } from './rule.ts';

const NOT_SHOWN = 'this log does not show it';
/** Rounded to 12 digits for the comparison; null stays null. */
export const maybeRounded = (value: number | null | undefined): number | null =>
  value === null || value === undefined ? null : rounded(value);

/** What a criterion is before its value is looked at. */
export interface Shape {
  id: CriterionId;
  unit: string;
  limits: Limits;
  rule?: DecisionRule;
  /** The rig states the uncertainty of the channel that read this. */
  gaugeStated?: boolean;
  /** See {@link Draft}; taken as `gaugeStated` where it is left out. */
  gaugeLeads?: boolean;
}

/** A criterion that the log cannot show, with its reason. */
export function notAssessed(shape: Shape, reason: string | undefined, value: number | null = null): Draft {
  return draft(shape, value, null, null, 'not-assessed', {
    kind: 'not-assessed',
    reason: reason ?? NOT_SHOWN,
  });
}

/** Puts a judged criterion together, its reason still as facts. */
export function draft(
  shape: Shape,
  value: number | null,
  expandedUncertainty: number | null,
  probability: number | null,
  verdict: Draft['verdict'],
  because: Because,
): Draft {
  return {
    id: shape.id,
    value,
    unit: shape.unit,
    expandedUncertainty,
    limits: shape.limits,
    decisionRule: shape.rule ?? 'simple',
    probabilityOfConformity: probability,
    verdict,
    because,
    gaugeLeads: shape.gaugeLeads ?? shape.gaugeStated ?? false,
  };
}

/** A level as a gauge read it. */
export interface Level {
  value: number | null;
  /** Expanded uncertainty and standard uncertainty of this level; null where there is none. */
  expanded: number | null;
  standard: number | null;
  degreesOfFreedom: number | null;
  reason: string | undefined;
}

/** A level on a gauge against its limits, by the simple or the guarded rule. */
export function judgeLevel(shape: Shape & { rule: DecisionRule }, level: Level, guardFactor: number): Draft {
  if (level.value === null) return notAssessed(shape, level.reason);
  const value = rounded(level.value),
    expanded = maybeRounded(level.expanded);
  const probability =
    shape.gaugeStated && level.standard !== null && level.standard > 0
      ? probabilityOfConformity(value, level.standard, level.degreesOfFreedom, shape.limits)
      : null;
  if (shape.rule === 'simple')
    return draft(shape, value, expanded, probability, simpleVerdict(value, shape.limits), {
      kind: 'compared',
      guard: null,
      guardFactor,
    });
  if (expanded === null)
    return notAssessed(
      shape,
      `the rule needs the uncertainty of the reading, and there is none${level.reason === undefined ? '' : `: ${level.reason}`}`,
      value,
    );
  const guard = rounded(guardFactor * expanded);
  return draft(shape, value, expanded, probability, guardedVerdict(value, guard, shape.limits), {
    kind: 'compared',
    guard,
    guardFactor,
  });
}

/** A size, a time or a share that is always judged simple. */
export function judgeSimple(shape: Shape, value: number | null, reason: string | undefined): Draft {
  if (value === null) return notAssessed(shape, reason);
  const number = rounded(value);
  return draft(shape, number, null, null, simpleVerdict(number, shape.limits), {
    kind: 'compared',
    guard: null,
    guardFactor: 1,
  });
}

/** An upper limit alone. */
export const atMost = (high: number): Limits => ({ low: null, high });
/** A lower limit alone. */
export const atLeast = (low: number): Limits => ({ low, high: null });

/** Level read by one channel without scatter of its own: U is the channel's UB, u half of it, degrees of freedom infinite. */
export function channelLevel(
  value: number | null,
  channel: ChannelFacts,
  factor: number,
  reason: string | undefined,
): Level {
  const expanded = channel.stated && channel.typeBExpanded !== null ? channel.typeBExpanded * factor : null;
  return {
    value,
    expanded,
    standard: expanded === null ? null : expanded / 2,
    degreesOfFreedom: null,
    reason,
  };
}
