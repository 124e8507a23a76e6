import type { Phase } from '#formats/assessment.ts';
import type { CountedOver } from './engaged-level.ts';
import type { Engagement } from './engagements.ts';
import type { Hold } from './hold.ts';
import type { Run } from './run.ts';
import { at, rowFrom, type Rows, type Timeline } from './timeline.ts';

type Kind = Phase['kind'];

/** A pressure that has fallen to this share of the final value has run down. */
const RUN_DOWN_SHARE = 0.1;
/** Longer, and it stands: what it is then is not judged. Common practice, no source. */
const RUN_DOWN_s = 60;

/** What the phases are drawn from. */
export interface PhaseInput {
  timeline: Timeline;
  run: Run | null;
  hold: Hold | null;
  engagements: readonly Engagement[];
  leftOut: readonly Rows[];
  /** A unit that keeps its charge takes as long as it likes to run down. */
  leaksDown: boolean;
  /** Judged pressure as it counts for engaging. */
  countedOver: CountedOver;
}

/**
 * Phases of the log: they tile it, one's end is the next's start. Painted row by row in order of weight (idle, then what is engaged
 * but not judged, the run, its hold, its running down, what is left out), then cut at gaps.
 * Cost: one byte a row.
 */
export function phasesOf({
  timeline,
  run,
  hold,
  engagements,
  leftOut,
  leaksDown,
  countedOver,
}: PhaseInput): Phase[] {
  const { time_s, part } = timeline;
  const kinds: readonly Kind[] = ['idle', 'not-judged', 'warm-up', 'hold', 'run-down'];
  const paint = new Uint8Array(time_s.length);
  const fill = ({ from, to }: Rows, kind: Kind): void => void paint.fill(kinds.indexOf(kind), from, to);
  fill({ from: 0, to: part.from }, 'not-judged');
  fill({ from: part.to, to: time_s.length }, 'not-judged');
  for (const { rows } of engagements) fill(rows, 'not-judged');
  if (run) {
    const next = engagements.find(({ rows }) => rows.from >= run.rows.to)?.rows.from ?? part.to;
    // Engaged rows after the run's end were painted as not judged: they are its falling edge.
    const down = runDownEnd(countedOver, run, next);
    // A pressure that stands long after the run's end is not running down.
    fill({ from: run.rows.to - 1, to: down }, 'run-down');
    const slow = rowFrom(time_s, run.end_s + RUN_DOWN_s);
    if (!leaksDown && slow < down) fill({ from: slow, to: down }, 'not-judged');
    // The run ends at its last row, not one row later. Released stretches between joined engagements stay idle.
    const upTo = ({ from, to }: Rows): Rows => ({ from, to: Math.min(to, run.rows.to - 1) });
    for (const piece of run.pieces) fill(upTo(piece), 'warm-up');
    if (hold) {
      for (const piece of hold.pieces) fill(upTo(piece), 'hold');
      // A hold that was ended by hand: what comes after it is not judged.
      fill(upTo({ from: hold.pieces.at(-1)?.to ?? run.rows.to, to: run.rows.to }), 'not-judged');
    }
  }
  for (const rows of leftOut) fill(rows, 'not-judged');
  return tiled(timeline, paint, kinds);
}

/** First row at which the pressure has run down, at most the next engagement. */
function runDownEnd(countedOver: CountedOver, run: Run, limit: number): number {
  const from = run.rows.to,
    counted = countedOver({ from, to: limit });
  for (let i = from; i < limit; i++) if (at(counted, i - from) <= RUN_DOWN_SHARE * run.finalValue) return i;
  return limit;
}

function tiled({ time_s, breaks }: Timeline, paint: Uint8Array, kinds: readonly Kind[]): Phase[] {
  const phases: Phase[] = [];
  const add = (kind: Kind, start_s: number, end_s: number): void => {
    if (end_s <= start_s) return;
    const last = phases.at(-1);
    if (last && last.kind === kind && last.end_s === start_s && kind !== 'gap') last.end_s = end_s;
    else phases.push({ kind, start_s, end_s });
  };
  const gaps = breaks.filter((border) => border.kind === 'gap').map((border) => border.row);
  let nextGap = 0;
  for (let row = 0; row + 1 < paint.length;) {
    while ((gaps[nextGap] ?? Infinity) <= row) nextGap++;
    // A gap stands between its two rows.
    const gap = gaps[nextGap] ?? Infinity;
    const to = gap === row + 1 ? gap : runEnd(paint, row, Math.min(gap - 1, paint.length - 1));
    add(gap === row + 1 ? 'gap' : (kinds[paint[row] ?? 0] ?? 'idle'), at(time_s, row), at(time_s, to));
    row = to;
  }
  return phases;
}

/** A row's kind holds to the next row: the first row after one that is painted otherwise, at most the last. */
function runEnd(paint: Uint8Array, from: number, last: number): number {
  let row = from + 1;
  while (row < last && paint[row] === paint[from]) row++;
  return row;
}
