import uPlot from 'uplot';
import 'uplot/dist/uPlot.min.css';
import { inNextTask } from '#app/in-next-task.ts';
import { drawGround } from './draw-ground.ts';
import { drawMarks } from './draw-marks.ts';
import { shownFrame, type Frame, type ShownFrame } from './frame.ts';
import type { Box } from './label.ts';
import type { PaperColours } from './paper-colours.ts';
import { penOf, type Pen } from './pen.ts';
import type { RunView } from './run-view.ts';
import { lineTraces, rawTraces, type Traces } from './trace.ts';

/** What the strip shows. Positions of the cursor are in the frame's "along". */
export interface Picture {
  view: RunView;
  /** The frame before a part was chosen: as long as it stays, nothing is laid out anew. */
  paper: Frame;
  frame: ShownFrame;
  /** Device pixels to a CSS px. */
  ratio: number;
  /** Texts that no cross is drawn under. */
  quiet: readonly Box[];
  /** row null: rings go, the hairline stays; along null: no cursor */
  cursor: { along: number | null; row: number | null };
}

/** The drawn strip. */
export interface Plot {
  /** Draws it at once, and anew only what changed. */
  draw: (picture: Picture) => void;
  /**
   * The first picture in pieces, each in a task of its own, so that the page answers in between: the paper, then what is worked out of
   * the readings. Once it stands the same as `draw`.
   */
  build: (picture: Picture) => void;
  recolour: (colours: PaperColours) => void;
  destroy: () => void;
}

/** What the hooks draw from. */
interface Drawn {
  view: RunView;
  paper: Frame;
  frame: ShownFrame;
  ratio: number;
  colours: PaperColours;
  /** Of which frame they are; null as long as only the paper is to stand. */
  traces: (Traces & { of: ShownFrame }) | null;
  cursorRow: number | null;
  quiet: readonly Box[];
}

/** @param coloursNow asked for only where the strip is laid out anew: in the middle of every step along the run it would cost */
export function createPlot(host: HTMLElement, coloursNow: () => PaperColours): Plot {
  let current: { u: uPlot; drawn: Drawn; larger: number } | null = null;
  let wished: Picture | null = null,
    raw: { of: ShownFrame; paths: Traces['raw'] } | null = null;
  /** Takes the next piece back; null where the picture is whole. */
  let notYet: (() => void) | null = null;

  function layOut({ view, paper, ratio }: Picture): void {
    if (current !== null) {
      const { drawn } = current;
      if (drawn.view === view && drawn.paper === paper && drawn.ratio === ratio) return;
      current.u.destroy();
    }
    const drawn: Drawn = {
      view,
      paper,
      frame: shownFrame(paper, view, null),
      ratio,
      colours: coloursNow(),
      traces: null,
      cursorRow: null,
      quiet: [],
    };
    // The library draws with the window's device pixels; for finer ones all is laid out larger, and shown smaller.
    const larger = ratio / uPlot.pxRatio;
    host.style.zoom = larger === 1 ? '' : String(1 / larger);
    host.style.setProperty('--larger', String(larger));
    current = { u: createChart(host, drawn, larger, () => notYet !== null), drawn, larger };
  }

  function show(picture: Picture): void {
    layOut(picture);
    if (current === null) return;
    const { u, drawn, larger } = current;
    const { frame, quiet, cursor } = picture;
    if (drawn.frame !== frame || drawn.quiet !== quiet) {
      drawn.frame = frame;
      drawn.quiet = quiet;
      u.setScale('x', { min: frame.shown.from_s, max: frame.shown.to_s });
    }
    drawn.cursorRow = cursor.row;
    const at = (cursor.along ?? -10) * larger;
    u.setCursor(frame.turned ? { left: 5, top: at } : { left: at, top: 5 });
  }

  function nextPiece(): void {
    if (wished === null) return;
    const before = current;
    show(wished);
    if (current === null) return;
    const { u, drawn } = current;
    // Laying it out was a piece of its own.
    if (current === before) {
      const pen = penFor(u, drawn);
      if (raw?.of !== drawn.frame) raw = { of: drawn.frame, paths: rawTraces(pen, drawn.view) };
      else {
        drawn.traces = { of: drawn.frame, raw: raw.paths, lines: lineTraces(pen, drawn.view) };
        whole();
        u.redraw();
        return;
      }
    }
    notYet = inNextTask(nextPiece);
  }

  function whole(): void {
    notYet?.();
    notYet = wished = raw = null;
    host.removeAttribute('aria-busy');
  }

  return {
    draw(picture) {
      const paperAlone = notYet === null ? null : current;
      whole();
      show(picture);
      if (paperAlone === current) current?.u.redraw();
    },
    build(picture) {
      if (current !== null && notYet === null) {
        show(picture);
        return;
      }
      wished = picture;
      host.setAttribute('aria-busy', 'true');
      notYet ??= inNextTask(nextPiece);
    },
    recolour(colours) {
      if (current === null) return;
      current.drawn.colours = colours;
      current.u.redraw();
    },
    destroy() {
      whole();
      current?.u.destroy();
      current = null;
    },
  };
}

const penFor = (u: uPlot, { frame, ratio }: Drawn): Pen =>
  penOf(u.ctx, frame, ratio, { left: u.bbox.left, top: u.bbox.top });

const noMouse = (): null => null;
const RING_PX = 13,
  RING_LINE_PX = 3;

/**
 * One instance with two ranges of values: time line, cursor and zoom are common by that. Lines, ground and marks are drawn by us; the
 * library keeps the scales, the canvas and the cursor.
 * @param larger by how much all is laid out larger than it is shown
 * @param paperAlone whether the readings are not to be drawn yet
 */
