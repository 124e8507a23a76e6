import { durationText, fixedText, noBreak, statedText, withUnit } from '#units/number-text.ts';
import type { FactLine, Unnumbered } from './content.ts';
import { bound } from './criterion-words.ts';
import { joinTexts, type Telling } from './sheet-one.ts';

export function methodSection(telling: Telling): Unnumbered {
  const { assessment, unitRecord, phrases, numbers } = telling;
  const { method } = phrases;
  const { labels } = method;
  const { settings, quantities, judged } = assessment;
  const terms: FactLine[] = [];
  const term = (label: string, value: string): void => void (value !== '' && terms.push({ label, value }));
  const long = (seconds: number): string => noBreak(durationText(seconds, true, numbers));
  const pressure = (value: number, unit: string, decimals: number): string =>
    noBreak(withUnit(fixedText(value, decimals, numbers), unit));
  term(labels.smoothing, method.smoothing(settings.smoothing.method, long(settings.smoothing.window_s)));
  const { operatingPressure } = quantities;
  if (operatingPressure.start_s !== null && operatingPressure.end_s !== null)
    term(
      labels.judged,
      method.judged(
        noBreak(durationText(operatingPressure.start_s, false, numbers)),
        noBreak(durationText(operatingPressure.end_s, false, numbers)),
      ),
    );
  if (judged.joined > 1) term(labels.behaviour, method.joined(judged.joined));
  const { tolerance, unit } = quantities.settling;
  if (tolerance !== null)
    term(
      labels.settled,
      method.settled(bound(withUnit(statedText(Number(tolerance.toPrecision(3)), numbers), unit))),
    );
  if (quantities.drift.slope !== null) term(labels.drift, method.drift);
  term(
    labels.bench,
    joinTexts(
      [
        unitRecord?.shaftSpeed,
        unitRecord?.ambient === undefined ? null : method.ambient(unitRecord.ambient),
      ].map((text) => (text ? noBreak(text) : text)),
      '; ',
    ),
  );
  const oil = unitRecord?.oil;
  term(
    labels.oil,
    joinTexts([oil?.grade, oil?.leftIn === undefined ? null : oil.leftIn ? method.leftIn : method.drained]),
  );
  const zero = quantities.zeroAtRest;
  if (zero.value !== null) {
    const subtracted = assessment.rig?.channels?.some(
      ({ role, subtractZeroAtRest }) => role === 'pressure' && subtractZeroAtRest === true,
    );
    term(
      labels.zero,
      method.zero(pressure(zero.value, zero.unit, zero.unit === 'psi' ? 1 : 2), subtracted === true),
    );
  }
  return {
    key: 'method',
    title: phrases.sections.method,
    place: 'right',
    blocks: [{ kind: 'terms', terms }],
  };
}
