import { inPieces, withColumnKernels, type ColumnKernels } from '#kernels/column-kernels.ts';
import { inBlocks } from '#statistics/in-blocks.ts';

/**
 * The grid that a column's readings lie on: each is a whole number of steps. Levels are worked out from a reading when they are asked
 * for: a list of them all would be half as large as the column.
 */
export class Levels {
  readonly count: number;
  /** Difference of neighbouring levels, in the unit of the readings. */
  readonly step: number;
  /** Decimal grid: levels a unit, and level 0 in steps from zero. */
  private readonly factor: number;
  private readonly base: number;
  /** Other grids: the reading at level 0, and the one at each level that occurs. */
  private readonly low: number;
  private readonly table: Float64Array | null;

  constructor(
    { count, step }: { count: number; step: number },
    grid: { factor: number; base: number } | { low: number; table: Float64Array },
  ) {
    this.count = count;
    this.step = step;
    this.factor = 'factor' in grid ? grid.factor : 0;
    this.base = 'base' in grid ? grid.base : 0;
    this.low = 'low' in grid ? grid.low : 0;
    this.table = 'table' in grid ? grid.table : null;
  }

  /** @param value a reading of the column, not NaN */
  levelOf(value: number): number {
    return this.table === null
      ? Math.round(value * this.factor) - this.base
      : Math.round((value - this.low) / this.step);
  }
  /** Counts the readings of some rows by level. */
  addCounts(values: Float64Array, from: number, to: number, counts: Int32Array): void {
    for (let row = from; row < to; row++) {
      const value = values[row] ?? NaN;
      if (value !== value) continue;
      const level = this.levelOf(value);
      counts[level] = (counts[level] ?? 0) + 1;
    }
  }
  /** Puts the level of each reading of some rows into a list, from place 0 on; {@link NO_LEVEL} where there is no reading. */
  ofRows(values: Float64Array, from: number, to: number, list: Int32Array): void {
    for (let row = from; row < to; row++) {
      const value = values[row] ?? NaN;
      list[row - from] = value === value ? this.levelOf(value) : NO_LEVEL;
    }
  }
  /** Tells kernels of the grid. @returns false where it has too many levels for them */
  tell(kernels: ColumnKernels): boolean {
    if (this.count > kernels.levels) return false;
    if (this.table === null) kernels.setDecimalGrid(this.factor, this.base, this.count);
    else {
      kernels.setTableGrid(this.low, this.step, this.count);
      kernels.table.set(this.table);
    }
    return true;
  }
  /** The reading at a level, to the last bit. */
  valueOf(level: number): number {
    return this.table === null ? (level + this.base) / this.factor : (this.table[level] ?? NaN);
  }
}

/** In a list of levels: no reading. */
export const NO_LEVEL = -1;

/** More levels than this and the counts cost more memory than a sorted window costs time. */
const MOST_LEVELS = 4_194_304;
/** A log writes at most so many digits after the decimal mark before it is not a grid of any use. */
const POWERS_OF_TEN = [1, 10, 100, 1e3, 1e4, 1e5, 1e6] as const;
/** Levels from zero stay within what 32 bits hold. */
const MOST = 2147483647;
/** Distance from a level, as a share of the step, that the rounding of a unit conversion may cause. */
const OFF_GRID = 1e-4;
/** Readings looked at to guess a step that is not decimal. */
const LOOKED_AT = 4096;

/** Grids already found. Nobody writes into a column once it is read, so what was found of it stays true. */
const known = new WeakMap<Float64Array, Levels | null>();

/**
 * Finds the grid that a logger's digits put the readings on: the decimal one, else (readings converted to another unit) the
 * one whose step is the smallest difference seen. Exact or nothing: every reading is checked.
 * @param values NaN for no reading; not written to afterwards
 * @returns null where the readings lie on no grid of at most four million levels
 */
export function levelsOf(values: Float64Array): Levels | null {
  const before = known.get(values);
  if (before !== undefined) return before;
  const levels = decimalLevels(values) ?? stepLevels(values);
  known.set(values, levels);
  return levels;
}

/** How many readings a column has at each level, once they were counted. */
const counted = new WeakMap<Float64Array, Int32Array>();

/** Readings of a column at each level of its grid; null where it has none. Not to be written to. */
export function levelCounts(values: Float64Array): Int32Array | null {
  const levels = levelsOf(values);
  if (levels === null) return null;
  const before = counted.get(values);
  if (before !== undefined) return before;
  const counts = countsOfRows(levels, values, { from: 0, to: values.length });
  counted.set(values, counts);
  return counts;
}

/** Readings of some rows of a column at each level of its grid. */
export function countsOfRows(
  levels: Levels,
  values: Float64Array,
  { from, to }: { from: number; to: number },
): Int32Array {
  const some = values.subarray(from, to);
  return (
    withColumnKernels(some.length, (kernels) => countsByKernel(kernels, levels, some)) ??
    countsByScript(levels, some)
  );
}