function createChart(host: HTMLElement, drawn: Drawn, larger: number, paperAlone: () => boolean): uPlot {
  const { view } = drawn;
  const nothingYet = new Path2D();
  const paths = (which: keyof Traces['lines']) => (u: uPlot) => ({
    stroke: drawn.traces?.lines[which]?.path ?? nothingYet,
    fill: null,
    clip: paneClip(penFor(u, drawn), which === 'pressure' ? drawn.frame.pressurePane : drawn.frame.oilPane),
    flags: 0,
  });
  const nothing = (): Float64Array => new Float64Array(view.time_s.length).fill(NaN);
  const u = new uPlot(
    {
      ...layout(drawn.frame, larger),
      series: [
        {},
        {
          scale: 'p',
          stroke: () => drawn.colours.pressure,
          width: 2.8 * larger,
          cap: 'round',
          points: { show: false },
          paths: paths('pressure'),
        },
        {
          scale: 'o',
          stroke: () => drawn.colours.oil,
          width: 2.5 * larger,
          dash: [9 * larger, 3 * larger],
          points: { show: false },
          paths: paths('oil'),
        },
      ],
      legend: { show: false },
      cursor: {
        x: true,
        y: false,
        drag: { x: false, y: false },
        bind: {
          mousedown: noMouse,
          mouseup: noMouse,
          click: noMouse,
          dblclick: noMouse,
          mousemove: noMouse,
          mouseleave: noMouse,
          mouseenter: noMouse,
        },
        // The row under the cursor is ours to say; over a row without value the ring goes.
        dataIdx: (self, series) => {
          const row = drawn.cursorRow;
          if (series === 0) return row ?? 0;
          const value = row === null ? NaN : (self.data[series]?.[row] ?? NaN);
          return Number.isNaN(value) || !inPane(drawn.frame, series, value) ? null : row;
        },
        points: {
          size: RING_PX * larger,
          width: RING_LINE_PX * larger,
          stroke: (_, series) => (series === 1 ? drawn.colours.pressure : drawn.colours.oil),
          fill: () => drawn.colours.paper,
        },
      },
      hooks: {
        drawAxes: [
          (self) => {
            const pen = penFor(self, drawn);
            if (!paperAlone() && drawn.traces?.of !== drawn.frame)
              drawn.traces = {
                raw: rawTraces(pen, view),
                lines: lineTraces(pen, view),
                of: drawn.frame,
              };
            drawGround(pen, view, drawn.colours, drawn.traces);
          },
        ],
        draw: [
          (self) =>
            drawMarks(
              penFor(self, drawn),
              view,
              drawn.colours,
              drawn.traces?.lines.pressure?.path ?? null,
              drawn.quiet,
            ),
        ],
      },
    },
    [view.time_s, view.pressure?.smoothed ?? nothing(), view.oil?.smoothed ?? nothing()],
    host,
  );
  for (const canvas of u.root.querySelectorAll('canvas')) canvas.setAttribute('aria-hidden', 'true');
  return u;
}

function paneClip(pen: Pen, pane: { from: number; size: number } | null): Path2D {
  const clip = new Path2D();
  if (pane === null) return clip;
  const { frame } = pen;
  const x = [pen.x(0, pane.from), pen.x(frame.along, pane.from + pane.size)],
    y = [pen.y(0, pane.from), pen.y(frame.along, pane.from + pane.size)];
  clip.rect(
    Math.min(...x),
    Math.min(...y),
    Math.abs((x[1] ?? 0) - (x[0] ?? 0)),
    Math.abs((y[1] ?? 0) - (y[0] ?? 0)),
  );
  return clip;
}

function inPane(frame: Frame, series: number, value: number): boolean {
  if (series === 1) {
    const px = frame.pressure.px(value);
    return px >= -4 && px <= frame.pressurePane.size + 1;
  }
  return frame.oil !== null;
}

/** Size, padding and scales: everything that hangs on the frame alone. */
function layout(
  frame: ShownFrame,
  larger: number,
): Pick<uPlot.Options, 'width' | 'height' | 'padding' | 'scales' | 'axes' | 'pxAlign'> {
  const { plot, turned, across, pressurePane, pressure, oil, shown } = frame;
  const pressureBack = (px: number): number => pressure.value(px - pressurePane.from);
  // 100: a scale by functions of our own. The library's enum is for its declarations only and has no values.
  // oxlint-disable-next-line typescript/no-unsafe-enum-assignment
  const value: Omit<uPlot.Scale, 'range'> = { auto: false, distr: 100, ori: turned ? 0 : 1, dir: 1 };
  return {
    width: frame.width * larger,
    height: frame.height * larger,
    padding: [
      plot.top * larger,
      (frame.width - plot.left - plot.width) * larger,
      (frame.height - plot.top - plot.height) * larger,
      plot.left * larger,
    ],
    pxAlign: 0,
    scales: {
      x: {
        time: false,
        auto: false,
        ori: turned ? 1 : 0,
        dir: turned ? -1 : 1,
        min: shown.from_s,
        max: shown.to_s,
      },
      p: {
        ...value,
        fwd: (at) => pressurePane.from + pressure.px(at),
        bwd: pressureBack,
        // The range must be given: from the plot's foot to its top, in pressures.
        range: () => [pressureBack(0), pressureBack(across)],
      },
      o: {
        ...value,
        fwd: (at) => oil?.px(at) ?? at,
        bwd: (px) => oil?.value(px) ?? px,
        range: () => [oil?.value(0) ?? 0, oil?.value(across) ?? across],
      },
    },
    axes: [{ show: false }, { show: false }],
  };
}
