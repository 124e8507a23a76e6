import { withColumnKernels, type ColumnKernels } from '#kernels/column-kernels.ts';

/** Rows `from` to `to`, the last not included. */
interface Rows {
  from: number;
  to: number;
}

/** Rows of one block; the first block begins with the first row. */
export const EXTENT_ROWS = 1024;

/** Lowest and highest reading of some rows. */
export interface Extent {
  min: number;
  max: number;
}

/**
 * The lowest and the highest reading of each thousand rows of a column. Much that is asked of a whole column is told by these alone: what
 * must lie beyond a limit need not be looked for where nothing does.
 */
export class Extents {
  private readonly values: Float64Array;
  /** By block; Infinity and −Infinity where it holds no reading. */
  private readonly lowest: Float64Array;
  private readonly highest: Float64Array;

  constructor(values: Float64Array) {
    const blocks = Math.ceil(values.length / EXTENT_ROWS);
    this.values = values;
    this.lowest = new Float64Array(blocks);
    this.highest = new Float64Array(blocks);
    const { lowest, highest } = this;
    if (
      withColumnKernels(values.length, (kernels) => extentsByKernel(kernels, values, lowest, highest)) ===
      null
    )
      extentsByScript(values, lowest, highest);
  }

  /** Of some rows; null without a reading. */
  of(pieces: readonly Rows[]): Extent | null {
    const low = Float64Array.of(Infinity),
      high = Float64Array.of(-Infinity);
    let min = Infinity,
      max = -Infinity;
    for (const piece of pieces)
      this.inBlocks(piece, (from, to, block) => {
        const whole = to - from === EXTENT_ROWS;
        if (!whole) look(this.values, from, to, low, high, 0);
        const least = (whole ? this.lowest[block] : low[0]) ?? NaN,
          most = (whole ? this.highest[block] : high[0]) ?? NaN;
        if (least < min) min = least;
        if (most > max) max = most;
      });
    return min > max ? null : { min, max };
  }

  /**
   * Goes over rows block by block, in order.
   * @param over gets the first row, the row after the last, and the block that they are of
   */
  inBlocks({ from, to }: Rows, over: (from: number, to: number, block: number) => void): void {
    for (let start = from; start < to;) {
      const block = Math.floor(start / EXTENT_ROWS),
        end = Math.min(to, (block + 1) * EXTENT_ROWS);
      over(start, end, block);
      start = end;
    }
  }

  /** Whether no reading of the block lies within a tolerance of a value; so also where it holds none. */
  isBeyond(block: number, value: number, tolerance: number): boolean {
    return this.least(block) - value > tolerance || value - this.most(block) > tolerance;
  }

  /** No reading of the block is lower. */
  least(block: number): number {
    return this.lowest[block] ?? Infinity;
  }
  /** No reading of the block is higher. */
  most(block: number): number {
    return this.highest[block] ?? -Infinity;
  }
}

const known = new WeakMap<Float64Array, Extents>();

/**
 * The extents of a column, worked out when they are first asked for.
 * @param values NaN for no reading; not written to afterwards
 */
export function extentsOf(values: Float64Array): Extents {
  let extents = known.get(values);
  if (extents === undefined) {
    extents = new Extents(values);
    known.set(values, extents);
  }
  return extents;
}

/** The extents by kernels, and by the script: the same. @param lowest by block, as `highest` */
export function extentsByKernel(
  kernels: ColumnKernels,
  values: Float64Array,
  lowest: Float64Array,
  highest: Float64Array,
): true {
  const most = kernels.rows / EXTENT_ROWS;
  for (let first = 0; first < lowest.length; first += most) {
    const blocks = Math.min(most, lowest.length - first),
      some = values.subarray(first * EXTENT_ROWS, (first + blocks) * EXTENT_ROWS);
    kernels.values.set(some);
    kernels.blockExtents(some.length, EXTENT_ROWS, blocks);
    lowest.set(kernels.results.subarray(0, blocks), first);
    highest.set(kernels.results.subarray(blocks, 2 * blocks), first);
  }
  return true;
}

/** See {@link extentsByKernel}. */
export function extentsByScript(values: Float64Array, lowest: Float64Array, highest: Float64Array): void {
  for (let block = 0; block < lowest.length; block++) {
    const from = block * EXTENT_ROWS;
    look(values, from, Math.min(from + EXTENT_ROWS, values.length), lowest, highest, block);
  }
}

function look(
  values: Float64Array,
  from: number,
  to: number,
  lowest: Float64Array,
  highest: Float64Array,
  place: number,
): void {
  let low = Infinity,
    high = -Infinity;
  for (let i = from; i < to; i++) {
    const value = values[i] ?? NaN;
    if (value < low) low = value;
    if (value > high) high = value;
  }
  lowest[place] = low;
  highest[place] = high;
}
