import { extentsOf } from '#statistics/extents.ts';
import { carriedOn, type Drive } from './drive.ts';
import type { Solenoid } from './solenoid.ts';
import { at, weight_s, type Rows, type Timeline } from './timeline.ts';

/** Released at this share of the engaged level. */
const RELEASE_SHARE = 0.9;
/** A released stretch shorter than this, or of fewer samples, does not end an engagement. */
const RELEASED_s = 2;
const RELEASED_SAMPLES = 3;
/** An engaged stretch shorter than this is none. */
const ENGAGED_s = 2;
/** Solenoid and pressure are not always read in the same instant: an edge counts for a crossing so many samples before it. */
const EDGE_SLACK_SAMPLES = 3;
/**
 * An edge further from the pressure's own crossing is not its instant: the solenoid was on before the shaft turned, or oil that is
 * too thick keeps the unit engaged. Common practice, no source.
 */
const EDGE_WITHIN_s = 60;

/** One time that the unit was engaged (held-charged: charged). */
export interface Engagement {
  /** From the instant of engaging to the instant of release. */
  rows: Rows;
  /** First row that the pressure itself counts as engaged, at or after `rows.from`. */
  pressureFrom: number;
  /** The log (or its part) begins engaged: the instant of engaging was not seen. */
  beganBefore: boolean;
  /** The log (or its part) ends engaged: no release was seen. */
  endsOpen: boolean;
  /** Which channel gave the instants. */
  fromSolenoid: boolean;
  toSolenoid: boolean;
  /** Stretches of more than a minute in which the pressure was below the engaged level though what keeps it up was on. */
  lost: readonly Rows[];
}

/**
 * Engaged stretches by pressure, their instants by the solenoid where it is logged.
 * @param counted pressure as it counts for engaging, NaN for none
 * @param level engaged level, same unit
 * @param drive what keeps the pressure up, null where the log does not show it
 */
export function engagementsByPressure(
  timeline: Timeline,
  counted: Float64Array,
  level: number,
  solenoid: Solenoid | null,
  drive: Drive | null,
): Engagement[] {
  const byPressure = merged(timeline, engagedStretches(timeline, counted, level), solenoid).filter(
    ({ from, to }) =>
      at(timeline.time_s, to - 1) - at(timeline.time_s, from) + weight_s(timeline, to - 1) >= ENGAGED_s,
  );
  const stretches = carriedOn(timeline, counted, level, byPressure, drive);
  const { part } = timeline;
  return stretches.map((rows, index): Engagement => {
    const free = stretches[index - 1]?.to ?? part.from;
    const to = solenoid ? releaseEdge(timeline, solenoid, rows) : null,
      on = solenoid ? engageEdge(timeline, solenoid, rows.from, free) : null;
    // An edge that is read later than a short engagement is over is not the one that began it.
    const from = on !== null && on < (to ?? rows.to) ? on : null;
    return {
      rows: { from: from ?? rows.from, to: to ?? rows.to },
      pressureFrom: rows.from,
      beganBefore: from === null && rows.from === firstReading(counted, part),
      endsOpen: to === null && rows.to >= part.to,
      fromSolenoid: from !== null,
      toSolenoid: to !== null,
      lost: rows.lost,
    };
  });
}

function firstReading(counted: Float64Array, part: Rows): number {
  let row = part.from;
  while (row < part.to && Number.isNaN(at(counted, row))) row++;
  return row;
}

/** Stretches at or above the level, until the pressure falls below the release level; rows without a reading belong to what was before. */
function engagedStretches({ part }: Timeline, counted: Float64Array, level: number): Rows[] {
  const stretches: Rows[] = [],
    extents = extentsOf(counted),
    release = RELEASE_SHARE * level;
  let from = -1;
  extents.inBlocks(part, (first, end, block) => {
    // It stays as it is.
    if (from < 0 ? extents.most(block) < level : extents.least(block) >= release) return;
    for (let i = first; i < end; i++) {
      const value = counted[i] ?? NaN;
      if (from < 0 ? value >= level : value < release) {
        if (from >= 0) stretches.push({ from, to: i });
        from = from < 0 ? i : -1;
      }
    }
  });
  if (from >= 0) stretches.push({ from, to: part.to });
  return stretches;
}

/** Takes out released stretches that are too short to be one, unless the solenoid released in them. */
function merged({ time_s }: Timeline, stretches: readonly Rows[], solenoid: Solenoid | null): Rows[] {
  const result: Rows[] = [];
  for (const rows of stretches) {
    const last = result.at(-1);
    const short =
      last !== undefined &&
      (rows.from - last.to < RELEASED_SAMPLES || at(time_s, rows.from) - at(time_s, last.to) < RELEASED_s);
    const released =
      last !== undefined &&
      solenoid !== null &&
      solenoid.edges.some(
        (edge) => !edge.on && edge.row <= rows.from && edge.row >= last.to - EDGE_SLACK_SAMPLES,
      );
    if (last && short && !released) last.to = rows.to;
    else result.push({ ...rows });
  }
  return result;
}

/** The solenoid's switching on that belongs to a rise: the last edge since the engagement before, where it is one to on. */
function engageEdge({ time_s }: Timeline, solenoid: Solenoid, row: number, free: number): number | null {
  let found: number | null = null;
  for (const edge of solenoid.edges) {
    if (edge.row > row + EDGE_SLACK_SAMPLES) break;
    if (edge.row >= free - EDGE_SLACK_SAMPLES) found = edge.on ? edge.row : null;
  }
  return found !== null && at(time_s, row) - at(time_s, found) <= EDGE_WITHIN_s ? found : null;
}

/** The solenoid's switching off that ended an engagement: the last edge up to the pressure's release, where it is one to off. */
function releaseEdge({ time_s }: Timeline, solenoid: Solenoid, rows: Rows): number | null {
  let found: number | null = null;
  for (const edge of solenoid.edges) {
    if (edge.row > rows.to + EDGE_SLACK_SAMPLES) break;
    if (edge.row > rows.from + EDGE_SLACK_SAMPLES) found = edge.on ? null : edge.row;
  }
  return found !== null && at(time_s, rows.to - 1) - at(time_s, found) <= EDGE_WITHIN_s ? found : null;
}
