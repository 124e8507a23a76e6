import { marksLike } from '#statistics/like.ts';
import { extentsOf } from '#statistics/extents.ts';
import { sureShareOfLevel, sustainedLevel } from './engaged-level.ts';
import { windowOf } from './set-aside.ts';
import { type Timeline } from './timeline.ts';

/** One switching of the solenoid. */
export interface SolenoidEdge {
  /** First row of the new state. */
  row: number;
  on: boolean;
}

/** The solenoid as logged: its current or its command. */
export interface Solenoid {
  edges: SolenoidEdge[];
  /** 1 where it is on. */
  on: Uint8Array;
}

/** On from half of the hold-in level; the short pull-in current does not set the level, so it is one held for 2 s and 3 samples. */
const LEVEL_s = 2;
const LEVEL_SAMPLES = 3;
const ON_SHARE = 0.5;

/**
 * The solenoid's state and edges.
 * @param values current or command, NaN where set aside: the state before goes on
 * @param levelled readings that tell how much "on" is: a pull-in beyond the sensor's range is on, and no measure for holding
 * @returns null where the column never changes state
 */
export function solenoidOf(
  timeline: Timeline,
  values: Float64Array,
  levelled: Float64Array = values,
): Solenoid | null {
  const window = windowOf(timeline, LEVEL_s, LEVEL_SAMPLES);
  const onFrom =
    sureShareOfLevel(timeline, { levelled, values }, ON_SHARE, window) ??
    onFromLevel(timeline, values, levelled, window);
  if (onFrom === null) return null;
  const on = marksLike(values),
    edges: SolenoidEdge[] = [];
  let state = -1;
  const extents = extentsOf(values);
  extents.inBlocks(timeline.part, (from, to, block) => {
    // It stays as it is.
    if ((state === 1 && extents.least(block) >= onFrom) || (state === 0 && extents.most(block) < onFrom)) {
      if (state === 1) on.fill(1, from, to);
      return;
    }
    for (let i = from; i < to; i++) {
      const value = values[i] ?? NaN;
      if (!Number.isNaN(value)) {
        const now = value >= onFrom ? 1 : 0;
        if (state >= 0 && now !== state) edges.push({ row: i, on: now === 1 });
        state = now;
      }
      on[i] = state === 1 ? 1 : 0;
    }
  });
  return edges.length === 0 ? null : { edges, on };
}

/** From where on it is on, by the level that it holds; null where it never is. */
function onFromLevel(
  timeline: Timeline,
  values: Float64Array,
  levelled: Float64Array,
  window: number,
): number | null {
  const held = sustainedLevel(timeline, levelled, timeline.part, window);
  const level =
    levelled === values || (held !== null && held > 0)
      ? held
      : sustainedLevel(timeline, values, timeline.part, window);
  return level === null || level <= 0 ? null : ON_SHARE * level;
}
