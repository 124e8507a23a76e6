import type { Assessment, Criterion } from '#formats/assessment.ts';
import { limitText, nearerLimit, sizeText } from '#formats/criterion-text.ts';
import {
  decimalsForUncertainty,
  decimalsToTell,
  fixedText,
  noBreak,
  statedText,
  withUnit,
  type NumberStyle,
} from '#units/number-text.ts';
import type { Phrases } from './phrases.ts';

const durations = new Set(['s', 'min', 'h']);

/** What is allowed, in words: "400 to 420 psi", "at most 60 min". */
export function allowedWords(criterion: Criterion, phrases: Phrases, numbers: NumberStyle): string {
  const { low, high } = criterion.limits;
  const limit = (value: number): string => noBreak(limitText(criterion, value, numbers));
  if (criterion.id === 'drift' && high !== null) return phrases.atMost(limit(high));
  if (low !== null && high !== null) return phrases.between(statedText(low, numbers), limit(high));
  if (high !== null) return phrases.atMost(limit(high));
  return low === null ? '' : phrases.atLeast(limit(low));
}

/** Whether an expanded uncertainty stands beside the value. */
export function hasUncertainty(criterion: Criterion): boolean {
  return (
    criterion.expandedUncertainty !== null &&
    criterion.expandedUncertainty > 0 &&
    !durations.has(criterion.unit) &&
    criterion.unit !== '1'
  );
}

/** U to two significant digits with its unit; the empty text where there is none. */
export function uncertaintyWords(criterion: Criterion, numbers: NumberStyle): string {
  const { expandedUncertainty: expanded } = criterion;
  if (!hasUncertainty(criterion) || expanded === null) return '';
  return noBreak(withUnit(fixedText(expanded, decimalsForUncertainty(expanded), numbers), criterion.unit));
}

/** The value alone with its sign and unit, to the decimal of its uncertainty; never read as a limit that it does not equal. */
export function valueAlone(criterion: Criterion, numbers: NumberStyle): string {
  const { value, expandedUncertainty: expanded, limits, unit } = criterion;
  if (value === null) return '';
  if (!hasUncertainty(criterion) || expanded === null)
    return noBreak(sizeText(criterion, value, nearerLimit(criterion), numbers));
  const decimals = decimalsToTell(value, [limits.low, limits.high], decimalsForUncertainty(expanded));
  return noBreak(withUnit(fixedText(value, decimals, numbers), unit));
}

/** What was found, as sheet 1 shows it: "411.2 psi ± 2.2 psi", "36 min", "2.1 psi down". */
export function foundWords(criterion: Criterion, phrases: Phrases, numbers: NumberStyle): string {
  const { value } = criterion;
  if (value === null) return '';
  if (criterion.id === 'drift') {
    const size = noBreak(sizeText(criterion, Math.abs(value), criterion.limits.high, numbers));
    return value === 0 ? size : value < 0 ? phrases.down(size) : phrases.up(size);
  }
  const alone = valueAlone(criterion, numbers);
  return hasUncertainty(criterion) ? `${alone}\u00a0±\u00a0${uncertaintyWords(criterion, numbers)}` : alone;
}

/** How far beyond the nearer limit, as a size; null inside. */
export function beyondBy(criterion: Criterion, numbers: NumberStyle): { size: string; high: boolean } | null {
  const { value, limits } = criterion;
  if (value === null) return null;
  const say = (size: number): string => noBreak(sizeText(criterion, size, 0, numbers));
  if (limits.high !== null && value > limits.high) return { size: say(value - limits.high), high: true };
  if (limits.low !== null && value < limits.low) return { size: say(limits.low - value), high: false };
  return null;
}

/** The headline's clause for a criterion that was not met. */
export function failureClause(criterion: Criterion, phrases: Phrases, numbers: NumberStyle): string {
  const { failure } = phrases;
  const beyond = beyondBy(criterion, numbers);
  const found = foundWords(criterion, phrases, numbers);
  switch (criterion.id) {
    case 'operating-pressure':
      if (beyond) return failure.pressure(beyond.size, beyond.high);
      break;
    case 'time-in-band':
      if (found !== '') return failure.timeInBand(found);
      break;
    case 'drift':
      if (criterion.value !== null)
        return failure.drift(
          noBreak(sizeText(criterion, Math.abs(criterion.value), criterion.limits.high, numbers)),
        );
      break;
    case 'settling':
      return failure.settling(found === '' ? null : found);
    case 'run-length':
      if (found !== '') return failure.runLength(found);
      break;
    case 'hold-temperature':
      if (beyond) return failure.oil(beyond.size, beyond.high);
      break;
    case 'record-coverage':
      if (found !== '') return failure.coverage(found);
      break;
    default:
  }
  return failure.other(
    phrases.criteria[criterion.id].plain,
    found,
    allowedWords(criterion, phrases, numbers),
  );
}

export const capital = (text: string): string => text.slice(0, 1).toUpperCase() + text.slice(1);

/** A reason as a clause: no full stop, its numbers bound to their units. */
export const clause = (text: string): string => bound(text.trim().replace(/\.$/, ''));

/** Numbers bound to their units and to the ± before them. */
export const bound = (text: string): string => noBreak(text).replace(/± /g, '±\u00a0');

/** The interval that a guarded drift is judged by; null for every other criterion. */
export function driftInterval(
  criterion: Criterion,
  { quantities }: Pick<Assessment, 'quantities'>,
): { low: number; high: number } | null {
  const { low, high } = quantities.drift.overHold;
  if (criterion.id !== 'drift' || low === undefined || high === undefined || low === null || high === null)
    return null;
  return criterion.decisionRule === 'guarded' && criterion.verdict !== 'not-assessed' ? { low, high } : null;
}
