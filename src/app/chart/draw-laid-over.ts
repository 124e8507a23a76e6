import type { PaperColours } from './paper-colours.ts';
import { clipToPane, pressurePx, solid, type Pen } from './pen.ts';
import type { RunView } from './run-view.ts';
import type { Shown } from './strip-props.ts';

/** Another run over this one, by its own dash; in seconds of this run's time line, in its judged unit. */
export interface LaidLine {
  name: string;
  /** What it is called on the strip, in short parts: "Test", "February 18". */
  short: readonly string[];
  /** CSS px of stroke and gap. */
  dash: readonly number[];
  from_s: number;
  to_s: number;
  low: readonly (number | null)[];
  high: readonly (number | null)[];
}

/** Told apart without colour, and none like the run's own solid line. */
export const laidDashes: readonly (readonly number[])[] = [
  [12, 4],
  [4, 4],
  [12, 4, 2, 4],
  [2, 6],
  [18, 6, 6, 6],
];

/** Of its highest, below which a run is being let down, or not up yet. Only decides where its name stands. */
const UP = 0.5;

/** The last pressure of another run that is in view while it is up, where its name stands; null where none is. */
export function lastLaid({ from_s, to_s, low, high }: LaidLine, shown: Shown): number | null {
  let highest = 0;
  const middle = (column: number): number => ((low[column] ?? NaN) + (high[column] ?? NaN)) / 2;
  for (let column = 0; column < low.length; column++) highest = Math.max(highest, middle(column) || 0);
  for (let column = low.length - 1; column >= 0; column--) {
    const at_s = from_s + ((column + 0.5) / low.length) * (to_s - from_s);
    if (at_s >= shown.from_s && at_s <= shown.to_s && middle(column) > UP * highest) return middle(column);
  }
  return null;
}

/** The smoothed pressure of other runs: the middle of each column, the pen up where nothing was recorded. */
export function drawLaidOver(pen: Pen, view: RunView, colours: PaperColours): void {
  const { ctx, frame, ratio } = pen;
  const acrossOf = pressurePx(pen);
  clipToPane(pen, frame.pressurePane);
  ctx.lineWidth = solid(pen, 2);
  ctx.strokeStyle = colours.ink2;
  for (const { dash, from_s, to_s, low, high } of view.laid ?? []) {
    ctx.setLineDash(dash.map((length) => length * ratio));
    ctx.beginPath();
    let up = true;
    for (let column = 0; column < low.length; column++) {
      const lowest = low[column] ?? null,
        highest = high[column] ?? null;
      if (lowest === null || highest === null) {
        up = true;
        continue;
      }
      const along = frame.x(from_s + ((column + 0.5) / low.length) * (to_s - from_s));
      const across = acrossOf((lowest + highest) / 2);
      if (up) ctx.moveTo(pen.x(along, across), pen.y(along, across));
      else ctx.lineTo(pen.x(along, across), pen.y(along, across));
      up = false;
    }
    ctx.stroke();
  }
}
