import {
  decimalsForStep,
  decimalsForUncertainty,
  decimalsToTell,
  durationText,
  fixedText,
  POINT_STYLE,
  shareText,
  statedText,
  uncertainText,
  withUnit,
  type NumberStyle,
} from '#units/number-text.ts';
import type { Criterion, Verdict } from './assessment.ts';

/** What the words of a criterion are made from; a {@link Criterion} is one, and so is a draft of it without its reason. */
export type CriterionFacts = Pick<Criterion, 'id' | 'value' | 'unit' | 'expandedUncertainty' | 'limits'>;

/** The verdict as the sheet says it: "Passes", "Fails", "Undecided", "Not assessed". */
export const verdictWords: Readonly<Record<Verdict, string>> = {
  pass: 'Passes',
  fail: 'Fails',
  undecided: 'Undecided',
  'not-assessed': 'Not assessed',
};

const secondsIn: Readonly<Record<string, number>> = { s: 1, min: 60, h: 3600 };

/** Decimals of a value that has no uncertainty: a hundredth of the band, or a part of a single limit, is shown. */
function decimalsFromLimits({ id, limits: { low, high } }: CriterionFacts): number {
  if (low !== null && high !== null) return decimalsForStep((high - low) / 100);
  const part = id === 'operating-pressure' || id === 'peak-pressure' ? 500 : 50;
  return decimalsForStep(Math.abs(low ?? high ?? 1) / part);
}

/** Digits after the decimal mark with which this criterion's value is shown. */
export function decimalsOf(facts: CriterionFacts): number {
  const { value, expandedUncertainty, limits } = facts;
  const decimals =
    expandedUncertainty !== null && expandedUncertainty > 0
      ? decimalsForUncertainty(expandedUncertainty)
      : decimalsFromLimits(facts);
  return value === null ? decimals : decimalsToTell(value, [limits.low, limits.high], decimals);
}

/** A size in the criterion's unit: "5.1 psi", "15 min", "1.3 %". `tell`: another number that it must not read like. */
export function sizeText(
  facts: CriterionFacts,
  size: number,
  tell: number | null = null,
  style: NumberStyle = POINT_STYLE,
): string {
  const seconds = secondsIn[facts.unit];
  if (seconds !== undefined) {
    const text = durationText(size * seconds, false, style);
    if (tell === null || tell === size || text !== durationText(tell * seconds, false, style)) return text;
    const exact = durationText(size * seconds, true, style);
    return exact === durationText(tell * seconds, true, style)
      ? withUnit(statedText(size * seconds, style), 's')
      : exact;
  }
  if (facts.unit === '1')
    return shareText(size, tell === null ? 1 : decimalsToTell(size * 100, [tell * 100], 1), style);
  let decimals = decimalsOf(facts);
  if (tell !== null) decimals = decimalsToTell(size, [tell], decimals);
  return withUnit(fixedText(size, decimals, style), facts.unit);
}

/** A limit as stated: "420 psi", "60 min", "98 %". */
export function limitText(facts: CriterionFacts, limit: number, style: NumberStyle = POINT_STYLE): string {
  return facts.unit === '1'
    ? `${statedText(limit * 100, style)} %`
    : withUnit(statedText(limit, style), facts.unit);
}

/** What is allowed: "400 to 420 psi", "at most 30 psi", "at least 98 %", "at most 5 psi up or down". */
export function allowedText(facts: CriterionFacts, style: NumberStyle = POINT_STYLE): string {
  const { low, high } = facts.limits;
  if (facts.id === 'drift' && high !== null) return `at most ${limitText(facts, high, style)} up or down`;
  if (low !== null && high !== null) return `${statedText(low, style)} to ${limitText(facts, high, style)}`;
  if (high !== null) return `at most ${limitText(facts, high, style)}`;
  return low === null ? 'no limit' : `at least ${limitText(facts, low, style)}`;
}

/** What was found: "425.1 ± 3.5 psi", "46 min", "99.7 %", "2.1 psi down"; the empty text where nothing was. */
export function valueText(facts: CriterionFacts, style: NumberStyle = POINT_STYLE): string {
  const { id, value, unit, expandedUncertainty, limits } = facts;
  if (value === null) return '';
  if (id === 'drift') {
    const size = sizeText(facts, Math.abs(value), limits.high, style);
    return value === 0 ? size : `${size} ${value < 0 ? 'down' : 'up'}`;
  }
  if (
    expandedUncertainty !== null &&
    expandedUncertainty > 0 &&
    secondsIn[unit] === undefined &&
    unit !== '1'
  )
    return uncertainText(value, expandedUncertainty, unit, [limits.low, limits.high], style);
  return sizeText(facts, value, nearerLimit(facts), style);
}

/** The limit that lies nearer to the value; null without a value. */
export function nearerLimit(facts: CriterionFacts): number | null {
  const { value, limits } = facts;
  if (value === null) return null;
  const { low, high } = limits;
  if (low === null || high === null) return low ?? high;
  return Math.abs(value - low) <= Math.abs(high - value) ? low : high;
}

/**
 * Where the value lies: "5.1 psi above the band", "4.7 psi inside the band", "12 psi above the limit", "on the limit".
 * The empty text without a value.
 */
export function placeText(facts: CriterionFacts, style: NumberStyle = POINT_STYLE): string {
  const { value, limits } = facts;
  const near = nearerLimit(facts);
  if (value === null || near === null) return '';
  if (value === near) return 'on the limit';
  const twoSided = limits.low !== null && limits.high !== null;
  const whole = !twoSided ? 'limit' : facts.id === 'hold-temperature' ? 'range' : 'band';
  const size = sizeText(facts, Math.abs(value - near), 0, style);
  if (limits.high !== null && value > limits.high) return `${size} above the ${whole}`;
  if (limits.low !== null && value < limits.low) return `${size} below the ${whole}`;
  return twoSided ? `${size} inside the ${whole}` : `${size} clear of the limit`;
}

/** The two sentences beside the verdict: "425.1 ± 3.5 psi, band 400 to 420 psi." and "5.1 psi above the band." */
export function headlineText(facts: CriterionFacts, style: NumberStyle = POINT_STYLE): string {
  const { low, high } = facts.limits;
  const allowed = `${low !== null && high !== null ? 'band ' : ''}${allowedText(facts, style)}`;
  return facts.value === null ? `Allowed: ${allowed}.` : `${valueText(facts, style)}, ${allowed}.`;
}
