import { marksLike } from '#statistics/like.ts';
import { extentsOf } from '#statistics/extents.ts';
import { sureShareOfLevel, sustainedLevel } from './engaged-level.ts';
import { type Rows, type Timeline } from './timeline.ts';

/** The shaft turns from this share of its sustained speed on. */
const TURNING_SHARE = 0.1;
/** So many readings in a row without turning are a stop; fewer are a lost pulse. */
const STOPPED_SAMPLES = 3;

/** Whether the shaft turns, row by row. */
export interface Shaft {
  turning: Uint8Array;
  /** Kept speed, NaN where set aside. */
  speed: Float64Array;
}

/** The shaft from its speed channel; null where it never turned. */
export function shaftOf(timeline: Timeline, speed: Float64Array): Shaft | null {
  const turnsFrom =
    sureShareOfLevel(timeline, { levelled: speed, values: speed }, TURNING_SHARE) ??
    turnsFromLevel(timeline, speed);
  if (turnsFrom === null) return null;
  const turning = marksLike(speed);
  let state = 0,
    stopped = 0;
  const extents = extentsOf(speed);
  extents.inBlocks({ from: 0, to: speed.length }, (from, to, block) => {
    // It goes on turning.
    if (state === 1 && stopped === 0 && extents.least(block) >= turnsFrom) {
      turning.fill(1, from, to);
      return;
    }
    for (let i = from; i < to; i++) {
      const value = speed[i] ?? NaN;
      if (value >= turnsFrom) {
        state = 1;
        stopped = 0;
      } else if (!Number.isNaN(value) && ++stopped >= STOPPED_SAMPLES && state === 1) {
        state = 0;
        turning.fill(0, i - STOPPED_SAMPLES + 1, i);
      }
      turning[i] = state;
    }
  });
  return { turning, speed };
}

function turnsFromLevel(timeline: Timeline, speed: Float64Array): number | null {
  const level = sustainedLevel(timeline, speed, timeline.part);
  return level === null || level <= 0 ? null : TURNING_SHARE * level;
}

/** First row of the last standstill that lasts to the end of a stretch; null where the shaft turns to the end. */
export function stopRow(shaft: Shaft, { from, to }: Rows): number | null {
  let row = to;
  while (row > from && shaft.turning[row - 1] === 0) row--;
  return row === to || row === from ? null : row;
}
