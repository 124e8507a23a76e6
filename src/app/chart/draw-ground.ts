import type { PaperColours } from './paper-colours.ts';
import { clipToPane, fresh, levelLine, pressurePx, rectangle, solid, uprightLine, type Pen } from './pen.ts';
import type { RunView } from './run-view.ts';
import type { RawPaths, Traces } from './trace.ts';

const HATCH_PITCH = 7,
  GAP_PITCH = 5;
const ZIGZAG = { length: 14, height: 5 };
/** Between two limits that nearly touch a gap's hatch would be a smear. */
const HALO_PX = 6;
/** Room of a narrow gap, so that it is seen. */
export const GAP_AT_LEAST_PX = 4;

/**
 * Everything behind the lines, in order: tint of the band, printed grid, what is too near to call, raw readings, limits, crease,
 * operating temperature, blank paper where there is no record, and the halo of the pressure line.
 * @param traces null: the paper alone
 */
export function drawGround(pen: Pen, view: RunView, colours: PaperColours, traces: Traces | null): void {
  fresh(pen, () => tint(pen, view, colours));
  fresh(pen, () => grid(pen, colours));
  fresh(pen, () => nearToCall(pen, view, colours));
  if (traces !== null) {
    fresh(pen, () => rawReadings(pen, view, colours, traces.raw.pressure));
    fresh(pen, () => otherReadings(pen, colours, traces.raw.others));
  }
  fresh(pen, () => limits(pen, view, colours));
  fresh(pen, () => crease(pen, colours));
  fresh(pen, () => operatingTemperature(pen, view, colours));
  fresh(pen, () => noRecord(pen, view, colours));
  const halo = traces?.lines.pressure?.halo;
  if (halo === undefined) return;
  fresh(pen, () => {
    clipToPane(pen, pen.frame.pressurePane);
    pen.ctx.lineCap = 'round';
    pen.ctx.strokeStyle = colours.paper;
    pen.ctx.lineWidth = HALO_PX * pen.ratio;
    pen.ctx.stroke(halo);
  });
}

/** Ends of the pressure pane, for a limit that is missing on a side. */
function bandEnds(pen: Pen, view: RunView): { from: number; to: number } | null {
  const { low, high } = view.band;
  if (low === null && high === null) return null;
  const { from, size } = pen.frame.pressurePane;
  const px = pressurePx(pen);
  return { from: low === null ? from : px(low), to: high === null ? from + size : px(high) };
}

function tint(pen: Pen, view: RunView, colours: PaperColours): void {
  const ends = bandEnds(pen, view);
  if (ends === null) return;
  clipToPane(pen, pen.frame.pressurePane);
  rectangle(pen, 0, ends.from, pen.frame.along, ends.to);
  pen.ctx.fillStyle = colours.bandfill;
  pen.ctx.fill();
}

/** Every pane, from the top down. */
const panesOf = ({ pressurePane, oilPane, otherPanes }: Pen['frame']): { from: number; size: number }[] => [
  pressurePane,
  ...(oilPane === null ? [] : [oilPane]),
  ...otherPanes,
];

function grid(pen: Pen, colours: PaperColours): void {
  const { frame, ctx } = pen;
  const width = solid(pen, 1);
  const panes = panesOf(frame);
  const half_s = frame.ticks.step_s / 2;
  for (const { from, size } of panes) {
    for (const { at_s, long } of frame.ticks.ticks) {
      const half = Math.abs(at_s / half_s - Math.round(at_s / half_s)) < 1e-6;
      if (long || half) uprightLine(pen, frame.x(at_s), from, from + size, width);
    }
    levelLine(pen, from, 0, frame.along, width);
    levelLine(pen, from + size, 0, frame.along, width);
  }
  const { pressure, pressurePane, oil } = frame;
  for (const value of [...pressure.ticks.map((tick) => tick.value), ...pressure.halfTicks])
    levelLine(pen, pressurePane.from + pressure.px(value), 0, frame.along, width);
  if (oil !== null) for (const value of oil.halfTicks) levelLine(pen, oil.px(value), 0, frame.along, width);
  ctx.lineWidth = width;
  ctx.strokeStyle = colours.grid;
  ctx.stroke();
}

/** 45° hatch from limit − gU to limit + gU. */
function nearToCall(pen: Pen, view: RunView, colours: PaperColours): void {
  const { guard } = view;
  if (guard === null || !(guard > 0)) return;
  const { ctx, frame } = pen;
  const px = pressurePx(pen);
  clipToPane(pen, frame.pressurePane);
  ctx.lineWidth = pen.ratio;
  ctx.strokeStyle = colours.hatch;
  for (const limit of [view.band.low, view.band.high]) {
    if (limit === null) continue;
    ctx.save();
    ctx.beginPath();
    rectangle(pen, 0, px(limit - guard), frame.along, px(limit + guard));
    ctx.clip();
    ctx.beginPath();
    hatch45(pen, px(limit - guard), px(limit + guard));
    ctx.stroke();
    ctx.restore();
  }
}

