import type { Quantities } from '#formats/assessment.ts';
import { median } from '#statistics/median.ts';
import { windowOf } from './set-aside.ts';
import type { Situation } from './situation.ts';
import { at, rowFrom } from './timeline.ts';

/** Pressure at the stop: median of so many seconds, or samples, before it. */
const BEFORE_s = 5;
const BEFORE_SAMPLES = 3;
/** A release this short before the shaft's stop belongs to it. Common practice, no source. */
const RELEASED_WITH_s = 5;

/** The next row behind one at which the shaft no longer turns; Infinity without one. */
function nextStop(turning: Uint8Array, row: number): number {
  const turns = turning.indexOf(1, row),
    stop = turns < 0 ? -1 : turning.indexOf(0, turns);
  return stop < 0 ? Infinity : stop;
}

/**
 * Leak-down: seconds from the shaft's stop until the pressure is at half of what it was. Of several stops with pressure, the shortest.
 * Where the log ends, or the shaft turns again, before that, `halfTimeAtLeast_s` says how long it was watched.
 */
export function leakDown({ timeline, shaft, reading, held, solenoid }: Situation): Quantities['leakDown'] {
  const { time_s, part } = timeline;
  if (!shaft)
    return { halfTime_s: null, reason: 'the log has no shaft speed: when the shaft stopped is not known' };
  const level = reading.level.level;
  let shortest: number | null = null,
    watched: number | null = null,
    stops = 0,
    released = 0;
  for (let row = nextStop(shaft.turning, part.from); row < part.to; row = nextStop(shaft.turning, row)) {
    const stop_s = at(time_s, row);
    const before = median(
      reading.kept.subarray(rowFrom(time_s, stop_s - windowOf(timeline, BEFORE_s, BEFORE_SAMPLES)), row),
    );
    if (level === null || !(before >= level)) continue;
    stops++;
    let i = row;
    while (i < part.to && shaft.turning[i] === 0 && !(at(reading.kept, i) <= 0.5 * before)) i++;
    // A unit that was let off with the stop does not leak down, and a pressure that is gone by the first reading after it tells no time.
    const early = rowFrom(time_s, stop_s - RELEASED_WITH_s);
    const letOff =
      !held && solenoid?.edges.some((edge) => !edge.on && edge.row >= early && edge.row <= i) === true;
    if (letOff || (i === row && at(reading.kept, i) <= 0.5 * before)) {
      released++;
      continue;
    }
    const lasted_s = at(time_s, Math.min(i, part.to - 1)) - stop_s;
    if (i < part.to && shaft.turning[i] === 0) shortest = Math.min(shortest ?? Infinity, lasted_s);
    else watched = Math.min(watched ?? Infinity, lasted_s);
    row = i;
  }
  if (shortest !== null) return { halfTime_s: shortest };
  if (stops > 0 && released === stops)
    return {
      halfTime_s: null,
      reason:
        'the pressure was released with the stop, or gone by the first reading after it: that is no leak-down that could be timed',
    };
  if (stops === 0) return { halfTime_s: null, reason: 'the shaft did not stop with pressure up' };
  return {
    halfTime_s: null,
    halfTimeAtLeast_s: watched,
    reason: `the pressure was still above half of what it was ${Math.round(watched ?? 0)} s after the shaft stopped, where the record ends`,
  };
}
