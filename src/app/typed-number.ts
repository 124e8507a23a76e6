/**
 * Numbers as they are typed: with a decimal point or a decimal comma, whatever the reader's own mark is. A lone comma is a decimal
 * comma; several marks could mean two numbers a thousand apart, so they are refused and never guessed at.
 */

/** Marks that leave open what was meant: "1.234,5", "1,234,567". */
const hasSeveralMarks = (typed: string): boolean => (typed.match(/[.,]/gu) ?? []).length > 1;

/** What is wrong with a number of several marks, and how to write it; null: nothing. */
export function ambiguousText(...typed: readonly string[]): string | null {
  const found = typed.find(hasSeveralMarks);
  return found === undefined
    ? null
    : `“${found.trim()}” has more than one decimal mark: write a number with one point or one comma, and none between thousands.`;
}

/** Digits as a program writes them: the comma as a point, the true minus as a hyphen; blanks between thousands taken out. */
export const plainNumber = (typed: string): string =>
  typed
    .trim()
    .replace(/(?<=\d)[ \u00a0\u202f](?=\d{3}(?!\d))/gu, '')
    .replace('\u2212', '-')
    .replace(/^([^.,]*),([^.,]*)$/u, '$1.$2');

/** A number without a sign; null: none typed, NaN: not a number. */
export function typedNumber(typed: string): number | null {
  const plain = plainNumber(typed);
  if (plain === '') return null;
  return /^\d+(?:\.\d*)?$|^\.\d+$/u.test(plain) ? Number(plain) : NaN;
}
