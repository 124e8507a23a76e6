import { decimalsForUncertainty, fixedText, statedText, unitLabel, withUnit } from '#units/number-text.ts';

/** How the numbers of one unit are said in another. */
export interface Rewording {
  from: string;
  to: string;
  level: (value: number) => number;
  difference: (value: number) => number;
  /** Limits as shown, by what was stated: a limit reads the same wherever it stands. */
  limits: ReadonlyMap<number, number>;
  /** The numbers that a text's rounded ones came from, so that nothing is rounded twice. */
  exact: readonly number[];
  /** Digits that the table gives a number said with so many; null: as fine as it was said. */
  decimals: ((said: number) => number) | null;
}

/** Decimals that show a step at least as fine as one of so many decimals was. */
export function decimalsAsFine(decimals: number, difference: (value: number) => number): number {
  const step = Math.abs(difference(Number(`1e${-decimals}`)));
  let found = 0;
  // The last bits of a step that is a power of ten itself must not ask for one more; a step of nothing ends somewhere.
  while (found < 15 && Number(`1e${-found}`) > step * (1 + 2e-9)) found++;
  return found;
}

const NUMBER = '[−-]?\\d[\\d\\u00a0]*(?:\\.\\d+)?';
/** Before or behind a temperature that is a step of it, no place on its scale. */
const stepBefore = /(?:\bby|\babout|±|less than)[ \u00a0]$/;
const stepBehind = /^ (?:above|below|inside|clear|more|short)\b/;
/** Before a range of a gauge, which stays in the unit of its dial. */
const rangeBefore = /\brange (?:in the rig file )?(?:of |\()$/;
const quoted = (text: string): string => text.replace(/[.*+?^${}()|[\]\\/]/g, '\\$&');
const numberOf = (text: string): number => Number(text.replaceAll('\u00a0', '').replace('−', '-'));
const decimalsIn = (text: string): number => (text.includes('.') ? text.length - text.indexOf('.') - 1 : 0);

/**
 * A sentence of the assessment with its numbers in another unit. Sentences say their numbers as "425.1 ± 3.5 psi", "400 to 420 psi" or
 * "5.1 psi", decimal point and plain blanks (docs/definitions.md, "Reasons"); whatever stands otherwise stays as it is.
 */
export function reworded(text: string, rewording: Rewording): string {
  const { from, to, level, difference, limits, exact } = rewording;
  const unit = quoted(unitLabel(from));
  const pattern = new RegExp(`(?<![\\w.])(?:(${NUMBER}) (±|to) )?(${NUMBER}) ${unit}(?![A-Za-z0-9²/])`, 'gu');
  const nearest = (said: string): number => {
    const value = numberOf(said),
      decimals = decimalsIn(said);
    if (value === 0) return 0;
    return exact.find((number) => number.toFixed(decimals) === value.toFixed(decimals)) ?? value;
  };
  const one = (said: string, convert: (value: number) => number): string => {
    const limit = limits.get(numberOf(said));
    if (limit !== undefined) return statedText(limit);
    const decimals = rewording.decimals?.(decimalsIn(said)) ?? decimalsAsFine(decimalsIn(said), difference);
    return fixedText(convert(nearest(said)), decimals);
  };
  return text.replace(
    pattern,
    (whole: string, first: string | undefined, between: string, last: string, at: number) => {
      const before = text.slice(0, at),
        behind = text.slice(at + whole.length);
      if (rangeBefore.test(before)) return whole;
      if (first !== undefined && between === '±') {
        const expanded = difference(nearest(last)),
          decimals =
            expanded > 0 ? decimalsForUncertainty(expanded) : decimalsAsFine(decimalsIn(last), difference);
        const extra = Math.max(0, decimalsIn(first) - decimalsIn(last));
        return withUnit(
          `${fixedText(level(nearest(first)), decimals + extra)} ± ${fixedText(expanded, decimals)}`,
          to,
        );
      }
      if (first !== undefined) return `${one(first, level)} to ${withUnit(one(last, level), to)}`;
      const step = stepBefore.test(before) || stepBehind.test(behind);
      if (/(?:±|\bU) $/.test(before)) {
        const expanded = difference(nearest(last));
        return withUnit(fixedText(expanded, expanded > 0 ? decimalsForUncertainty(expanded) : 0), to);
      }
      return withUnit(one(last, step ? difference : level), to);
    },
  );
}

/** A sentence with its slopes ("0.11 psi/°C") in other units; to two digits, as uncertain as they are. */
export function rewordedSlopes(text: string, from: string, to: string, factor: number): string {
  if (from === to) return text;
  const pattern = new RegExp(`(${NUMBER}) ${quoted(unitLabel(from))}(?![A-Za-z0-9²/])`, 'gu');
  return text.replace(pattern, (_whole, said: string) =>
    withUnit(
      fixedText(
        numberOf(said) * factor,
        decimalsAsFine(decimalsIn(said), (step) => step * factor),
      ),
      to,
    ),
  );
}
