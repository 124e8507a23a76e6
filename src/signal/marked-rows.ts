/** Rows that are looked at by themselves before four are looked at in one. */
const NEAR = 8;

/**
 * Goes from marked row to marked row: for logs of millions of which a few are marked.
 * @example new MarkedRows(Uint8Array.of(0, 0, 5, 0)).next(0) // 2
 */
export class MarkedRows {
  private readonly marks: Uint8Array;
  /** The marks from row `offset` on, four in one. */
  private readonly fours: Int32Array;
  private readonly offset: number;

  /** @param marks a byte a row; may be changed on the way */
  constructor(marks: Uint8Array) {
    this.marks = marks;
    this.offset = Math.min(marks.length, (4 - (marks.byteOffset & 3)) & 3);
    this.fours = new Int32Array(
      marks.buffer,
      this.offset < marks.length ? marks.byteOffset + this.offset : 0,
      (marks.length - this.offset) >> 2,
    );
  }

  /** First row at or after one whose mark is not 0; the number of rows where there is none. */
  next(from: number): number {
    const { marks, fours, offset } = this,
      { length } = marks;
    let row = from;
    // Far enough that the rows before a whole four are among them.
    for (const near = Math.min(from + NEAR, length); row < near; row++) if (marks[row] !== 0) return row;
    let four = (row - offset) >> 2;
    while (four < fours.length && fours[four] === 0) four++;
    for (row = Math.max(row, offset + 4 * four); row < length; row++) if (marks[row] !== 0) return row;
    return length;
  }
}
