/** Rows that are looked through in one call: a function that is called often is compiled as a whole. */
const SOME_ROWS = 16_384;

/**
 * Goes over the rows whose byte is not 0, in order. Readings that were set aside are few: four rows at a time are passed over.
 * @param marks a byte a row, such as flags
 * @param over may change the row's own mark
 */
export function eachMarked(marks: Uint8Array, from: number, to: number, over: (row: number) => void): void {
  const words = wordsOf(marks);
  for (let row = from; row < to;) {
    const end = Math.min(to, row + SOME_ROWS);
    row = nextMarked(marks, words, row, end);
    if (row < end) over(row++);
  }
}

/** Whether two lists of marks are the same, each byte. */
export function sameMarks(marks: Uint8Array, others: Uint8Array): boolean {
  if (marks === others) return true;
  if (marks.length !== others.length) return false;
  const words = wordsOf(marks),
    otherWords = wordsOf(others);
  const alike = words === null || otherWords === null ? 0 : words.length;
  if (words !== null && otherWords !== null)
    for (let at = 0; at < alike; at += SOME_ROWS)
      if (!areAlike(words, otherWords, at, Math.min(alike, at + SOME_ROWS))) return false;
  return areAlike(marks, others, 4 * alike, marks.length);
}

type Marks = Uint8Array | Uint32Array;

function areAlike(marks: Marks, others: Marks, from: number, to: number): boolean {
  for (let at = from; at < to; at++) if (marks[at] !== others[at]) return false;
  return true;
}

/** The same bytes in fours; null where they do not begin at a multiple of four. */
function wordsOf(marks: Uint8Array): Uint32Array | null {
  return marks.byteOffset % 4 === 0
    ? new Uint32Array(marks.buffer, marks.byteOffset, marks.length >> 2)
    : null;
}

/** The next row with a mark; `to` where there is none before. */
function nextMarked(marks: Uint8Array, words: Uint32Array | null, from: number, to: number): number {
  let row = from;
  if (words !== null) {
    for (; row < to && (row & 3) !== 0; row++) if (marks[row] !== 0) return row;
    while (row + 4 <= to && words[row >> 2] === 0) row += 4;
  }
  while (row < to && marks[row] === 0) row++;
  return row;
}
