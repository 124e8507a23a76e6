import { levelsOf, type Levels } from './levels.ts';

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
  median(): number {
    const { size, levels, fine } = this;
    if (size === 0) return NaN;
    const rank = (size - 1) >> 1;
    this.seek(rank);
    const k = this.k;
    if ((size & 1) === 1 || rank + 1 < this.below + (fine[k] ?? 0)) return levels.valueOf(k);
    return 0.5 * (levels.valueOf(k) + levels.valueOf(this.nextAbove(k)));
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
