/** Marks that tell which way text runs; some exports put them around dates and numbers. They mean nothing here. */
const marks = /[\u200e\u200f\u061c\u202a-\u202e\u2066-\u2069]/gu;
/** The wide forms of letters, digits and signs that East Asian systems write, U+FF01 to U+FF5E: each is its ASCII letter and 0xFEE0. */
const wide = /[\uff01-\uff5e]/gu;
const WIDE_AHEAD = 0xfee0;
/** What keeps a spreadsheet from taking a cell for a number or a formula: `="410.1"`, `'410.1` (common practice, no source). */
const guarded = /^="([^"]*)"$/u;
const apostrophe = /^'(?=[-+.,]?\d)/u;

/** A cell's text without what says nothing of its value: guards, marks of direction, wide letters. Itself where it has none. */
export function plainText(text: string): string {
  const first = text.charCodeAt(0);
  let plain = text.replace(marks, '');
  if (first === 61) plain = plain.replace(guarded, '$1').trim();
  else if (first === 39) plain = plain.replace(apostrophe, '');
  return plain.replace(wide, (letter) => String.fromCharCode(letter.charCodeAt(0) - WIDE_AHEAD));
}
