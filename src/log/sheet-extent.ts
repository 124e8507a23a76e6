import { Inflate } from 'fflate';
import { packedBytes, type PackedEntry } from './packed-entries.ts';

const BLANK = 32,
  R = 114,
  EQUALS = 61,
  QUOTE = 34,
  APOSTROPHE = 39;
const PORTION = 65536;

/**
 * The largest row and column that a sheet's cells name (`<row r="12">`, `<c r="AB12">`; ECMA-376 part 1, 18.3.1.4 and 18.3.1.73, from
 * memory), read through portion by portion: the sheet itself is not kept. What cannot be unpacked is left to its reader.
 */
export function farthestCell(bytes: Uint8Array, entry: PackedEntry): { row: number; column: number } {
  const farthest = { row: 0, column: 0 };
  // How much of ` r="` has been met; 4 within the quotes.
  let met = 0,
    row = 0,
    column = 0;
  const look = (portion: Uint8Array): void => {
    for (const code of portion) {
      if (met === 4) {
        if (code >= 48 && code <= 57) row = row * 10 + code - 48;
        else if (code >= 65 && code <= 90) column = column * 26 + code - 64;
        else {
          if (row > farthest.row) farthest.row = row;
          if (column > farthest.column) farthest.column = column;
          met = 0;
        }
      } else if (met === 3 && (code === QUOTE || code === APOSTROPHE)) {
        met = 4;
        row = column = 0;
      } else if (code === BLANK) met = 1;
      else if (met === 1 && code === R) met = 2;
      else if (met === 2 && code === EQUALS) met = 3;
      else met = 0;
    }
  };
  const packed = packedBytes(bytes, entry);
  if (entry.method === 0) look(packed);
  else {
    const inflate = new Inflate(look);
    try {
      for (let at = 0; at < packed.length; at += PORTION)
        inflate.push(packed.subarray(at, at + PORTION), at + PORTION >= packed.length);
    } catch {
      // Damaged: its reader says so.
    }
  }
  return farthest;
}
