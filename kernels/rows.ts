// Rows of a log from their bytes into numbers. Written in AssemblyScript: eight digits of ASCII are one 64-bit whole number here, and
// become their value in three multiplications, where a script takes them one by one. src/log/row-kernel.ts says what the numbers mean.
//
// A column's plan, 64 bytes from PLANS on:
//   0 kind (below)        4 most digits behind the mark    8 address of its values    12 address of its flags
//  16 address of its template and mask   20 length of the template   24, 28, 32 places of minute, second, fraction; -1 without
//  36 digits of the fraction   40 time of the template's hour in ns   48 what one unit of the fraction is in ns

/** Where the plans of the columns stand. */
export const PLANS: usize = 4096;
export const PLAN_BYTES: usize = 64;

const NUMBER: i32 = 1;
const CLOCK: i32 = 2;
const CONSTANT: i32 = 3;

const QUOTE: u32 = 34;
const LF: u32 = 10;
const CR: u32 = 13;
const BLANK: u32 = 32;
/** Digits of a number that a double surely holds; longer ones are another reader's. */
const MOST_DIGITS: i32 = 15;
const ZEROS: u64 = 0x3030303030303030;

/** Cells of the last call that held nothing, those of a row that was then not taken included. */
let missing: i32 = 0;
let rows: i32 = 0;
/** Cells in columns of numbers that are no plain numbers, 16 bytes each from ODD_CELLS on: row, column, address of its first byte and of the one behind it. */
const ODD_CELLS: usize = 16384;
const MOST_ODD: i32 = 1024;
let odd: i32 = 0;

export function rowsRead(): i32 {
  return rows;
}
export function oddCells(): i32 {
  return odd;
}
export function missingRead(): i32 {
  return missing;
}

/** Of eight bytes less '0': the top bit of each that is no digit. Right up to the first such byte, which is all that is asked of it. */
function notDigits(bytes: u64): u64 {
  return ((bytes + 0x7676767676767676) | bytes) & 0x8080808080808080;
}

/** The number that eight digits write, the first in the lowest byte. */
function eightDigits(digits: u64): u64 {
  const pairs = digits * 10 + (digits >> 8);
  return (
    ((pairs & 0x000000ff000000ff) * 0x000f424000000064 +
      ((pairs >> 16) & 0x000000ff000000ff) * 0x0000271000000001) >>
    32
  );
}

function wholePower(digits: i32): u64 {
  let power: u64 = 1;
  for (let i = 0; i < digits; i++) power *= 10;
  return power;
}

/** Powers of ten as whole numbers and as doubles, from POWERS on. */
const POWERS: usize = 1024;
const DOUBLE_POWERS: usize = 1280;
export function prepare(): void {
  for (let i = 0; i <= 16; i++) {
    store<u64>(POWERS + ((<usize>i) << 3), wholePower(i));
    store<f64>(DOUBLE_POWERS + ((<usize>i) << 3), <f64>wholePower(i));
  }
}

/** A number of at most eight digits on either side of its mark, and nothing about it: most cells of most logs. 0 for any other. */
function quickNumber(p: usize, plan: usize, row: i32, delimiter: u32, mark: u32): usize {
  const negative = load<u8>(p) == 45;
  if (negative) p++;
  let bytes = load<u64>(p) ^ ZEROS;
  let ends = notDigits(bytes);
  let bits = ctz(ends) & 0x78;
  // No digit, or eight and perhaps more.
  if (bits == 0 || bits == 64) return 0;
  let mantissa = eightDigits(bytes << (64 - bits));
  p += <usize>(bits >> 3);
  let code: u32 = load<u8>(p);
  let value: f64;
  if (code == mark && code != delimiter) {
    bytes = load<u64>(++p) ^ ZEROS;
    ends = notDigits(bytes);
    bits = ctz(ends) & 0x78;
    const places = <i32>(bits >> 3);
    if (bits == 0 || bits == 64 || places > load<i32>(plan, 4)) return 0;
    mantissa = mantissa * load<u64>(POWERS + <usize>bits) + eightDigits(bytes << (64 - bits));
    p += <usize>places;
    code = load<u8>(p);
    value = <f64>mantissa / load<f64>(DOUBLE_POWERS + <usize>bits);
  } else value = <f64>mantissa;
  if (code != delimiter && code != LF && code != CR) return 0;
  store<f64>(<usize>load<u32>(plan, 8) + ((<usize>row) << 3), negative ? -value : value);
  return p;
}

