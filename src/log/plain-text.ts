/** Marks that tell which way text runs; some exports put them around dates and numbers. They mean nothing here. */
const marks = /[\u200e\u200f\u061c\u202a-\u202e\u2066-\u2069]/gu;
/** The wide forms of letters, digits and signs that East Asian systems write, U+FF01 to U+FF5E: each is its ASCII letter and 0xFEE0. */
const wide = /[\uff01-\uff5e]/gu;
const WIDE_AHEAD = 0xfee0;
/** Digits of other scripts, each ten in a row: Arabic-Indic from U+0660, its eastern forms from U+06F0, Devanagari from U+0966; U+066B is the decimal point of the first two. */
const otherDigits = /[\u0660-\u0669\u06f0-\u06f9\u0966-\u096f]/gu;
const ZEROS = [0x966, 0x6f0, 0x660] as const;
const asciiDigit = (digit: string): string => {
  const code = digit.charCodeAt(0);
  return String(code - (ZEROS.find((zero) => zero <= code) ?? code));
};
const decimalPoint = /\u066b/gu;
/** What keeps a spreadsheet from taking a cell for a number or a formula: `="410.1"`, `'410.1` (common practice, no source). */
const guarded = /^="([^"]*)"$/u;
const apostrophe = /^'(?=[-+.,]?\d)/u;

/** Anything that a look at each letter may change. */
const foreign = /[^\0-\u0600]/u;

/** A cell's text without what says nothing of its value: guards, marks of direction, wide letters, digits of other scripts. Itself where it has none. */
export function plainText(text: string): string {
  const first = text.charCodeAt(0);
  let plain = text.replace(marks, '');
  if (first === 61) plain = plain.replace(guarded, '$1').trim();
  else if (first === 39) plain = plain.replace(apostrophe, '');
  if (!foreign.test(plain)) return plain;
  return plain
    .replace(wide, (letter) => String.fromCharCode(letter.charCodeAt(0) - WIDE_AHEAD))
    .replace(otherDigits, asciiDigit)
    .replace(decimalPoint, '.');
}
