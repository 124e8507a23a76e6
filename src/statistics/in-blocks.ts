/** Rows that are gone over in one call, at most. */
export const BLOCK_ROWS = 1024;
/** Rows of the first call: when the engine compiles the function's loop, it has seen what stands behind the loop, too. */
const FIRST_ROWS = 64;

/**
 * Goes over rows about a thousand at a time, in order. An engine that compiles a loop while it runs keeps the numbers that the loop
 * adds up in boxes on the heap, a new one for each row: over a log of millions of rows that costs ten times the sums themselves. A
 * function that is called for block after block is compiled as a whole. What it adds up it takes from the fields of an object (from
 * a variable outside it would come in a box again) into variables of its own, and puts it back at the end. A function that whole
 * logs go through more than once has a name: one that is written on the spot is compiled anew for each of them.
 * @param over gets the first row and the row after the last
 */
export function inBlocks(from: number, to: number, over: (from: number, to: number) => void): void {
  let start = from;
  for (let rows = FIRST_ROWS; start < to; rows = BLOCK_ROWS) {
    const end = Math.min(start + rows, to);
    over(start, end);
    start = end;
  }
}