/** Digits read so far of one number: their value, and how many. */
let mantissa: u64 = 0;
let digits: i32 = 0;

/** @returns the position behind the digits that stand at `p`; 0 for too many */
function readDigits(p: usize): usize {
  while (true) {
    const bytes = load<u64>(p) ^ ZEROS;
    const ends = notDigits(bytes);
    const bits = ends == 0 ? 64 : ctz(ends) & 0x78;
    const found = <i32>(bits >> 3);
    digits += found;
    if (digits > MOST_DIGITS) return 0;
    if (found > 0) mantissa = mantissa * load<u64>(POWERS + <usize>bits) + eightDigits(bytes << (64 - bits));
    p += <usize>found;
    if (found < 8) return p;
  }
}

/** Any plain number, in quotes, between blanks, with a sign; or nothing. @returns the position behind it; the cell's own for nothing; 0 */
function anyNumber(cell: usize, plan: usize, row: i32, delimiter: u32, mark: u32, missingFlag: u32): usize {
  let p = cell;
  let code: u32 = load<u8>(p);
  const quoted = code == QUOTE;
  if (quoted) code = load<u8>(++p);
  while (code == BLANK) code = load<u8>(++p);
  const negative = code == 45;
  if (negative || code == 43) p++;
  mantissa = 0;
  digits = 0;
  p = readDigits(p);
  if (p == 0) return 0;
  code = load<u8>(p);
  let places: i32 = 0;
  if (code == mark && (code != delimiter || quoted)) {
    const before = digits;
    p = readDigits(p + 1);
    if (p == 0) return 0;
    places = digits - before;
    code = load<u8>(p);
  }
  while (code == BLANK) code = load<u8>(++p);
  if (quoted) {
    if (code != QUOTE) return 0;
    code = load<u8>(++p);
  }
  if (code != delimiter && code != LF && code != CR) return 0;
  const place = <usize>load<u32>(plan, 8) + ((<usize>row) << 3);
  if (digits > 0) {
    if (places > load<i32>(plan, 4)) return 0;
    const value = <f64>mantissa / load<f64>(DOUBLE_POWERS + ((<usize>places) << 3));
    store<f64>(place, negative ? -value : value);
    return p;
  }
  const flags = <usize>load<u32>(plan, 12);
  if (p != cell || flags == 0) return 0;
  store<f64>(place, NaN);
  store<u8>(flags + <usize>row, <u8>missingFlag);
  missing++;
  return p;
}

/**
 * Reads rows from `from` on until one is not plain, the bytes end, or `most` are read.
 * @param end behind the last byte; a line end and 40 bytes of anything must follow
 * @param mark the decimal mark; 0 where none is known yet
 * @returns the position of the first row that was not read
 */
export function readRows(
  from: usize,
  end: usize,
  most: i32,
  width: i32,
  delimiter: u32,
  mark: u32,
  missingFlag: u32,
): usize {
  let p = from;
  let row: i32 = 0;
  missing = 0;
  odd = 0;
  while (row < most && p < end) {
    const before = odd;
    const next = readRow(p, row, width, delimiter, mark, missingFlag);
    if (next == 0 || next > end) {
      odd = before;
      break;
    }
    p = next;
    row++;
  }
  rows = row;
  return p;
}

