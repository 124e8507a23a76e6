import { extentsOf } from '#statistics/extents.ts';
import type { Run } from './run.ts';
import { at, type Rows, type Timeline } from './timeline.ts';

/** Settling tolerance where the spec gives none, as a share of the final value. */
export const DEFAULT_TOLERANCE_SHARE = 0.02;
/** A last exit in the final tenth of the run: it never settled. */
const NEVER_SHARE = 0.1;

/** When a run's pressure came to stay. */
export interface Settling {
  /** From the run's start to the first row after the last one outside; null where it never settled. */
  time_s: number | null;
  /** Log position of the last row outside the tolerance; null where there is none. */
  lastOutside_s: number | null;
}

/**
 * Settling duration after IEC 60469 / IEEE 181: the time after which the smoothed pressure stays within ± tolerance of the final
 * value to the run's end.
 * @param smoothed judged pressure, NaN for none
 * @param tolerance above 0, same unit
 * @param isAbove whether a row's reading stood at an end of the range that lies above the tolerance: outside, however high it was
 */
export function settlingOf(
  timeline: Timeline,
  run: Run,
  smoothed: Float64Array,
  tolerance: number,
  isAbove: ((row: number) => boolean) | null = null,
): Settling {
  const { time_s } = timeline;
  const extents = extentsOf(smoothed);
  const isOutside = (value: number): boolean => Math.abs(value - run.finalValue) > tolerance;
  let next = -1;
  for (let p = run.pieces.length - 1; p >= 0; p--) {
    const piece = run.pieces[p];
    if (!piece) continue;
    const blocks: (Rows & { block: number })[] = [];
    extents.inBlocks(piece, (from, to, block) => blocks.push({ from, to, block }));
    for (const { from, to, block } of blocks.toReversed()) {
      const inside = isAbove === null && !isOutside(extents.least(block)) && !isOutside(extents.most(block));
      for (let i = inside ? from : to - 1; inside ? i < to : i >= from; i += inside ? 1 : -1) {
        const value = at(smoothed, i);
        const above = Number.isNaN(value) && isAbove?.(i) === true;
        if (Number.isNaN(value) && !above) continue;
        if (above || isOutside(value)) {
          const outside_s = at(time_s, i),
            late = outside_s > run.end_s - NEVER_SHARE * (run.end_s - run.start_s);
          return {
            time_s: late || next < 0 ? null : at(time_s, next) - run.start_s,
            lastOutside_s: outside_s,
          };
        }
        next = i;
        // Where all of a block is inside only its first reading is of use.
        if (inside) break;
      }
    }
  }
  return { time_s: next < 0 ? null : 0, lastOutside_s: null };
}
