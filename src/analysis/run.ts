import { median } from '#statistics/median.ts';
import { gridMedian } from './grid-median.ts';
import type { Engagement } from './engagements.ts';
import { at, rowFrom, span_s, splitAtBreaks, without, type Rows, type Timeline } from './timeline.ts';

/** Share of the final value above which a reading still belongs to the run: the falling edge is not judged. */
const TRIM_SHARE = 0.9;
/** A falling edge is over in so long. What falls below the share for longer is a unit that gives way, and stays in the run. Common practice, no source. */
const EDGE_AT_MOST_s = 60;
/** Power went while engaged: the pressure may have gone so long before the record did. Longer, and the unit was stopped on purpose. */
const STOPPED_BEFORE_GAP_s = 60;

/** The stretch that is judged, before its end is trimmed. */
export interface Stretch {
  /** Engagements that it is made of, in order. */
  engagements: Engagement[];
  /** From the first one's instant of engaging to the last one's release. */
  rows: Rows;
  /** Engaged rows without a break inside, in order, left-out spans taken out. */
  pieces: Rows[];
}

/** The run that is judged. */
export interface Run extends Stretch {
  start_s: number;
  end_s: number;
  /** Median over the last third before trimming. */
  finalValue: number;
  /** Span less gaps and less released stretches between joined engagements. */
  length_s: number;
  /** The pressure fell below nine tenths of the final value for longer than a falling edge lasts, and did not come back. */
  gaveWay: boolean;
}

/** A span of the log, seconds from the first row; null: from the first, to the last row. */
export interface Span {
  from_s: number | null;
  to_s: number | null;
}

const overlaps = (timeline: Timeline, { rows }: Engagement, span: Span): boolean =>
  (span.to_s === null || at(timeline.time_s, rows.from) <= span.to_s) &&
  (span.from_s === null || at(timeline.time_s, rows.to - 1) >= span.from_s);

/**
 * The run: the longest engagement, joined with neighbours that a gap in the record or a whole-hour clock step parts from it, and
 * with what the reviewer joined.
 * @param joins spans whose engagements are one run
 * @param leftOut rows that the reviewer leaves out, in order
 * @returns null without an engagement
 */
export function stretchOf(
  timeline: Timeline,
  engagements: readonly Engagement[],
  joins: readonly Span[],
  leftOut: readonly Rows[],
): Stretch | null {
  const length = ({ rows }: Engagement): number =>
    at(timeline.time_s, rows.to - 1) - at(timeline.time_s, rows.from);
  // Neighbours that belong together, in order. What the reviewer joined counts as one engagement when the longest is looked for.
  const chains: { engagements: Engagement[]; longest: number }[] = [];
  for (const engagement of engagements) {
    const chain = chains.at(-1),
      before = chain?.engagements.at(-1);
    const byHand = before !== undefined && joinedByHand(timeline, before, engagement, joins);
    if (chain && before && (byHand || partedByBreak(timeline, before, engagement))) {
      chain.engagements.push(engagement);
      chain.longest = byHand
        ? chain.longest + length(engagement)
        : Math.max(chain.longest, length(engagement));
    } else chains.push({ engagements: [engagement], longest: length(engagement) });
  }
  let chosen: Engagement[] = [],
    longest = -1;
  for (const chain of chains)
    if (chain.longest > longest) {
      chosen = chain.engagements;
      longest = chain.longest;
    }
  if (chosen.length === 0) return null;
  const rows = { from: chosen[0]?.rows.from ?? 0, to: chosen.at(-1)?.rows.to ?? 0 };
  return { engagements: chosen, rows, pieces: piecesOf(timeline, chosen, leftOut) };
}

function piecesOf(timeline: Timeline, engagements: readonly Engagement[], leftOut: readonly Rows[]): Rows[] {
  return without(
    engagements.flatMap(({ rows }) => splitAtBreaks(timeline, rows)),
    leftOut,
  );
}

/** Whether the reviewer joined two neighbours. */
function joinedByHand(
  timeline: Timeline,
  before: Engagement,
  after: Engagement,
  joins: readonly Span[],
): boolean {
  return joins.some((span) => overlaps(timeline, before, span) && overlaps(timeline, after, span));
}

/** Whether the break that parts two neighbours struck while the unit was engaged, or at once after. */
function partedByBreak(timeline: Timeline, before: Engagement, after: Engagement): boolean {
  return timeline.breaks.some(
    ({ row, kind }) =>
      kind !== 'cut' &&
      row >= before.rows.to &&
      row <= after.rows.from &&
      at(timeline.time_s, row - 1) - at(timeline.time_s, before.rows.to - 1) <= STOPPED_BEFORE_GAP_s,
  );
}