/** null where the grid has too many levels. */
export function countsByKernel(
  kernels: ColumnKernels,
  levels: Levels,
  values: Float64Array,
): Int32Array | null {
  if (!levels.tell(kernels)) return null;
  inPieces(0, values.length, (from, to) => {
    kernels.values.set(values.subarray(from, to));
    kernels.countLevels(to - from);
  });
  const counts = kernels.counts.slice(0, levels.count);
  kernels.clearCounts();
  return counts;
}
/** The same for any grid. */
export function countsByScript(levels: Levels, values: Float64Array): Int32Array {
  const counts = new Int32Array(levels.count);
  inBlocks(0, values.length, (from, to) => levels.addCounts(values, from, to, counts));
  return counts;
}

/** Tells that a column is another one without some of its readings: it lies on the same grid. */
export function shareLevels(part: Float64Array, whole: Float64Array): void {
  const levels = known.get(whole);
  if (levels !== undefined) known.set(part, levels);
}

function decimalLevels(values: Float64Array): Levels | null {
  const found =
    withColumnKernels(values.length, (kernels) => gridByKernel(kernels, values)) ?? gridByScript(values);
  if (found === OFF_ANY_GRID) return null;
  const { factor, low, high } = found,
    count = high - low + 1;
  return count > 0 && count <= MOST_LEVELS
    ? new Levels({ count, step: 1 / factor }, { factor, base: low })
    : null;
}

/** A decimal grid: levels a unit, the lowest and the highest reading in steps. Infinity and −Infinity without a reading. */
interface DecimalGrid {
  factor: number;
  low: number;
  high: number;
}
const OFF_ANY_GRID = 'off any grid';

/** In one pass: where a reading is off the grid, a finer one takes its place. */
export function gridByKernel(
  kernels: ColumnKernels,
  values: Float64Array,
): DecimalGrid | typeof OFF_ANY_GRID {
  let onGrid = true;
  kernels.beginGrid();
  inPieces(0, values.length, (from, to) => {
    if (!onGrid) return;
    kernels.values.set(values.subarray(from, to));
    onGrid = kernels.lookForGrid(to - from) !== 0;
  });
  if (!onGrid) return OFF_ANY_GRID;
  return { factor: kernels.gridFactor(), low: kernels.gridLow(), high: kernels.gridHigh() };
}

/** One grid after the other, each until a reading is off it. */
export function gridByScript(values: Float64Array): DecimalGrid | typeof OFF_ANY_GRID {
  for (const factor of POWERS_OF_TEN) {
    const found = wholeSteps(values, factor);
    if (found !== null) return { factor, ...found };
  }
  return OFF_ANY_GRID;
}

/** The lowest and the highest reading in steps of 1/factor; null at the first one that is no whole number of them. */
function wholeSteps(values: Float64Array, factor: number): { low: number; high: number } | null {
  const all = { low: Infinity, high: -Infinity, whole: true };
  inBlocks(0, values.length, (from, to) => lookOn(values, factor, all, from, to));
  return all.whole ? { low: all.low, high: all.high } : null;
}

function stepLevels(values: Float64Array): Levels | null {
  const seen = new Set<number>();
  let low = Infinity;
  let high = -Infinity;
  for (let i = 0; i < values.length; i++) {
    const value = values[i] ?? NaN;
    if (Number.isNaN(value)) continue;
    if (i < LOOKED_AT) seen.add(value);
    if (value < low) low = value;
    if (value > high) high = value;
  }
  const distinct = Float64Array.from(seen).sort();
  let smallest = Infinity;
  for (let i = 1; i < distinct.length; i++)
    smallest = Math.min(smallest, (distinct[i] ?? NaN) - (distinct[i - 1] ?? NaN));
  const span = high - low;
  const count = Math.round(span / smallest) + 1;
  if (!Number.isFinite(span) || !(count > 1 && count <= MOST_LEVELS)) return null;
  const step = span / (count - 1);
  const table = new Float64Array(count).fill(NaN);
  for (let i = 0; i < values.length; i++) {
    const value = values[i] ?? NaN;
    if (Number.isNaN(value)) continue;
    const place = (value - low) / step;
    const k = Math.round(place);
    // Off the grid by more than rounding can explain: a handful of readings that merely do not collide is no grid.
    if (Math.abs(place - k) > OFF_GRID) return null;
    const held = table[k] ?? NaN;
    if (Number.isNaN(held)) table[k] = value;
    else if (held !== value) return null;
  }
  return new Levels({ count, step }, { low, table });
}

/** Some rows more. */
function lookOn(
  values: Float64Array,
  factor: number,
  all: { low: number; high: number; whole: boolean },
  from: number,
  to: number,
): void {
  if (!all.whole) return;
  let { low, high } = all;
  for (let i = from; i < to; i++) {
    const value = values[i] ?? NaN;
    if (value !== value) continue;
    const k = Math.round(value * factor);
    // Division rounds correctly, so that k ÷ 10^d is the very double that the decimal text was read as.
    if (k / factor !== value || k < -MOST || k > MOST) {
      all.whole = false;
      return;
    }
    if (k < low) low = k;
    if (k > high) high = k;
  }
  all.low = low;
  all.high = high;
}
