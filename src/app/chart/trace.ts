import type { Blocks } from '#drawing/blocks.ts';
import { columnsOf, Held, type Columns } from './columns.ts';
import { LinePen, SAME_LINE } from './line-pen.ts';
import { pressurePx, type Pen } from './pen.ts';
import type { RunView } from './run-view.ts';
import { firstRowFrom, type Stretch } from './rows.ts';

/** A smoothed line, and the same with fewer bends for the halo around it. */
export interface LinePaths {
  path: Path2D;
  halo: Path2D;
}

/** Readings as upright strokes of each column, or as they are; dots where each can be seen as a point of its own. */
export interface RawPaths {
  strokes: Path2D;
  dots: Path2D;
}

/** Everything of a picture that is worked out of the readings. */
export interface Traces {
  raw: { pressure: RawPaths | null; others: RawPaths[] };
  lines: { pressure: LinePaths | null; oil: LinePaths | null };
}

export function rawTraces(pen: Pen, view: RunView): Traces['raw'] {
  return {
    pressure: view.pressure === null ? null : rawPaths(view, pen, view.pressure.raw, pressurePx(pen)),
    others: pen.frame.otherPanes.map((pane) => rawPaths(view, pen, pane.channel.raw, pane.px)),
  };
}

export function lineTraces(pen: Pen, view: RunView): Traces['lines'] {
  const { oil } = pen.frame;
  return {
    pressure: view.pressure === null ? null : linePath(view, pen, view.pressure.line, pressurePx(pen)),
    oil: view.oil === null || oil === null ? null : linePath(view, pen, view.oil.line, oil.px),
  };
}

/** A column whose lowest and highest lie nearer than this is a point. */
const SAME_HEIGHT = 1;

interface Rows {
  from: number;
  to: number;
}

/** Rows of a stretch that are shown, and one more on either side so that the line reaches the edges. */
function shownRows(view: RunView, pen: Pen, stretch: Rows): Rows {
  const { from_s, to_s } = pen.frame.shown;
  const from = Math.max(stretch.from, firstRowFrom(view.time_s, from_s) - 1);
  const to = Math.min(stretch.to, firstRowFrom(view.time_s, to_s) + 1);
  return { from, to };
}

/** The columns of paper that hold rows of a stretch; each is a device pixel wide. */
const columnsIn = (view: RunView, pen: Pen, channel: Blocks, stretch: Stretch, rows: Rows): Columns =>
  columnsOf(
    view.time_s,
    channel,
    stretch,
    rows,
    (pen.frame.shown.to_s - pen.frame.shown.from_s) / (pen.frame.along * pen.ratio),
  );

/** Middle of the first column, along the plot. */
const middleOf = ({ frame }: Pen, { from, width_s }: Columns): number => frame.x((from + 0.5) * width_s);

/** Whether rows stand so far apart that each has its own device column. */
const apart = (pen: Pen, rows: Rows): boolean => rows.to - rows.from < pen.frame.along * pen.ratio;

/** A halo's edges may lie so far off: it is paper on paper but where it crosses raw readings. */
const HALO_NEAR = 0.3;