function hatch45(pen: Pen, from: number, to: number): void {
  const pitch = HATCH_PITCH * Math.SQRT2;
  const rise = to - from;
  for (let along = -rise; along < pen.frame.along; along += pitch) {
    pen.ctx.moveTo(pen.x(along, from), pen.y(along, from));
    pen.ctx.lineTo(pen.x(along + rise, to), pen.y(along + rise, to));
  }
}

function rawReadings(pen: Pen, view: RunView, colours: PaperColours, paths: RawPaths | null): void {
  if (paths === null) return;
  const { ctx } = pen;
  clipToPane(pen, pen.frame.pressurePane);
  ctx.lineWidth = 1;
  ctx.strokeStyle = colours.raw;
  ctx.stroke(paths.strokes);
  ctx.fillStyle = view.sparse ? colours.pressure : colours.raw;
  ctx.fill(paths.dots);
}

/** Other channels: lowest to highest of each px, in their panes. */
function otherReadings(pen: Pen, colours: PaperColours, paths: readonly RawPaths[]): void {
  const { ctx } = pen;
  pen.frame.otherPanes.forEach((pane, index) => {
    const drawn = paths[index];
    if (drawn === undefined) return;
    ctx.save();
    clipToPane(pen, pane);
    ctx.lineWidth = solid(pen, 1.5);
    ctx.strokeStyle = colours.ink2;
    ctx.stroke(drawn.strokes);
    ctx.fillStyle = colours.ink2;
    ctx.fill(drawn.dots);
    ctx.restore();
  });
}

function limits(pen: Pen, view: RunView, colours: PaperColours): void {
  const { ctx, frame } = pen;
  clipToPane(pen, { from: frame.pressurePane.from - 2, size: frame.pressurePane.size + 4 });
  // Two px, three at a ratio of 2: no half pixels.
  const width = pen.ratio >= 2 ? Math.round(1.5 * pen.ratio) : solid(pen, 2);
  for (const limit of [view.band.low, view.band.high])
    if (limit !== null) levelLine(pen, pressurePx(pen)(limit), 0, frame.along, width);
  ctx.lineWidth = width;
  ctx.strokeStyle = colours.limit;
  ctx.stroke();
}

/** The zig-zag where the paper is folded. */
function crease(pen: Pen, colours: PaperColours): void {
  const { ctx, frame } = pen;
  const { fold } = frame.pressure;
  if (fold === null) return;
  const across = pressurePx(pen)(fold.to);
  for (let k = 0; k * ZIGZAG.length <= frame.along + ZIGZAG.length; k++) {
    const at = across + (k % 2 === 0 ? ZIGZAG.height : -ZIGZAG.height) / 2;
    const along = Math.min(frame.along, k * ZIGZAG.length);
    if (k === 0) ctx.moveTo(pen.x(along, at), pen.y(along, at));
    else ctx.lineTo(pen.x(along, at), pen.y(along, at));
  }
  ctx.lineWidth = 1.2 * pen.ratio;
  ctx.strokeStyle = colours.line;
  ctx.stroke();
}

function operatingTemperature(pen: Pen, view: RunView, colours: PaperColours): void {
  const { ctx, frame } = pen;
  if (view.operatingFrom === null || frame.oil === null || frame.oilPane === null) return;
  const width = solid(pen, 1.5);
  ctx.setLineDash([2 * pen.ratio, 4 * pen.ratio]);
  levelLine(pen, frame.oil.px(view.operatingFrom), 0, frame.along, width);
  ctx.lineWidth = width;
  ctx.strokeStyle = colours.ink2;
  ctx.stroke();
}

/** Where a gap lies along the plot, at least so wide that it is seen; null where it is not shown. */
export function gapAlong(
  pen: Pick<Pen, 'frame'>,
  gap: { start_s: number; end_s: number },
): { from: number; to: number } | null {
  const { frame } = pen;
  let from = frame.x(gap.start_s),
    to = frame.x(gap.end_s);
  if (to < 0 || from > frame.along) return null;
  const short = GAP_AT_LEAST_PX - (to - from);
  if (short > 0) {
    from -= short / 2;
    to += short / 2;
  }
  return { from: Math.max(0, from), to: Math.min(frame.along, to) };
}

/** Blank paper with an upright hatch: nothing crosses it. */
function noRecord(pen: Pen, view: RunView, colours: PaperColours): void {
  const { ctx, frame } = pen;
  const width = solid(pen, 1);
  const panes = panesOf(frame);
  for (const gap of view.gaps) {
    const where = gapAlong(pen, gap);
    if (where === null) continue;
    for (const { from, size } of panes) {
      ctx.beginPath();
      rectangle(pen, where.from, from - 3, where.to, from + size + 3);
      ctx.fillStyle = colours.paper;
      ctx.fill();
      ctx.beginPath();
      for (let along = where.from + GAP_PITCH / 2; along < where.to; along += GAP_PITCH)
        uprightLine(pen, along, from, from + size, width);
      ctx.lineWidth = width;
      ctx.strokeStyle = colours.hatch;
      ctx.stroke();
    }
  }
}
