import {
  decimalsForUncertainty,
  fixedText,
  POINT_STYLE,
  statedText,
  uncertainText,
  withUnit,
  type NumberStyle,
} from '#units/number-text.ts';
import type { Advice, AdviceOption } from './advice.ts';

/** Hundredths of a millimetre: shims are sold and measured so (common practice, no source). */
const MM_DECIMALS = 2;
/** Shown with ±: two standard uncertainties, as the expanded uncertainty of the reading. */
export const ADVICE_COVERAGE = 2;

/** Of a reading whose uncertainty is not known. */
const READING_DIGITS = 5;

/** "0.70 mm" */
export const millimetres = (value: number, style: NumberStyle = POINT_STYLE): string =>
  withUnit(fixedText(value, MM_DECIMALS, style), 'mm');

/** "0.50 + 0.25 mm", "no shim" */
export const stackText = (stack: readonly number[], style: NumberStyle = POINT_STYLE): string =>
  stack.length === 0
    ? 'no shim'
    : withUnit(stack.map((shim) => fixedText(shim, MM_DECIMALS, style)).join(' + '), 'mm');

/** "1.5 turns", "0.625 turns", without its direction: eighths need three decimals. */
export const turnsText = (turns: number, style: NumberStyle = POINT_STYLE): string =>
  `${statedText(Number(Math.abs(turns).toFixed(3)), style)} ${Math.abs(turns) === 1 ? 'turn' : 'turns'}`;

/** "410.1 ± 4.9 psi" */
export const predictedText = (
  { predicted }: Pick<AdviceOption, 'predicted'>,
  style: NumberStyle = POINT_STYLE,
): string =>
  uncertainText(predicted.value, ADVICE_COVERAGE * predicted.standardUncertainty, predicted.unit, [], style);

/** "425.1 ± 3.5 psi"; empty without a reading. */
export function readingText({ operatingPressure }: Advice, style: NumberStyle = POINT_STYLE): string {
  const { value, expandedUncertainty, unit } = operatingPressure;
  if (value === null) return '';
  return expandedUncertainty === null || expandedUncertainty === 0
    ? withUnit(statedText(Number(value.toPrecision(READING_DIGITS)), style), unit)
    : uncertainText(value, expandedUncertainty, unit, [], style);
}

/** "21.4 ± 2.4 psi/mm"; empty where nothing tells it. */
export function perMillimetreText({ pressurePerShim }: Advice, style: NumberStyle = POINT_STYLE): string {
  if (pressurePerShim === null) return '';
  const { value, standardUncertainty, unit } = pressurePerShim;
  return standardUncertainty > 0
    ? uncertainText(value, ADVICE_COVERAGE * standardUncertainty, unit, [], style)
    : withUnit(statedText(Number(value.toPrecision(4)), style), unit);
}

/** Whether the advice offers anything that should land in the band: what the command's exit status says. */
export function offersSomething(advice: Advice): boolean {
  return (
    advice.heldBack === null &&
    advice.options.length > 0 &&
    !advice.remarks.some(({ code }) => code === 'nothing-reaches-the-band')
  );
}

/** "Take out 0.70 mm", "Turn the screw in by 1.5 turns". */
export function actionOf(
  { leave, turns, change_mm }: AdviceOption,
  style: NumberStyle = POINT_STYLE,
): string {
  if (leave) return 'Leave it as it is';
  if (turns !== null) return `Turn the screw ${turns > 0 ? 'in' : 'out'} by ${turnsText(turns, style)}`;
  return `${change_mm > 0 ? 'Add' : 'Take out'} ${millimetres(Math.abs(change_mm), style)}`;
}

/** What the card and the command say first. */
export function adviceTitle(advice: Advice, style: NumberStyle = POINT_STYLE): string {
  if (advice.heldBack !== null)
    return advice.heldBack.code === 'sensitivity-unknown'
      ? 'Too little known to advise'
      : advice.heldBack.code === 'leakage-suspected'
        ? 'Do not shim yet'
        : 'Do not adjust yet';
  const [best] = advice.options;
  if (offersSomething(advice) && best !== undefined) return actionOf(best, style);
  return best?.turns === null || best === undefined
    ? 'No stack in stock reaches the band'
    : 'No setting of the screw reaches the band';
}

/** What is to be done, how it should come out, and always that the bench is stopped and the pressure off first. */
export function instruction(
  option: AdviceOption,
  fitted_mm: readonly number[] | null,
  style: NumberStyle = POINT_STYLE,
): string {
  const predicted = predictedText(option, style);
  if (option.leave) return `A re-test should read ${predicted}.`;
  const how =
    option.fit_mm === null
      ? ''
      : `Fit ${stackText(option.fit_mm, style)}${fitted_mm === null ? '' : ` in place of ${stackText(fitted_mm, style)}`}. `;
  return `${how}That should give ${predicted}. Stop the bench and let the pressure off first.`;
}

/** Why an option stands where it stands: what it does, and how far from the aim it should land. */
export function optionReason(option: AdviceOption, advice: Advice): string {
  const { value, unit, standardUncertainty } = option.predicted;
  const off = (each: AdviceOption): number => Math.abs(each.predicted.value - advice.target.value);
  const decimals = decimalsForUncertainty(ADVICE_COVERAGE * (standardUncertainty || 1));
  const nearest = advice.options.every((other) => off(option) <= off(other));
  const distance = withUnit(fixedText(off(option), decimals), unit);
  const aim = nearest
    ? 'nearest the aim'
    : `${distance} ${value > advice.target.value ? 'above' : 'below'} the aim`;
  const change = option.leave
    ? 'nothing is opened'
    : option.turns !== null
      ? `${turnsText(option.turns)} ${option.turns > 0 ? 'in' : 'out'}`
      : `${millimetres(Math.abs(option.change_mm))} ${option.change_mm > 0 ? 'more' : 'less'}`;
  return [change, aim, ...(option.remark === undefined ? [] : [option.remark])].join(', ');
}

/** What was said of an earlier change, what was found, and how far the two may lie apart: "410.3 psi predicted, 410.7 psi found, ± 4.3 psi for both". */
export function earlierFigures(
  earlier: NonNullable<Advice['earlier']>[number],
  style: NumberStyle = POINT_STYLE,
): string {
  const { predicted, found, standardUncertainty, unit } = earlier;
  const apart = ADVICE_COVERAGE * standardUncertainty;
  const decimals = decimalsForUncertainty(apart || 1);
  return `${withUnit(fixedText(predicted, decimals, style), unit)} predicted, ${withUnit(fixedText(found, decimals, style), unit)} found, ${withUnit(`±\u00a0${fixedText(apart, decimals, style)}`, unit)} for both`;
}

/** How good the predictions were; empty without any. */
export function earlierSentence({ earlierSummary }: Advice, style: NumberStyle = POINT_STYLE): string {
  if (earlierSummary === null || earlierSummary === undefined) return '';
  const { changes, outside, meanDifference, standardDeviation, unit } = earlierSummary;
  // One difference alone has no spread to take its digits from.
  const decimals = standardDeviation === null ? 1 : decimalsForUncertainty(2 * (standardDeviation || 1));
  const found = `Found less predicted: ${withUnit(fixedText(meanDifference, decimals, style), unit)}${
    changes === 1 ? '' : ' on average'
  }${standardDeviation === null ? '' : `, spread ${withUnit(fixedText(standardDeviation, decimals, style), unit)}`}.`;
  return `${outside === 0 ? `${changes === 1 ? 'It' : `All ${changes}`} fell within ±.` : `${outside} of ${changes} outside ±: check what else changed.`} ${found}`;
}
