import { rounded } from '#formats/number.ts';
import type { Spec } from '#formats/spec.ts';

/** Limits of one criterion; null for a side that is open. The limits themselves belong to the interval (JCGM 106:2012, 3.3.5). */
export interface Limits {
  low: number | null;
  high: number | null;
}
export type DecisionRule = 'simple' | 'guarded';
export type RuleVerdict = 'pass' | 'fail' | 'undecided';

/**
 * Simple acceptance: in the limits or not, the risk is shared (JCGM 106:2012, 8.2.1).
 * @param value compared as it stands: round it to 12 digits before
 */
export function simpleVerdict(value: number, limits: Limits): 'pass' | 'fail' {
  return (limits.low === null || value >= limits.low) && (limits.high === null || value <= limits.high)
    ? 'pass'
    : 'fail';
}

/**
 * Guarded on both sides: pass where the value lies inside by the guard band or more, fail where it lies outside by more than the guard
 * band, otherwise undecided. Pass zone: guarded acceptance, JCGM 106:2012, 8.3.2 (w = gU); fail zone: the same for non-conformity, 8.3.3.
 * The outcome between, which ILAC-G8:09/2019, 4.2.3 calls conditional pass and conditional fail, is one word here: undecided.
 * @param guard g·U, 0 or more
 */
export function guardedVerdict(value: number, guard: number, limits: Limits): RuleVerdict {
  const { low, high } = limits;
  if ((low === null || value >= rounded(low + guard)) && (high === null || value <= rounded(high - guard)))
    return 'pass';
  if ((low !== null && value < rounded(low - guard)) || (high !== null && value > rounded(high + guard)))
    return 'fail';
  return 'undecided';
}

/** Limits as they stand, the two sides that a guard leaves for a pass; empty where it eats the whole band. */
export function passZone(limits: Limits, guard: number): Limits & { empty: boolean } {
  const low = limits.low === null ? null : rounded(limits.low + guard);
  const high = limits.high === null ? null : rounded(limits.high - guard);
  return { low, high, empty: low !== null && high !== null && low > high };
}

/** The guard factor g of the spec; 1 (the whole of U) unless it says otherwise. */
export function guardFactorOf(spec: Spec): number {
  return spec.guardFactor ?? 1;
}

/**
 * The rule for the band and what hangs on it: as the spec says, else guarded where the rig states the gauge's uncertainty
 * (definitions, "Decisions").
 */
export function bandRule(spec: Spec, gaugeStated: boolean): DecisionRule {
  return spec.decisionRule ?? (gaugeStated ? 'guarded' : 'simple');
}

/** The rule for a level read by one channel: a channel without a stated uncertainty is judged simple. */
export function channelRule(spec: Spec, channelStated: boolean): DecisionRule {
  return channelStated ? (spec.decisionRule ?? 'guarded') : 'simple';
}
