// Lowest and highest readings of blocks of rows (src/statistics/extents.ts).
import { RESULTS, VALUES } from './places';

/**
 * The lowest and the highest of each block of the readings in VALUES: two lists in RESULTS, one behind the other, a number a block;
 * Infinity and -Infinity where a block holds none.
 */
export function blockExtents(count: i32, blockRows: i32, blocks: i32): void {
  let p: usize = VALUES;
  let left = count;
  for (let block = 0; block < blocks; block++) {
    const rows = min(left, blockRows),
      end = p + ((<usize>rows) << 3);
    let low = Infinity,
      high = -Infinity;
    for (; p < end; p += 8) {
      const value = load<f64>(p);
      if (value < low) low = value;
      if (value > high) high = value;
    }
    store<f64>(RESULTS + ((<usize>block) << 3), low);
    store<f64>(RESULTS + ((<usize>(blocks + block)) << 3), high);
    left -= rows;
  }
}
