import { levelsOf, NO_LEVEL, type Levels } from './levels.ts';

/** Readings of one column that come and go; no reading (NaN) is taken for nothing. */
export interface MedianWindow {
  /** Readings in the window. */
  readonly size: number;
  add: (value: number) => void;
  /** Takes out a reading that was added. */
  remove: (value: number) => void;
  /** Of an even number the mean of the two middle ones; NaN of none. */
  median: () => number;
  /** Readings nearer to `centre` than `distance`; may count a few too many at the border, never too few. */
  near: (centre: number, distance: number) => number;
}

/** Levels in a block, and blocks in a group, as powers of two: what is empty is passed over by blocks and by groups. */
const BITS = 6;
const GROUP_BITS = 2 * BITS;
const BLOCK = 1 << BITS;
const GROUP = 1 << GROUP_BITS;

/**
 * A window whose median is at hand: counts on the log's own grid where there is one, else a sorted list.
 * Both give the same bits. Counts stay fast whatever the order of the readings (0, 410, 0, 410 … too).
 */
export function medianWindow(values: Float64Array): MedianWindow {
  const levels = levelsOf(values);
  return levels ? new CountedWindow(levels) : new SortedWindow();
}

/**
 * Counts of levels, of blocks and of groups. A pointer stays where the middle was found last and walks to where it is now: of
 * readings that follow each other the middles lie near to each other, and where they do not, it steps over blocks and groups.
 */
export class CountedWindow implements MedianWindow {
  size = 0;
  private readonly levels: Levels;
  private readonly fine: Int32Array;
  private readonly blocks: Int32Array;
  private readonly groups: Int32Array;
  /** The level that the pointer is at, and how many readings lie below it. */
  private k = 0;
  private below = 0;
  /** Rows that {@link slide} has in the window, and its lists. */
  private low = 0;
  private high = 0;
  private leaving = new Int32Array(0);
  private coming = new Int32Array(0);
  private readonly one = new Float64Array(1);

  constructor(levels: Levels) {
    this.levels = levels;
    const groups = (levels.count >> GROUP_BITS) + 1;
    this.groups = new Int32Array(groups);
    this.blocks = new Int32Array(groups << BITS);
    this.fine = new Int32Array(groups << GROUP_BITS);
  }

  add(value: number): void {
    if (value !== value) return;
    const k = this.levels.levelOf(value);
    const { fine, blocks, groups } = this;
    fine[k] = (fine[k] ?? 0) + 1;
    blocks[k >> BITS] = (blocks[k >> BITS] ?? 0) + 1;
    groups[k >> GROUP_BITS] = (groups[k >> GROUP_BITS] ?? 0) + 1;
    this.size++;
    if (k < this.k) this.below++;
  }
  remove(value: number): void {
    if (value !== value) return;
    const k = this.levels.levelOf(value);
    const { fine, blocks, groups } = this;
    fine[k] = (fine[k] ?? 0) - 1;
    blocks[k >> BITS] = (blocks[k >> BITS] ?? 0) - 1;
    groups[k >> GROUP_BITS] = (groups[k >> GROUP_BITS] ?? 0) - 1;
    this.size--;
    if (k < this.k) this.below--;
  }
  /**
   * Goes along some rows with their windows: adds, removes and asks for the median row by row, in one loop over whole numbers.
   * @param values the column
   * @param rows the rows to go along; none was gone along before
   * @param first from place 0 on the first row of each window, `end` the row after its last; neither ever falls
   * @param medians gets the median at each of the rows, from place 0 on
   */
  slide(
    values: Float64Array,
    rows: { from: number; to: number },
    first: Int32Array,
    end: Int32Array,
    medians: Float64Array,
  ): void {
    const { fine, blocks, groups } = this;
    const { from, to } = rows;
    const outOf = this.low,
      inOf = this.high;
    const leaving = this.levelsOf(values, outOf, first[to - from - 1] ?? 0, 'leaving'),
      coming = this.levelsOf(values, inOf, end[to - from - 1] ?? 0, 'coming');
    let { size, k, below, low, high } = this;
    for (let row = from; row < to; row++) {
      const start = first[row - from] ?? 0,
        stop = end[row - from] ?? 0;
      // Take out first: past a gap nothing of the window stays.
      for (; low < start && low < high; low++) {
        const level = leaving[low - outOf] ?? NO_LEVEL;
        if (level === NO_LEVEL) continue;
        fine[level] = (fine[level] ?? 0) - 1;
        blocks[level >> BITS] = (blocks[level >> BITS] ?? 0) - 1;
        groups[level >> GROUP_BITS] = (groups[level >> GROUP_BITS] ?? 0) - 1;
        size--;
        below -= isBelow(level, k);
      }
      if (low < start) low = high = start;
      for (; high < stop; high++) {
        const level = coming[high - inOf] ?? NO_LEVEL;
        if (level === NO_LEVEL) continue;
        fine[level] = (fine[level] ?? 0) + 1;
        blocks[level >> BITS] = (blocks[level >> BITS] ?? 0) + 1;
        groups[level >> GROUP_BITS] = (groups[level >> GROUP_BITS] ?? 0) + 1;
        size++;
        below += isBelow(level, k);
      }
      const rank = (size - 1) >> 1;
      if (size > 0 && (below > rank || below + (fine[k] ?? 0) <= rank)) {
        this.k = k;
        this.below = below;
        this.seek(rank);
        k = this.k;
        below = this.below;
      }
      this.putMiddle(size, k, below, medians, row - from);
    }
    this.size = size;
    this.k = k;
    this.below = below;
    this.low = low;
    this.high = high;
  }
  /** Levels of some rows in a list that is used again and again. */
  private levelsOf(values: Float64Array, from: number, to: number, list: 'leaving' | 'coming'): Int32Array {
    if (to - from > this[list].length) this[list] = new Int32Array(2 * (to - from));
    this.levels.ofRows(values, from, to, this[list]);
    return this[list];
  }
  median(): number {
    const { size, one } = this;
    if (size > 0) this.seek((size - 1) >> 1);
    this.putMiddle(size, this.k, this.below, one, 0);
    return one[0] ?? NaN;
  }
  /** Puts the median into a list (a number handed back would come in a box), with the pointer at its level. */
  private putMiddle(size: number, k: number, below: number, list: Float64Array, place: number): void {
    const { levels, fine } = this;
    if (size === 0) list[place] = NaN;
    else if ((size & 1) === 1 || ((size - 1) >> 1) + 1 < below + (fine[k] ?? 0))
      list[place] = levels.valueOf(k);
    else list[place] = 0.5 * (levels.valueOf(k) + levels.valueOf(this.nextAbove(k)));
  }
  near(centre: number, distance: number): number {
    const { levels, fine, blocks } = this;
    // In levels, a thousandth of one wider, so that rounding loses none.
    const at = (centre - levels.valueOf(0)) / levels.step;
    const reach = distance / levels.step + 1e-3;
    const last = Math.min(levels.count - 1, Math.floor(at + reach));
    let k = Math.max(0, Math.ceil(at - reach));
    let sum = 0;
    while (k <= last) {
      if ((k & (BLOCK - 1)) === 0 && k + BLOCK - 1 <= last) {
        sum += blocks[k >> BITS] ?? 0;
        k += BLOCK;
      } else sum += fine[k++] ?? 0;
    }
    return sum;
  }