/** @returns the position behind the row's line end; 0 where the row is not plain */
function readRow(start: usize, row: i32, width: i32, delimiter: u32, mark: u32, missingFlag: u32): usize {
  let p = start;
  // A blank line is none of the kernel's rows.
  const first: u32 = load<u8>(p);
  if (first == LF || first == CR) return 0;
  for (let column = 0; column < width; column++) {
    const plan = PLANS + <usize>column * PLAN_BYTES;
    const kind = load<i32>(plan);
    const cell = p;
    let code: u32 = load<u8>(p);
    if (kind == NUMBER) {
      p = quickNumber(p, plan, row, delimiter, mark);
      if (p == 0) {
        p = anyNumber(cell, plan, row, delimiter, mark, missingFlag);
        if (p == 0) {
          // Of a column whose mark is not known, or of a time, every row counts.
          if (mark == 0 || load<u32>(plan, 12) == 0 || odd == MOST_ODD) return 0;
          p = cellEnd(cell, delimiter);
          if (p == 0) return 0;
          const record = ODD_CELLS + ((<usize>odd) << 4);
          odd++;
          store<i32>(record, row);
          store<i32>(record, column, 4);
          store<u32>(record, <u32>cell, 8);
          store<u32>(record, <u32>p, 12);
        }
      }
    } else if (kind == CLOCK) {
      p = readClock(p, plan, row);
      if (p == 0) return 0;
    } else if (kind == CONSTANT) {
      // The same bytes, or nothing.
      if (code != delimiter && code != LF && code != CR) {
        if (!sameBytes(p, <usize>load<u32>(plan, 16), load<i32>(plan, 20))) return 0;
        p += <usize>load<i32>(plan, 20);
      }
    } else {
      p = cellEnd(p, delimiter);
      if (p == 0) return 0;
    }
    code = load<u8>(p);
    if (column < width - 1) {
      if (code != delimiter) return 0;
      p++;
    }
  }
  // Delimiters behind the last column, with nothing between them.
  let code: u32 = load<u8>(p);
  while (code == delimiter || code == BLANK) code = load<u8>(++p);
  if (code == CR) code = load<u8>(++p) == LF ? LF : 0;
  if (code != LF) return 0;
  return p + 1;
}

/** End of a cell; 0 for a field in quotes that holds quotes or line ends. */
function cellEnd(p: usize, delimiter: u32): usize {
  let code: u32 = load<u8>(p);
  if (code == QUOTE) {
    do {
      code = load<u8>(++p);
      if (code == LF || code == CR) return 0;
    } while (code != QUOTE);
    code = load<u8>(++p);
    return code == delimiter || code == LF || code == CR ? p : 0;
  }
  while (code != delimiter && code != LF && code != CR) code = load<u8>(++p);
  return p;
}

/** A cell that differs from its template in minute, second and fraction alone. */
function readClock(p: usize, plan: usize, row: i32): usize {
  const length = load<i32>(plan, 20);
  const template = <usize>load<u32>(plan, 16);
  if (!sameBytes(p, template, length)) return 0;
  const minuteAt = load<i32>(plan, 24);
  if (minuteAt >= 0) {
    const minute = twoDigits(p + <usize>minuteAt);
    const second = twoDigits(p + <usize>load<i32>(plan, 28));
    if (minute > 59 || second > 59) return 0;
    let fraction: u64 = 0;
    const places = load<i32>(plan, 36);
    if (places > 0) {
      const bytes = load<u64>(p + <usize>load<i32>(plan, 32)) ^ ZEROS;
      if (<i32>(ctz(notDigits(bytes)) >> 3) < places) return 0;
      const shift: u64 = 64 - (places << 3);
      fraction = eightDigits(bytes << shift);
    }
    const out = <usize>load<u32>(plan, 8);
    if (out != 0)
      store<f64>(
        out + ((<usize>row) << 3),
        load<f64>(plan, 40) + <f64>(minute * 60 + second) * 1e9 + <f64>fraction * load<f64>(plan, 48),
      );
  }
  return p + <usize>length;
}

/** Whether the bytes are those of a template where its mask, 64 bytes behind it, has ones. */
function sameBytes(p: usize, template: usize, length: i32): bool {
  for (let i: i32 = 0; i < length; i += 8)
    if (
      ((load<u64>(p + <usize>i) ^ load<u64>(template + <usize>i)) & load<u64>(template + 64 + <usize>i)) !=
      0
    )
      return false;
  return true;
}

/** The number that two digits write; over 99 where one is none. */
function twoDigits(p: usize): u32 {
  const high = <u32>load<u8>(p) - 48,
    low = <u32>load<u8>(p + 1) - 48;
  return high > 9 || low > 9 ? 100 : high * 10 + low;
}