/** The line of a channel, broken at gaps and where there is no value; at most four points a device column. */
function linePath(view: RunView, pen: Pen, line: Blocks, px: (value: number) => number): LinePaths {
  const halo = new LinePen(pen, HALO_NEAR);
  const drawn = new LinePen(pen, SAME_LINE, halo);
  const { values } = line;
  for (const stretch of view.stretches) {
    drawn.lift();
    const rows = shownRows(view, pen, stretch);
    if (rows.from >= rows.to) continue;
    if (apart(pen, rows)) {
      for (let row = rows.from; row < rows.to; row++) {
        const value = values[row] ?? NaN;
        if (Number.isNaN(value)) drawn.lift();
        else drawn.to(pen.frame.x(view.time_s[row] ?? NaN), px(value));
      }
      continue;
    }
    const columns = columnsIn(view, pen, line, stretch, rows);
    const { count, held, lowest, highest } = columns;
    const middle = middleOf(pen, columns);
    for (let at = 0; at < count; at++) {
      if (held[at] === Held.noRow) continue;
      if (held[at] === Held.noValue) {
        drawn.lift();
        continue;
      }
      const along = middle + at / pen.ratio;
      const first = columns.first[at] ?? NaN,
        last = columns.last[at] ?? NaN,
        low = lowest[at] ?? NaN,
        high = highest[at] ?? NaN;
      drawn.to(along, px(Number.isNaN(first) ? low : first));
      const foot = px(low),
        top = px(high);
      if (Math.abs(top - foot) * pen.ratio >= SAME_HEIGHT) {
        // From the first to the end nearer to it, then to the other: the same pixels in any order.
        const rising = Math.abs(first - low) <= Math.abs(first - high);
        drawn.to(along, rising ? foot : top, true);
        drawn.to(along, rising ? top : foot, true);
      }
      if (!Number.isNaN(last)) drawn.to(along, px(last));
    }
  }
  drawn.lift();
  return { path: drawn.path, halo: halo.path };
}

/** Readings stand so far apart that each can be seen as a point of its own. */
const DOT_APART_PX = 7;
const DOT_PX = 3.2;

/** Lowest to highest kept reading of each device column; where rows stand further apart than columns, the readings themselves. */
function rawPaths(view: RunView, pen: Pen, raw: Blocks, px: (value: number) => number): RawPaths {
  const strokes = new Path2D(),
    dots = new Path2D();
  for (const stretch of view.stretches) {
    const rows = shownRows(view, pen, stretch);
    if (rows.from >= rows.to) continue;
    if (!apart(pen, rows) && !view.sparse) {
      const columns = columnsIn(view, pen, raw, stretch, rows);
      const { count, held, lowest, highest } = columns;
      const first = columnPixel(pen, middleOf(pen, columns));
      for (let at = 0; at < count; at++)
        if (held[at] === Held.values) upright(first + at, px(lowest[at] ?? NaN), px(highest[at] ?? NaN));
      continue;
    }
    const dotted = view.sparse || (rows.to - rows.from) * DOT_APART_PX < pen.frame.along;
    let before = NaN;
    for (let row = rows.from; row < rows.to; row++) {
      const kept = raw.flags === null || raw.flags[row] === 0;
      const value = kept ? (raw.values[row] ?? NaN) : NaN;
      if (Number.isNaN(value)) {
        before = NaN;
        continue;
      }
      const along = pen.frame.x(view.time_s[row] ?? NaN),
        across = px(value);
      const x = pen.x(along, across),
        y = pen.y(along, across);
      if (dotted) {
        const size = DOT_PX * pen.ratio;
        dots.rect(x - size / 2, y - size / 2, size, size);
      }
      if (!view.sparse) {
        if (Number.isNaN(before)) strokes.moveTo(x, y);
        else strokes.lineTo(x, y);
      }
      before = value;
    }
  }
  return { strokes, dots };

  /** @param pixel middle of the device column */
  function upright(pixel: number, low: number, high: number): void {
    // At least one pixel tall, so that a quiet signal is still there.
    const pad = Math.max(0, 1 / pen.ratio - Math.abs(high - low)) / 2;
    if (pen.frame.turned) {
      strokes.moveTo(pen.x(0, low - pad), pixel);
      strokes.lineTo(pen.x(0, high + pad), pixel);
    } else {
      strokes.moveTo(pixel, pen.y(0, low - pad));
      strokes.lineTo(pixel, pen.y(0, high + pad));
    }
  }
}

/** Middle of the device column that holds a place along the plot. */
function columnPixel(pen: Pen, along: number): number {
  const device = pen.frame.turned ? pen.y(along, 0) : pen.x(along, 0);
  return Math.floor(device) + 0.5;
}