/** Median of the kept readings of pieces from a time on. */
function medianFrom(
  timeline: Timeline,
  kept: Float64Array,
  pieces: readonly Rows[],
  from_s: number,
  onGrid: boolean,
): number {
  const rows = pieces
    .filter(({ to }) => at(timeline.time_s, to - 1) >= from_s)
    .map(({ from, to }) => ({ from: Math.max(from, rowFrom(timeline.time_s, from_s)), to }));
  if (rows.length === 1 && rows[0] && onGrid) return gridMedian(kept, rows[0], false);
  const parts = rows.map(({ from, to }) => kept.subarray(from, to));
  if (parts.length === 1 && parts[0]) return median(parts[0]);
  const all = new Float64Array(parts.reduce((sum, part) => sum + part.length, 0));
  let offset = 0;
  for (const part of parts) {
    all.set(part, offset);
    offset += part.length;
  }
  return median(all);
}

/** Last row of pieces with a kept reading above a level; −1 for none. */
function lastAbove(kept: Float64Array, pieces: readonly Rows[], level: number): number {
  for (let p = pieces.length - 1; p >= 0; p--) {
    const piece = pieces[p];
    if (!piece) continue;
    for (let i = piece.to - 1; i >= piece.from; i--) if (at(kept, i) > level) return i;
  }
  return -1;
}

/**
 * Trims the run's end to its last reading above 90 % of the final value. Where that would take off more than a falling edge of a
 * minute the unit gave way before it was released: then only the edge is taken off, by the level of the last minute.
 * @param kept judged pressure, NaN where set aside
 * @param leaksDown a unit that keeps its charge, when it stopped is not known: its slow fall is no part of the run, however long it takes
 * @param stop_s when the shaft stopped, null where it is not known: the run ends there at the latest
 * @param asRead the readings lie on the grid of the log's own column
 * @returns null without a reading in the stretch
 */
export function trimmedRun(
  timeline: Timeline,
  stretch: Stretch,
  kept: Float64Array,
  leaksDown: boolean,
  stop_s: number | null,
  asRead = false,
): Run | null {
  const { time_s } = timeline;
  let pieces = stretch.pieces;
  if (stop_s !== null) {
    const to = rowFrom(time_s, stop_s);
    pieces = pieces
      .map((piece) => ({ from: piece.from, to: Math.min(piece.to, to) }))
      .filter((p) => p.to > p.from);
  }
  const firstPiece = pieces[0],
    lastPiece = pieces.at(-1);
  if (!firstPiece || !lastPiece) return null;
  const start_s = at(time_s, firstPiece.from),
    whole_s = at(time_s, lastPiece.to - 1);
  const finalValue = medianFrom(timeline, kept, pieces, start_s + (2 / 3) * (whole_s - start_s), asRead);
  if (!Number.isFinite(finalValue)) return null;
  let end = lastAbove(kept, pieces, TRIM_SHARE * finalValue),
    gaveWay = false;
  if (!leaksDown && (end < 0 || whole_s - at(time_s, end) > EDGE_AT_MOST_s)) {
    const late = medianFrom(timeline, kept, pieces, whole_s - EDGE_AT_MOST_s, asRead);
    const later = lastAbove(kept, pieces, TRIM_SHARE * late);
    gaveWay = later > end;
    end = Math.max(end, later);
  }
  if (end < 0) return null;
  const trimmed = pieces
    .map((piece) => ({ from: piece.from, to: Math.min(piece.to, end + 1) }))
    .filter((piece) => piece.to > piece.from);
  return {
    engagements: stretch.engagements,
    rows: { from: firstPiece.from, to: end + 1 },
    pieces: trimmed,
    start_s,
    end_s: at(time_s, end),
    finalValue,
    length_s: span_s(timeline, joinedAtSteps(timeline, trimmed)),
    gaveWay,
  };
}

/** Pieces that only a whole-hour clock step parts follow one another without lost time. */
function joinedAtSteps(timeline: Timeline, pieces: readonly Rows[]): Rows[] {
  const result: Rows[] = [];
  for (const piece of pieces) {
    const last = result.at(-1);
    const border = timeline.breaks.find(({ row }) => row === piece.from);
    if (last && last.to === piece.from && border?.kind === 'step') last.to = piece.to;
    else result.push({ ...piece });
  }
  return result;
}
