import { textOf } from './encoding.ts';

const QUOTE = 34,
  LF = 10,
  CR = 13;

/** End of the cell: at the next delimiter or line end; -1 for a field in quotes that holds quotes or line ends, or is not closed. */
export function cellEnd(bytes: Uint8Array, start: number, delimiter: number): number {
  let p = start;
  let code = bytes[p] ?? 0;
  if (code === QUOTE) {
    do {
      code = bytes[++p] ?? LF;
      if (code === LF || code === CR) return -1;
    } while (code !== QUOTE);
    code = bytes[++p] ?? LF;
    return code === delimiter || code === LF || code === CR ? p : -1;
  }
  while (code !== delimiter && code !== LF && code !== CR) code = bytes[++p] ?? LF;
  return p;
}

/** Text of a cell that {@link cellEnd} took. */
export const cellText = (bytes: Uint8Array, start: number, end: number): string =>
  bytes[start] === QUOTE ? textOf(bytes, start + 1, end - 1) : textOf(bytes, start, end);
