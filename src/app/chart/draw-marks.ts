import type { PaperColours } from './paper-colours.ts';
import { gapAlong } from './draw-ground.ts';
import { drawLaidOver } from './draw-laid-over.ts';
import type { Box } from './label.ts';
import {
  clipTo,
  clipToPane,
  fresh,
  levelLine,
  pressurePx,
  rectangle,
  solid,
  uprightLine,
  type Pen,
} from './pen.ts';
import type { Part, RunView } from './run-view.ts';

const CROSS_PX = 8,
  LANE_TICK_PX = 10;
/** Crosses nearer than this to the one before are left out once there are many; the lane still has their ticks. */
const CROSS_APART_PX = 3;
/** The phase line runs so far above the plot. */
export const PHASE_LINE_PX = 8;
/** A bracket's end hangs down so far. */
const BRACKET_PX = 6;

/**
 * Everything over the lines: what is not judged in grey, crosses, lane, borders, brackets, the time axis.
 * @param line of the pressure, where it stands already
 */
export function drawMarks(
  pen: Pen,
  view: RunView,
  colours: PaperColours,
  line: Path2D | null,
  quiet: readonly Box[],
): void {
  fresh(pen, () => notJudged(pen, view, colours, line));
  fresh(pen, () => drawLaidOver(pen, view, colours));
  fresh(pen, () => crosses(pen, view, colours, quiet));
  fresh(pen, () => lane(pen, view, colours));
  fresh(pen, () => borders(pen, view, colours));
  fresh(pen, () => phaseLine(pen, view, colours));
  fresh(pen, () => timeAxis(pen, view, colours));
}

/** A part that a step of the clock cut off goes on in the colour of rules. */
function notJudged(pen: Pen, view: RunView, colours: PaperColours, line: Path2D | null): void {
  if (line === null) return;
  const { ctx, frame } = pen;
  for (const part of view.parts) {
    if (part.kind !== 'not-judged') continue;
    ctx.save();
    const { from, size } = frame.pressurePane;
    clipTo(
      pen,
      { along: Math.max(0, frame.x(part.start_s)), across: from },
      { along: Math.min(frame.along, frame.x(part.end_s)), across: from + size },
    );
    ctx.lineCap = 'round';
    ctx.lineWidth = 2.8 * pen.ratio;
    ctx.strokeStyle = colours.line;
    ctx.stroke(line);
    ctx.restore();
  }
}

/** × at the value of single pressure readings that were set aside. */
function crosses(pen: Pen, view: RunView, colours: PaperColours, quiet: readonly Box[]): void {
  if (view.pressure === null) return;
  const { ctx, frame } = pen;
  const { values } = view.pressure;
  clipToPane(pen, frame.pressurePane);
  const half = CROSS_PX / 2;
  let last = -Infinity;
  const many = view.setAside.length > 300;
  for (const run of view.setAside) {
    if (run.channel !== 'pressure' || run.to - run.from > 1) continue;
    const value = values[run.from] ?? NaN;
    const along = frame.x(run.start_s);
    if (Number.isNaN(value) || along < -half || along > frame.along + half) continue;
    if (value > frame.pressure.top || value < (frame.pressure.fold?.from ?? frame.pressure.bottom)) continue;
    if (many && along - last < CROSS_APART_PX) continue;
    last = along;
    const across = pressurePx(pen)(value);
    if (quiet.some((box) => covers(frame, box, along, across))) continue;
    const x = pen.x(along, across),
      y = pen.y(along, across),
      r = half * pen.ratio;
    ctx.moveTo(x - r, y - r);
    ctx.lineTo(x + r, y + r);
    ctx.moveTo(x + r, y - r);
    ctx.lineTo(x - r, y + r);
  }
  ctx.lineWidth = 1.7 * pen.ratio;
  ctx.strokeStyle = colours.ink;
  ctx.stroke();
}

/** Whether a cross would touch a text. */
function covers({ plot, turned }: Pen['frame'], box: Box, along: number, across: number): boolean {
  const x = plot.left + (turned ? across : along),
    y = turned ? plot.top + along : plot.top + plot.height - across;
  const air = CROSS_PX / 2 + 1;
  return (
    x > box.left - air &&
    x < box.left + box.width + air &&
    y > box.top - air &&
    y < box.top + box.height + air
  );
}

/** A tick for each reading that was set aside, an open box for a stretch. */
function lane(pen: Pen, view: RunView, colours: PaperColours): void {
  const { ctx, frame } = pen;
  const width = solid(pen, 1.5);
  const from = frame.lane - LANE_TICK_PX / 2,
    to = frame.lane + LANE_TICK_PX / 2;
  let last = -Infinity;
  for (const run of view.setAside) {
    const start = frame.x(run.start_s),
      end = frame.x(run.end_s);
    if (end < 0 || start > frame.along) continue;
    if (end - start >= 3) {
      rectangle(pen, Math.max(-2, start), from, Math.min(frame.along + 2, Math.max(end, start + 6)), to);
      last = end;
    } else if (start - last >= 1.5) {
      uprightLine(pen, start, from, to, width);
      last = start;
    }
  }
  ctx.lineWidth = width;
  ctx.strokeStyle = colours.ink;
  ctx.stroke();
}

