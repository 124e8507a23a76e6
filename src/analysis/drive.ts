import type { Shaft } from './shaft.ts';
import type { Solenoid } from './solenoid.ts';
import { at, firstBreak, type Rows, type Timeline } from './timeline.ts';

/** A pressure that is gone for longer, while what keeps it up is on, is lost; shorter, and unit and logger are not read in one instant. */
const LOST_s = 60;
/** A channel that is on for less of an engaged stretch does not keep its pressure up (a wire the wrong way about, another solenoid). */
const DRIVEN_SHARE = 0.9;
/** Under this share of the engaged level the pressure is gone: where no shaft is logged the bench may have been stopped. */
const GONE_SHARE = 0.2;

/** What keeps a unit's pressure up, row by row: the solenoid (and a turning shaft) of the one kind of unit, the shaft of the other. */
export interface Drive {
  on: Uint8Array;
  /** Whether a standing shaft would show. */
  shaftKnown: boolean;
}

/** The drive as logged; null where the log does not show one. */
export function driveOf(held: boolean, solenoid: Solenoid | null, shaft: Shaft | null): Drive | null {
  if (held) return shaft && { on: shaft.turning, shaftKnown: true };
  if (!solenoid) return null;
  return shaft
    ? { on: solenoid.on.map((on, row) => (shaft.turning[row] === 1 ? on : 0)), shaftKnown: true }
    : { on: solenoid.on, shaftKnown: false };
}

/** An engaged stretch and the stretches of it in which the pressure was lost. */
export interface DrivenStretch extends Rows {
  lost: Rows[];
}

/**
 * Carries engaged stretches on over a loss of pressure for as long as the drive is on: a unit whose pressure gives way is not released.
 * Stretches between which the drive stayed on are one. Without a shaft speed a pressure that is gone ends it all the same.
 * @param counted pressure as it counts for engaging, NaN for none
 * @param level engaged level, same unit
 */
export function carriedOn(
  timeline: Timeline,
  counted: Float64Array,
  level: number,
  stretches: readonly Rows[],
  drive: Drive | null,
): DrivenStretch[] {
  const result: DrivenStretch[] = [];
  stretches.forEach((rows, index) => {
    const last = result.at(-1);
    const goesOn = last !== undefined && last.to >= rows.from;
    if (goesOn) last.to = rows.to;
    const stretch = goesOn ? last : { ...rows, lost: [] };
    if (!goesOn) result.push(stretch);
    if (!drive || !keepsUp(drive, rows)) return;
    const limit = Math.min(
      stretches[index + 1]?.from ?? timeline.part.to,
      firstBreak(timeline, rows.to, timeline.part.to)?.row ?? timeline.part.to,
    );
    let to = rows.to;
    while (to < limit && drive.on[to] === 1 && (drive.shaftKnown || !(at(counted, to) <= GONE_SHARE * level)))
      to++;
    if (!(lasted_s(timeline, rows.to, to) > LOST_s)) return;
    stretch.lost.push({ from: rows.to, to });
    stretch.to = to;
  });
  return result;
}

/**
 * How the pressure was gone with the drive on after a stretch, in a log that does not show whether the shaft stood.
 * @returns null where the drive went off within a minute, or says nothing
 */
export function goneWhileDriven(timeline: Timeline, rows: Rows, drive: Drive | null): Rows | null {
  if (!drive || drive.shaftKnown || !keepsUp(drive, rows)) return null;
  let to = rows.to;
  while (to < timeline.part.to && drive.on[to] === 1) to++;
  return lasted_s(timeline, rows.to, to) > LOST_s ? { from: rows.to, to } : null;
}

function lasted_s({ time_s }: Timeline, from: number, to: number): number {
  return to > from ? at(time_s, Math.min(to, time_s.length - 1)) - at(time_s, from) : 0;
}

/** Whether the drive was on over an engaged stretch and at its end. */
function keepsUp({ on }: Drive, { from, to }: Rows): boolean {
  let count = 0;
  for (let i = from; i < to; i++) count += on[i] ?? 0;
  return on[to - 1] === 1 && count >= DRIVEN_SHARE * (to - from);
}
