import { median } from '#statistics/median.ts';
import { driveOf, goneWhileDriven } from './drive.ts';
import type { Hold } from './hold.ts';
import type { PressureReading } from './pressure-reading.ts';
import type { Run } from './run.ts';
import type { Shaft } from './shaft.ts';
import type { Solenoid } from './solenoid.ts';
import { at, rowFrom, splitAtBreaks, without, type Rows, type Timeline } from './timeline.ts';

/** A released pressure is down to this share of the step (the end of a fall, IEC 60469 / IEEE 181); higher up it hangs, or was lost. */
const RELEASED_SHARE = 0.1;
/** It may take so long to get there. Common practice, no source. */
const FALL_AT_MOST_s = 60;
/** Where the log ends before that, so much of it must show that the pressure has not gone on falling. */
const LOG_ENDS_AFTER_s = 10;
/** After a release so much is the falling edge, and no level. */
const EDGE_s = 5;

/** A loss of pressure that is no release as far as the log shows, and so keeps the operating pressure from passing. */
export interface LostPressure {
  /**
   * `while-on`: lost within the hold while the drive was on. `stays-up`: after the run's end it stood between idle and engaged, and
   * nothing logged says that the unit was released. `gone-while-on`: gone with the solenoid on, and no shaft speed tells a stop.
   */
  kind: 'while-on' | 'stays-up' | 'gone-while-on';
  from_s: number;
  to_s: number;
  /** Median over that time. */
  level: number;
}

/** What it is found from. */
export interface LostInput {
  timeline: Timeline;
  reading: PressureReading;
  run: Run;
  hold: Hold | null;
  held: boolean;
  solenoid: Solenoid | null;
  shaft: Shaft | null;
  leftOut: readonly Rows[];
  /** The reviewer said where the hold ends: what comes after it is no question any more. */
  endByHand: boolean;
  /** Highest pressure that the spec allows when released, in the judged unit; null for no such limit. */
  releasedAtMost: number | null;
}

/** The first loss of pressure after the hold began, else the one that ended the run; null where there is none. */
export function lostPressureOf(input: LostInput): LostPressure | null {
  const { timeline, run, hold } = input;
  const start_s = hold?.start_s ?? Infinity,
    end_s = input.endByHand ? (hold?.end_s ?? Infinity) : Infinity;
  for (const rows of run.engagements.flatMap(({ lost }) => lost)) {
    // Readings that are set aside, as stuck or out of range, do not undo a loss: the hold may end before it for want of any.
    const judged = at(timeline.time_s, rows.to - 1) >= start_s && at(timeline.time_s, rows.from) < end_s;
    if (judged && without([rows], input.leftOut).length > 0) return found(input, 'while-on', rows);
  }
  if (input.endByHand) return null;
  const last = run.engagements.at(-1);
  if (!last || last.endsOpen || last.toSolenoid) return null;
  const rows = { from: last.pressureFrom, to: last.rows.to };
  if (!input.held) {
    const gone = goneWhileDriven(timeline, rows, driveOf(false, input.solenoid, input.shaft));
    if (gone) return found(input, 'gone-while-on', gone);
  }
  const up = staysUp(input, last.rows.to);
  return up && found(input, 'stays-up', up);
}

function found({ timeline, reading }: LostInput, kind: LostPressure['kind'], rows: Rows): LostPressure {
  const last = Math.min(rows.to, timeline.time_s.length) - 1;
  const edge = rowFrom(timeline.time_s, at(timeline.time_s, rows.from) + EDGE_s);
  return {
    kind,
    from_s: at(timeline.time_s, rows.from),
    to_s: at(timeline.time_s, last),
    level: median(reading.countedOver({ from: Math.min(edge, last), to: rows.to })),
  };
}

/** Rows after a fall of the pressure in which it stood above what is released, shaft turning or not logged; null where it ran down. */
function staysUp(input: LostInput, from: number): Rows | null {
  const { timeline, reading, run, held, solenoid, shaft } = input;
  const { time_s, part } = timeline;
  // A charge stays up after stopping, and leaks down; a solenoid that is off says that the unit was released.
  if (held || solenoid?.on[from - 1] === 0) return null;
  const idle = releasedLevel(input, from);
  const high = Math.max(idle + RELEASED_SHARE * (run.finalValue - idle), input.releasedAtMost ?? -Infinity);
  const next = reading.pressured.find(({ rows }) => rows.from >= from)?.rows.from ?? part.to;
  const limit = splitAtBreaks(timeline, { from, to: next })[0]?.to ?? from;
  let to = from;
  const turning = shaft?.turning,
    counted = reading.countedOver({ from, to: limit });
  while (to < limit && !(at(counted, to - from) <= high) && turning?.[to] !== 0) to++;
  if (to === from) return null;
  const lasted_s = at(time_s, to - 1) - at(time_s, from);
  const atLogsEnd = to === part.to && lasted_s >= LOG_ENDS_AFTER_s;
  return lasted_s > FALL_AT_MOST_s || atLogsEnd ? { from, to } : null;
}

/** Highest level from which an engagement of this log rose, other than the stretch in question; 0 where none was seen. */
function releasedLevel({ timeline, reading }: LostInput, from: number): number {
  let highest = 0;
  reading.pressured.forEach((engagement, index) => {
    const before = reading.pressured[index - 1]?.rows.to ?? timeline.part.from;
    if (before === from || engagement.beganBefore) return;
    const settled = rowFrom(timeline.time_s, at(timeline.time_s, before) + EDGE_s);
    const level = median(
      reading.countedOver({
        from: settled < engagement.rows.from && index > 0 ? settled : before,
        to: engagement.rows.from,
      }),
    );
    if (level > highest) highest = level;
  });
  return highest;
}
