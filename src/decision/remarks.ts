import type { Criterion } from '#formats/assessment.ts';
import { allowedText } from '#formats/criterion-text.ts';
import { rounded } from '#formats/number.ts';
import type { Remark } from '#formats/remark.ts';
import { pressureFactor } from '#units/pressure.ts';
import { decimalsForUncertainty, fixedText, statedText, withUnit } from '#units/number-text.ts';
import type { Judgement } from './criteria.ts';
import { classWithin, expandedFrom, halfWidthFor, ROOM_WANTED } from './gauge-against-band.ts';
import { bandRule, guardFactorOf, type Limits } from './rule.ts';

/** Remarks that come from the decisions; they change no verdict. */
export function decisionRemarks(judgement: Judgement, criteria: readonly Criterion[]): Remark[] {
  return [...statedRemarks(judgement, criteria), ...gaugeRemarks(judgement, criteria)];
}

/** Whose uncertainty is not stated, and what was judged instead. */
function statedRemarks({ spec, facts }: Judgement, criteria: readonly Criterion[]): Remark[] {
  const remarks: Remark[] = [];
  if (!facts.pressure.stated)
    remarks.push({
      code: 'gauge-uncertainty-not-stated',
      text:
        bandRule(spec, false) === 'guarded'
          ? 'The rig file does not say how good the pressure gauge is: the uncertainty holds scatter and resolution alone. State the accuracy of the gauge in the rig file.'
          : 'The rig file does not say how good the pressure gauge is: the reading alone was judged. State the accuracy of the gauge in the rig file to have it counted.',
    });
  const judged = (id: Criterion['id']): boolean =>
    criteria.some((criterion) => criterion.id === id && criterion.verdict !== 'not-assessed');
  if (spec.decisionRule !== 'simple' && judged('hold-temperature') && !facts.oilTemperature.stated)
    remarks.push({
      code: 'oil-temperature-uncertainty-not-stated',
      text: 'The rig file does not say how good the oil temperature is: its reading alone was judged.',
    });
  if (spec.decisionRule !== 'simple' && judged('solenoid-current') && !facts.solenoidCurrent.stated)
    remarks.push({
      code: 'solenoid-current-uncertainty-not-stated',
      text: 'The rig file does not say how good the solenoid current is: its reading alone was judged.',
    });
  return remarks;
}

/** A size with its unit, to two digits. */
const size = (value: number, unit: string): string =>
  withUnit(value > 0 ? fixedText(value, decimalsForUncertainty(value)) : '0', unit);

/** Two significant digits, never more than the value: what is promised to do must do. */
function floored(value: number): number {
  const decimals = decimalsForUncertainty(value);
  const step = Number(`1e${-decimals}`);
  const nearest = Number(value.toFixed(Math.max(0, decimals)));
  return rounded(nearest > value ? nearest - step : nearest);
}

/** The operating pressure's uncertainty against the band: nothing can pass, the risk is shared, or what gauge would decide. */
function gaugeRemarks(judgement: Judgement, criteria: readonly Criterion[]): Remark[] {
  const { spec, facts, quantities } = judgement;
  const operating = criteria.find(({ id }) => id === 'operating-pressure');
  const { unit } = spec.pressureBand;
  const limits: Limits = { low: spec.pressureBand.low ?? null, high: spec.pressureBand.high ?? null };
  const factor = pressureFactor(quantities.operatingPressure.unit, unit);
  const standard = quantities.operatingPressure.standardUncertainty;
  const expanded =
    operating?.expandedUncertainty ?? (facts.pressure.stated ? facts.pressure.typeBExpanded : null);
  if (!operating || expanded === null) return [];
  const width = limits.low === null || limits.high === null ? null : limits.high - limits.low;
  const guardFactor = guardFactorOf(spec);
  const guarded = operating.decisionRule === 'guarded';
  const allowed = allowedText(operating);
  /** Standard uncertainty that no better gauge takes away. */
  const typeB = (facts.pressure.typeBExpanded ?? 0) / 2;
  const combined = standard === null ? typeB : standard * factor;
  const scatter = Math.sqrt(Math.max(0, combined * combined - typeB * typeB));

  if (guarded && width !== null && rounded(2 * guardFactor * expanded) > rounded(width))
    return [
      {
        code: 'no-reading-can-pass',
        text: `With ± ${size(expanded, unit)} no reading can pass ${allowed} under the guarded rule${guardFactor === 1 ? '' : ` (${statedText(guardFactor)} times the uncertainty on each side)`}. ${gaugeFor(judgement, ((1 - ROOM_WANTED) * width) / (2 * guardFactor), scatter, 'leave half of the band for a pass', 'take a gauge of a smaller range')}`,
      },
    ];
  const remarks: Remark[] = [];
  if (!guarded && width !== null && rounded(expanded) > rounded(width / 6))
    remarks.push({
      code: 'risk-is-shared',
      text: `± ${size(expanded, unit)} is more than a sixth of the band ${allowed}: under the simple rule whoever supplies and whoever receives share the risk of a wrong verdict (JCGM 106, 8.2).`,
    });
  if (operating.verdict === 'undecided' && operating.value !== null) {
    const distance = Math.min(
      limits.low === null ? Infinity : Math.abs(operating.value - limits.low),
      limits.high === null ? Infinity : Math.abs(operating.value - limits.high),
    );
    remarks.push({
      code: 'gauge-that-would-decide',
      text:
        distance === 0
          ? 'The reading lies on the limit itself: no gauge would decide it. Set the unit nearer to the middle of the band.'
          : gaugeFor(
              judgement,
              distance / guardFactor,
              scatter,
              'decide this reading',
              'setting the unit nearer to the middle of the band is the easier way',
            ),
    });
  }
  return remarks;
}

/** The gauge whose U, together with the scatter of the reading, stays within `wanted`. */
function gaugeFor(
  { spec, facts }: Judgement,
  wanted: number,
  scatter: number,
  purpose: string,
  otherwise: string,
): string {
  const { unit } = spec.pressureBand;
  const room = (wanted / 2) * (wanted / 2) - scatter * scatter;
  if (room <= 0)
    return `No gauge would ${purpose}: the scatter of the reading alone is ± ${size(2 * scatter, unit)}.`;
  const halfWidth = halfWidthFor(2 * Math.sqrt(room));
  const promised = floored(halfWidth);
  if (!facts.gaugeRange)
    return `A gauge good to ± ${withUnit(statedText(promised), unit)} or better would ${purpose}.`;
  const span = facts.gaugeRange.high - facts.gaugeRange.low;
  const percent = classWithin(halfWidth, span);
  const range = `${statedText(rounded(facts.gaugeRange.low))} to ${withUnit(statedText(rounded(facts.gaugeRange.high)), unit)}`;
  return percent === null
    ? `A gauge good to ± ${withUnit(statedText(promised), unit)} or better would ${purpose}, which is finer than 0.05 % of a range of ${range}: ${otherwise}.`
    : `A gauge good to ± ${withUnit(statedText(promised), unit)} or better would ${purpose}; for a range of ${range} the next usual class is ${statedText(percent)} % (± ${size(rounded((percent / 100) * span), unit)}, U ${size(expandedFrom((percent / 100) * span), unit)}).`;
}
