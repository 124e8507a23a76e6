import type { ShownFrame } from './frame.ts';

/**
 * Draws in "along" (time) and "across" (value) CSS px, whichever way the strip lies, onto the device pixels of a canvas. Positions are
 * rounded to device pixels where a crisp line is wanted.
 */
export interface Pen {
  ctx: CanvasRenderingContext2D;
  frame: ShownFrame;
  /** Device pixels to a CSS px. */
  ratio: number;
  x: (along: number, across: number) => number;
  y: (along: number, across: number) => number;
}

export function penOf(
  ctx: CanvasRenderingContext2D,
  frame: ShownFrame,
  ratio: number,
  origin: { left: number; top: number },
): Pen {
  const { left, top } = origin;
  if (frame.turned)
    return {
      ctx,
      frame,
      ratio,
      x: (_, across) => left + across * ratio,
      y: (along) => top + along * ratio,
    };
  const foot = top + frame.across * ratio;
  return { ctx, frame, ratio, x: (along) => left + along * ratio, y: (_, across) => foot - across * ratio };
}

/** Starts a piece of drawing with nothing left over from the one before: canvas state leaks from hook to hook. */
export function fresh(pen: Pen, draw: () => void): void {
  const { ctx } = pen;
  ctx.save();
  ctx.setLineDash([]);
  ctx.lineCap = 'butt';
  ctx.lineJoin = 'round';
  ctx.beginPath();
  draw();
  ctx.restore();
}

/** Clips to a rectangle of the paper. */
export function clipTo(
  pen: Pen,
  from: { along: number; across: number },
  to: { along: number; across: number },
): void {
  pen.ctx.beginPath();
  rectangle(pen, from.along, from.across, to.along, to.across);
  pen.ctx.clip();
  pen.ctx.beginPath();
}

export function clipToPane(pen: Pen, pane: { from: number; size: number }): void {
  clipTo(pen, { along: 0, across: pane.from }, { along: pen.frame.along, across: pane.from + pane.size });
}

export function rectangle(pen: Pen, along0: number, across0: number, along1: number, across1: number): void {
  const x0 = Math.round(pen.x(along0, across0)),
    y0 = Math.round(pen.y(along0, across0)),
    x1 = Math.round(pen.x(along1, across1)),
    y1 = Math.round(pen.y(along1, across1));
  pen.ctx.rect(Math.min(x0, x1), Math.min(y0, y1), Math.abs(x1 - x0), Math.abs(y1 - y0));
}

/** Whole device pixels for a line of so many CSS px: 2 px are 3 at a ratio of 1.5, never blurred. */
export const solid = (pen: Pen, width: number): number => Math.max(1, Math.round(width * pen.ratio));

/** A straight line at one instant, from … to across; crisp. */
export function uprightLine(pen: Pen, along: number, from: number, to: number, device: number): void {
  const half = (device % 2) / 2;
  const crisp = (at: number): number => Math.round(at - half) + half;
  if (pen.frame.turned) {
    const y = crisp(pen.y(along, 0));
    pen.ctx.moveTo(pen.x(0, from), y);
    pen.ctx.lineTo(pen.x(0, to), y);
    return;
  }
  const x = crisp(pen.x(along, 0));
  pen.ctx.moveTo(x, pen.y(0, from));
  pen.ctx.lineTo(x, pen.y(0, to));
}

/** A straight line at one value, from … to along; crisp. */
export function levelLine(pen: Pen, across: number, from: number, to: number, device: number): void {
  const half = (device % 2) / 2;
  const crisp = (at: number): number => Math.round(at - half) + half;
  if (pen.frame.turned) {
    const x = crisp(pen.x(0, across));
    pen.ctx.moveTo(x, pen.y(from, 0));
    pen.ctx.lineTo(x, pen.y(to, 0));
    return;
  }
  const y = crisp(pen.y(0, across));
  pen.ctx.moveTo(pen.x(from, 0), y);
  pen.ctx.lineTo(pen.x(to, 0), y);
}

/** Across of a pressure. */
export const pressurePx =
  (pen: Pen) =>
  (value: number): number =>
    pen.frame.pressurePane.from + pen.frame.pressure.px(value);
