import { extentOf, type Blocks, type Extent } from '#drawing/blocks.ts';
import type { Pen } from './pen.ts';
import type { RunView } from './run-view.ts';
import { firstRowFrom } from './rows.ts';

/** Points nearer than this to the last one would not be seen. */
const SAME_POINT = 0.5;
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

/** Visits the device columns that hold rows: first row, end, and the column's middle along the plot. */
function eachColumn(
  view: RunView,
  pen: Pen,
  rows: Rows,
  visit: (from: number, to: number, along: number) => void,
): void {
  const { time_s } = view;
  const { frame, ratio } = pen;
  const columns = Math.max(1, Math.round(frame.along * ratio));
  let row = rows.from;
  while (row < rows.to) {
    const column = Math.floor(frame.x(time_s[row] ?? NaN) * ratio);
    if (column >= columns) {
      visit(row, rows.to, (column + 0.5) / ratio);
      return;
    }
    const end_s = frame.at((column + 1) / ratio);
    let end = Math.min(rows.to, rowFrom(time_s, end_s, row + 1, rows.to));
    if (end <= row) end = row + 1;
    visit(row, end, (column + 0.5) / ratio);
    row = end;
  }
}

/** First row from an instant, looked for from a row on: columns follow each other, so it is near. */
function rowFrom(time_s: Float64Array, at_s: number, from: number, to: number): number {
  let step = 1,
    low = from,
    high = from;
  while (high < to && (time_s[high] ?? Infinity) < at_s) {
    low = high + 1;
    high += step;
    step *= 2;
  }
  high = Math.min(high, to);
  while (low < high) {
    const middle = (low + high) >>> 1;
    if ((time_s[middle] ?? Infinity) < at_s) low = middle + 1;
    else high = middle;
  }
  return low;
}

/** Whether rows stand so far apart that each has its own device column. */
const apart = (pen: Pen, rows: Rows): boolean => rows.to - rows.from < pen.frame.along * pen.ratio;

/** The line of a channel, broken at gaps and where there is no value; at most four points a device column. */
export function linePath(view: RunView, pen: Pen, line: Blocks, px: (value: number) => number): Path2D {
  const path = new Path2D();
  const extent: Extent = { lowest: 0, highest: 0 };
  const { values } = line;
  let down = false,
    lastX = 0,
    lastY = 0;
  const to = (along: number, value: number, must: boolean): void => {
    const across = px(value);
    const x = pen.x(along, across),
      y = pen.y(along, across);
    if (!down) {
      path.moveTo(x, y);
      // A single point is a dot under a round pen.
      path.lineTo(x + 0.01, y);
      down = true;
    } else if (must || Math.abs(x - lastX) >= SAME_POINT || Math.abs(y - lastY) >= SAME_POINT)
      path.lineTo(x, y);
    else return;
    lastX = x;
    lastY = y;
  };
  for (const stretch of view.stretches) {
    down = false;
    const rows = shownRows(view, pen, stretch);
    if (rows.from >= rows.to) continue;
    if (apart(pen, rows)) {
      for (let row = rows.from; row < rows.to; row++) {
        const value = values[row] ?? NaN;
        if (Number.isNaN(value)) down = false;
        else to(pen.frame.x(view.time_s[row] ?? NaN), value, false);
      }
      continue;
    }
    eachColumn(view, pen, rows, (from, end, along) => {
      if (!extentOf(line, from, end, extent)) {
        down = false;
        return;
      }
      const first = values[from] ?? NaN,
        last = values[end - 1] ?? NaN;
      to(along, Number.isNaN(first) ? extent.lowest : first, false);
      if (Math.abs(px(extent.highest) - px(extent.lowest)) * pen.ratio >= SAME_HEIGHT) {
        // From the first to the end nearer to it, then to the other: the same pixels in any order.
        const rising = Math.abs(first - extent.lowest) <= Math.abs(first - extent.highest);
        to(along, rising ? extent.lowest : extent.highest, true);
        to(along, rising ? extent.highest : extent.lowest, true);
      }
      if (!Number.isNaN(last)) to(along, last, false);
    });
  }
  return path;
}

/** Readings stand so far apart that each can be seen as a point of its own. */
const DOT_APART_PX = 7;
const DOT_PX = 3.2;

/** Lowest to highest kept reading of each device column; where rows stand further apart than columns, the readings themselves. */
export function rawPaths(
  view: RunView,
  pen: Pen,
  raw: Blocks,
  px: (value: number) => number,
): { strokes: Path2D; dots: Path2D } {
  const strokes = new Path2D(),
    dots = new Path2D();
  const extent: Extent = { lowest: 0, highest: 0 };
  const half = 0.5;
  for (const stretch of view.stretches) {
    const rows = shownRows(view, pen, stretch);
    if (rows.from >= rows.to) continue;
    if (!apart(pen, rows) && !view.sparse) {
      eachColumn(view, pen, rows, (from, end, along) => {
        if (!extentOf(raw, from, end, extent)) return;
        upright(along, px(extent.lowest), px(extent.highest));
      });
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

  function upright(along: number, low: number, high: number): void {
    // At least one pixel tall, so that a quiet signal is still there.
    const pad = Math.max(0, 1 / pen.ratio - Math.abs(high - low)) / 2;
    const x0 = pen.x(along, low - pad),
      y0 = pen.y(along, low - pad),
      x1 = pen.x(along, high + pad),
      y1 = pen.y(along, high + pad);
    if (pen.frame.turned) {
      const y = Math.floor(y0) + half;
      strokes.moveTo(x0, y);
      strokes.lineTo(x1, y);
    } else {
      const x = Math.floor(x0) + half;
      strokes.moveTo(x, y0);
      strokes.lineTo(x, y1);
    }
  }
}