  /** Moves the pointer to the level of the reading that has `rank` readings before it. @param rank under `size` */
  private seek(rank: number): void {
    const { fine, blocks, groups } = this;
    let { k, below } = this;
    while (below > rank) {
      if ((k & (GROUP - 1)) === 0 && below - (groups[(k >> GROUP_BITS) - 1] ?? 0) > rank) {
        below -= groups[(k >> GROUP_BITS) - 1] ?? 0;
        k -= GROUP;
      } else if ((k & (BLOCK - 1)) === 0 && below - (blocks[(k >> BITS) - 1] ?? 0) > rank) {
        below -= blocks[(k >> BITS) - 1] ?? 0;
        k -= BLOCK;
      } else below -= fine[--k] ?? 0;
    }
    for (;;) {
      const held = fine[k] ?? 0;
      if (below + held > rank) break;
      if ((k & (GROUP - 1)) === 0 && below + (groups[k >> GROUP_BITS] ?? 0) <= rank) {
        below += groups[k >> GROUP_BITS] ?? 0;
        k += GROUP;
      } else if ((k & (BLOCK - 1)) === 0 && below + (blocks[k >> BITS] ?? 0) <= rank) {
        below += blocks[k >> BITS] ?? 0;
        k += BLOCK;
      } else {
        below += held;
        k++;
      }
    }
    this.k = k;
    this.below = below;
  }
  /** The next level above that holds a reading; there is one. */
  private nextAbove(level: number): number {
    const { fine, blocks, groups } = this;
    let k = level + 1;
    while ((fine[k] ?? 1) === 0) {
      if ((k & (GROUP - 1)) === 0 && groups[k >> GROUP_BITS] === 0) k += GROUP;
      else if ((k & (BLOCK - 1)) === 0 && blocks[k >> BITS] === 0) k += BLOCK;
      else k++;
    }
    return k;
  }
}

/** 1 where a level lies below another, else 0: no branch, since nobody can guess on which side of the median a reading falls. */
const isBelow = (level: number, other: number): number => (level - other) >>> 31;

/** A sorted list: each change moves what lies behind it. The plain way, for readings on no grid and to test the other by. */
export class SortedWindow implements MedianWindow {
  size = 0;
  private sorted = new Float64Array(64);

  add(value: number): void {
    if (value !== value) return;
    if (this.size === this.sorted.length) {
      const larger = new Float64Array(2 * this.size);
      larger.set(this.sorted);
      this.sorted = larger;
    }
    const place = this.placeOf(value);
    this.sorted.copyWithin(place + 1, place, this.size);
    this.sorted[place] = value;
    this.size++;
  }
  remove(value: number): void {
    if (value !== value) return;
    const place = this.placeOf(value);
    this.sorted.copyWithin(place, place + 1, this.size);
    this.size--;
  }
  median(): number {
    const { sorted, size } = this;
    const upper = sorted[size >> 1] ?? NaN;
    if (size % 2 === 1) return upper;
    return size === 0 ? NaN : 0.5 * ((sorted[(size >> 1) - 1] ?? NaN) + upper);
  }
  near(centre: number, distance: number): number {
    // A little wider, so that rounding loses none.
    const reach = distance + 1e-15 * Math.abs(centre);
    return this.placeOf(centre + reach) - this.placeOf(centre - reach);
  }

  private placeOf(value: number): number {
    let low = 0;
    let high = this.size;
    while (low < high) {
      const mid = (low + high) >>> 1;
      if ((this.sorted[mid] ?? NaN) < value) low = mid + 1;
      else high = mid;
    }
    return low;
  }
}