/** Up to so many borders all are drawn; above it those of the run alone, or a cycled day would be nothing but borders. */
const BORDERS_AT_MOST = 8;

/** Instants at which one part of the run ends and the next starts; a gap's own ends are no borders. */
export function borderInstants(view: RunView): number[] {
  const all: { at_s: number; ofRun: boolean }[] = [];
  view.parts.forEach((part, index) => {
    const before = view.parts[index - 1];
    if (before === undefined || before.kind === 'gap' || part.kind === 'gap') return;
    const ofRun = [before.kind, part.kind].some((kind) => kind === 'hold' || kind === 'warm-up');
    all.push({ at_s: part.start_s, ofRun });
  });
  const shown = all.length > BORDERS_AT_MOST ? all.filter(({ ofRun }) => ofRun) : all;
  return shown.map(({ at_s }) => at_s);
}

function borders(pen: Pen, view: RunView, colours: PaperColours): void {
  const { ctx, frame } = pen;
  const width = solid(pen, 1.2);
  ctx.setLineDash([7 * pen.ratio, 4 * pen.ratio]);
  for (const at_s of borderInstants(view)) {
    const along = frame.x(at_s);
    if (along < 0 || along > frame.along) continue;
    uprightLine(pen, along, 0, frame.across + PHASE_LINE_PX, width);
  }
  ctx.lineWidth = width;
  ctx.strokeStyle = colours.ink;
  ctx.stroke();
  ctx.beginPath();
  ctx.setLineDash([1.5 * pen.ratio, 4 * pen.ratio]);
  for (const { at_s } of view.wasHere) {
    const along = frame.x(at_s);
    if (along >= 0 && along <= frame.along) uprightLine(pen, along, 0, frame.across, width);
  }
  ctx.stroke();
}

/** Where a part's bracket lies along the plot; null where it is not shown. */
export function partAlong(
  pen: Pick<Pen, 'frame'>,
  part: Pick<Part, 'start_s' | 'end_s'>,
): { from: number; to: number } | null {
  const from = pen.frame.x(part.start_s),
    to = pen.frame.x(part.end_s);
  if (to <= 0 || from >= pen.frame.along) return null;
  return { from: Math.max(0, from), to: Math.min(pen.frame.along, to) };
}

/** Brackets above the strip (left of it when turned); the judged part heavy. */
function phaseLine(pen: Pen, view: RunView, colours: PaperColours): void {
  const { frame, ctx } = pen;
  for (const part of view.parts) {
    if (part.kind === 'gap') continue;
    const where = partAlong(pen, part);
    if (where === null) continue;
    const width = solid(pen, part.kind === 'hold' ? 3 : 1.3);
    ctx.beginPath();
    if (frame.turned) {
      const x = Math.round(3 * pen.ratio) + (width % 2) / 2;
      const y0 = pen.y(where.from, 0) + pen.ratio,
        y1 = pen.y(where.to, 0) - pen.ratio;
      ctx.moveTo(x + BRACKET_PX * pen.ratio, y0);
      ctx.lineTo(x, y0);
      ctx.lineTo(x, y1);
      ctx.lineTo(x + BRACKET_PX * pen.ratio, y1);
    } else {
      const y = Math.round(pen.y(0, frame.across + PHASE_LINE_PX)) + (width % 2) / 2;
      const x0 = pen.x(where.from, 0) + pen.ratio,
        x1 = pen.x(where.to, 0) - pen.ratio;
      ctx.moveTo(x0, y + BRACKET_PX * pen.ratio);
      ctx.lineTo(x0, y);
      ctx.lineTo(x1, y);
      ctx.lineTo(x1, y + BRACKET_PX * pen.ratio);
    }
    ctx.lineWidth = width;
    ctx.strokeStyle = colours.ink;
    ctx.lineJoin = 'miter';
    ctx.stroke();
  }
}

const LONG_TICK_PX = 9,
  SHORT_TICK_PX = 5;

/** The time axis at the plot's foot (its left edge when turned), ticks outwards, and a mark where the logger's clock was set. */
function timeAxis(pen: Pen, view: RunView, colours: PaperColours): void {
  const { ctx, frame } = pen;
  const width = solid(pen, 1.5);
  levelLine(pen, 0, 0, frame.along, width);
  for (const { at_s, long } of frame.ticks.ticks)
    uprightLine(pen, frame.x(at_s), 0, -(long ? LONG_TICK_PX : SHORT_TICK_PX), width);
  for (const step of view.steps) {
    const along = frame.x(step.at_s);
    if (along >= 0 && along <= frame.along)
      uprightLine(pen, along, -LONG_TICK_PX, LONG_TICK_PX, solid(pen, 3));
  }
  ctx.lineWidth = width;
  ctx.strokeStyle = colours.ink;
  ctx.stroke();
  // Over a gap the axis goes on, drawn thin: time passes without record.
  ctx.beginPath();
  for (const gap of view.gaps) {
    const where = gapAlong(pen, gap);
    if (where !== null) levelLine(pen, 0, where.from, where.to, width + 1);
  }
  ctx.lineWidth = width + 1;
  ctx.strokeStyle = colours.paper;
  ctx.setLineDash([2 * pen.ratio, 2 * pen.ratio]);
  ctx.stroke();
}
