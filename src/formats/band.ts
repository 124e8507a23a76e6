import { pressureUnits, type PressureUnit } from '#units/pressure.ts';
import type { Result } from './problem.ts';
import type { Spec } from './spec.ts';

/**
 * Reads a pressure band as typed: "400..420 psi", "400.. psi", "..420 psi" (decimal point; the blank before the unit may be left out).
 * @returns a spec that holds the band alone, named after it
 */
export function specFromBand(text: string): Result<Spec> {
  const refuse = (reason: string): Result<Spec> => ({
    ok: false,
    problems: [{ code: 'bad-band', text, reason }],
  });
  const parts = /^\s*(-?\d+(?:\.\d+)?)?\s*\.\.\s*(-?\d+(?:\.\d+)?)?\s*(\S+)?\s*$/.exec(text);
  if (!parts)
    return refuse(
      text.includes(',')
        ? 'the decimal mark is a point'
        : 'it is not two numbers with ".." between them and a unit',
    );
  const [, lowText, highText, unitText] = parts;
  if (unitText === undefined) return refuse('the unit is missing');
  const unit = pressureUnits.find(
    (name): name is PressureUnit => name.toLowerCase() === unitText.toLowerCase(),
  );
  if (unit === undefined)
    return refuse(`"${unitText}" is not a pressure unit known here (${pressureUnits.join(', ')})`);
  const low = lowText === undefined ? null : Number(lowText),
    high = highText === undefined ? null : Number(highText);
  if (low === null && high === null) return refuse('both limits are missing');
  if (low !== null && high !== null && low >= high)
    return refuse(`the low limit (${low}) is not below the high limit (${high})`);
  const name =
    low === null
      ? `at most ${high} ${unit}`
      : high === null
        ? `at least ${low} ${unit}`
        : `${low} to ${high} ${unit}`;
  return {
    ok: true,
    value: { format: 'overdrive-bench/spec', version: 1, name, pressureBand: { low, high, unit } },
  };
}
