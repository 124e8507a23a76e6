import { type Frame, LABEL_SIZE_PT, LINE_MM, type PlacedRun, PLOT_LEFT } from './chart-frame.ts';
import { BLACK, line, text, WHITE, type Box, type Item } from './display-list.ts';
import { hatch } from './hatch.ts';
import { PANE_HEIGHT, roundStepAtLeast } from './scales.ts';
import { SetAside } from '#formats/log.ts';
import { unitLabel } from '#units/number-text.ts';

const GRID_INK = '#9a9a9a';
const ENVELOPE_FILL = '#c2c2c2';
/** An edge keeps the envelope visible on printers that know black and white alone. */
const ENVELOPE_EDGE = '#444444';
export const HATCH_PITCH = 1.5;
const HATCH_WIDTH = 0.11;
const LIMIT_WIDTH = 0.5;
const FRAME_WIDTH = 0.25;
/** How far the baseline of 8 pt figures lies below their middle. */
export const HALF_FIGURE = 0.98;
/** × marks stay this far inside the pane. */
const MARK_INSIDE = 3;
const MOST_MARKS = 20;

/** Multiples of a step within a range, both ends included. */
export function multiples(step: number, from: number, to: number): number[] {
  const result: number[] = [];
  for (let k = Math.ceil(from / step - 1e-9); k * step <= to + step * 1e-9; k++)
    result.push(Number((k * step).toPrecision(12)));
  return result;
}

/** Vertical lines at the hours (or what takes their place on a short run). */
export function timeGrid(run: PlacedRun, step_s: number, top: number, bottom: number): Item {
  const lines = multiples(step_s, run.first_s - run.zero_s, run.last_s - run.zero_s).map((t) => {
    const x = run.x(run.zero_s + t);
    return [x, top, x, bottom];
  });
  return { kind: 'lines', lines, stroke: { width: 0.12, ink: GRID_INK } };
}
const levelLines = (
  run: PlacedRun,
  levels: readonly number[],
  y: (level: number) => number,
  width: number,
): Item => ({
  kind: 'lines',
  lines: levels.map((level) => [run.left, y(level), run.right, y(level)]),
  stroke: { width, ink: GRID_INK },
});
const inMillimetres = (lines: readonly (readonly number[])[], y: (value: number) => number): number[][] =>
  lines.map((points) => points.map((value, index) => (index % 2 === 0 ? value : y(value))));

/** White over a pane where the record is broken, with dotted edges. */
export function gapsOver(run: PlacedRun, top: number, bottom: number): Item[] {
  return run.wideGaps.flatMap((gap): Item[] => [
    { kind: 'rect', x: gap.left, y: top, width: gap.right - gap.left, height: bottom - top, fill: WHITE },
    {
      kind: 'lines',
      lines: [
        [gap.left, top, gap.left, bottom],
        [gap.right, top, gap.right, bottom],
      ],
      stroke: { width: 0.25, ink: BLACK, dash: [0.5, 0.7] },
    },
  ]);
}
/** The frame of a pane about one run, in millimetres. */
export const frameOf = (run: PlacedRun, y: number, height: number): Item => ({
  kind: 'rect',
  x: run.left,
  y,
  width: run.right - run.left,
  height,
  stroke: { width: FRAME_WIDTH, ink: BLACK },
});

/** The whole run from zero: small, to show that the large pane is not. */
export function stripPane(frame: Frame): Item[] {
  const { strip, words } = frame;
  const top = frame.y.strip,
    bottom = top + strip.height;
  const ceiling = strip.perMillimetre * strip.height;
  const figure = roundStepAtLeast(strip.perMillimetre * 7);
  const items: Item[] = [
    text(PLOT_LEFT, top - 1.5, words.wholeRunFromZero(frame.stated(ceiling), unitLabel(frame.unit)), {
      weight: 600,
    }),
    text(
      frame.right,
      top - 1.5,
      words.oneMillimetreIs(`${frame.stated(strip.perMillimetre)} ${unitLabel(frame.unit)}`),
      {
        anchor: 'end',
      },
    ),
  ];
  for (const run of frame.runs) {
    items.push(
      timeGrid(run, gridStep(frame), top, bottom),
      levelLines(run, multiples(figure / 2, figure / 2, ceiling - figure / 10), frame.stripY, 0.12),
      {
        kind: 'clip',
        box: {
          x: run.left - 0.2,
          y: top - 0.2,
          width: run.right - run.left + 0.4,
          height: strip.height + 0.4,
        },
        items: [
          {
            kind: 'lines',
            lines: inMillimetres(run.smoothed, frame.stripY),
            stroke: { width: 0.28, ink: BLACK },
          },
        ],
      },
      ...gapsOver(run, top + 0.1, bottom - 0.1),
      frameOf(run, top, strip.height),
    );
  }
  for (const level of multiples(figure, 0, ceiling - figure / 10))
    items.push(
      line(PLOT_LEFT - 1.1, frame.stripY(level), PLOT_LEFT, frame.stripY(level), 0.2),
      text(PLOT_LEFT - 1.6, frame.stripY(level) + HALF_FIGURE, frame.stated(level), { anchor: 'end' }),
    );
  return [...items, ...enlargedBracket(frame)];
}

/** The bracket at the strip's end that marks what the large pane shows. */
function enlargedBracket(frame: Frame): Item[] {
  const ceiling = frame.strip.perMillimetre * frame.strip.height;
  const top = frame.stripY(Math.min(frame.pane.top, ceiling)),
    bottom = frame.stripY(Math.max(frame.pane.bottom, 0));
  const x = frame.right + 2;
  const middle = Math.max((top + bottom) / 2, frame.y.strip + 1.2);
  const items: Item[] = [
    {
      kind: 'lines',
      lines: [[x - 1.4, top, x, top, x, bottom, x - 1.4, bottom]],
      stroke: { width: 0.25, ink: BLACK },
    },
  ];
  frame.words
    .enlargedBelow(frame.stated(frame.pane.bottom), frame.stated(frame.pane.top))
    .forEach((words, row) => items.push(text(x + 1.2, middle + 0.2 + row * 3.28, words)));
  return items;
}

/** Seconds between the lines of the time grid. */
export function gridStep(frame: Frame): number {
  const step = [1, 2, 10, 60, 120, 300, 600, 3600, 7200, 28800, 86400, 864000].find(
    (seconds) => (seconds / 3600) * frame.perHour >= 9,
  );
  return step ?? 864000;
}

/** Parts of the hold that are on the paper, cut at gaps. */
export function holdBoxes(run: PlacedRun, from: number, to: number): Box[] {
  return run.holds.flatMap((hold) => {
    let pieces = [{ left: run.x(hold.start_s), right: run.x(hold.end_s) }];
    for (const gap of run.wideGaps)
      pieces = pieces.flatMap((piece) =>
        gap.right <= piece.left || gap.left >= piece.right
          ? [piece]
          : [
              { left: piece.left, right: gap.left },
              { left: gap.right, right: piece.right },
            ].filter(({ left, right }) => right > left),
      );
    return pieces.map(({ left, right }) => ({ x: left, y: from, width: right - left, height: to - from }));
  });
}

/** Ground of the large pane: grid, hatch outside the band over the hold, envelope, limits, smoothed line, gaps, borders, marks, frame. */
export function largePane(frame: Frame): Item[] {
  const top = frame.y.pane,
    bottom = top + PANE_HEIGHT;
  const { perMillimetre } = frame.pane;
  return frame.runs.flatMap((run): Item[] => {
    const box = { x: run.left, y: top, width: run.right - run.left, height: PANE_HEIGHT };
    const inside: Item[] = [
      levelLines(run, multiples(perMillimetre * 5, frame.pane.bottom, frame.pane.top), frame.paneY, 0.07),
      levelLines(run, multiples(perMillimetre * 10, frame.pane.bottom, frame.pane.top), frame.paneY, 0.12),
      timeGrid(run, gridStep(frame), top, bottom),
      ...forbidden(frame, run),
      ...envelopeItems(frame, run),
      ...limits(frame, run),
    ];
    const trace = inMillimetres(run.smoothed, frame.paneY);
    inside.push(
      { kind: 'lines', lines: trace, stroke: { width: 0.75, ink: WHITE } },
      { kind: 'lines', lines: trace, stroke: { width: 0.34, ink: BLACK } },
    );
    const items: Item[] = [{ kind: 'clip', box, items: inside }, ...gapsOver(run, top, bottom)];
    const firstHold = run.holds[0];
    if (firstHold) {
      const x = run.x(firstHold.start_s);
      items.push(line(x, top, x, bottom, 0.3));
    }
    return [...items, ...setAsideMarks(frame, run), frameOf(run, top, PANE_HEIGHT)];
  });
}

function forbidden(frame: Frame, run: PlacedRun): Item[] {
  const top = frame.y.pane,
    bottom = top + PANE_HEIGHT;
  const { low, high } = frame.band;
  return [
    ...(high === null ? [] : holdBoxes(run, top, Math.max(top, frame.paneY(high)))),
    ...(low === null ? [] : holdBoxes(run, Math.min(bottom, frame.paneY(low)), bottom)),
  ].flatMap((box) => hatch(box, true, HATCH_PITCH, HATCH_WIDTH));
}

function envelopeItems(frame: Frame, run: PlacedRun): Item[] {
  const rings = run.envelope.map((stretch) => {
    const upper = stretch.flatMap((column) => [column.x, frame.paneY(column.highest)]);
    const lower = [...stretch].reverse().flatMap((column) => [column.x, frame.paneY(column.lowest)]);
    return [...upper, ...lower];
  });
  return rings.length === 0
    ? []
    : [{ kind: 'area', rings, fill: ENVELOPE_FILL, stroke: { width: 0.08, ink: ENVELOPE_EDGE } }];
}

/** Limits: thick over the hold, dashed while warming up, none where nothing is judged. */
function limits(frame: Frame, run: PlacedRun): Item[] {
  return [frame.band.low, frame.band.high].flatMap((limit): Item[] => {
    if (limit === null) return [];
    const y = frame.paneY(limit);
    const thick = holdBoxes(run, y, y).map((box) => [box.x, y, box.x + box.width, y]);
    const dashed = [...run.phases.filter((phase) => phase.kind === 'warm-up'), ...run.unjudgedHolds].map(
      (phase) => [run.x(phase.start_s), y, run.x(phase.end_s), y],
    );
    return [
      { kind: 'lines', lines: dashed, stroke: { width: 0.2, ink: BLACK, dash: [1.6, 1.2] } },
      { kind: 'lines', lines: thick, stroke: { width: LIMIT_WIDTH, ink: BLACK } },
    ];
  });
}

/** Spikes set aside, within the run as drawn. @returns none where there are too many to draw */
export function spikes(run: PlacedRun): { x: number; value: number }[] {
  const { pressure, time_s } = run.series;
  const result: { x: number; value: number }[] = [];
  if (pressure)
    for (let i = 0; i < time_s.length; i++)
      if (pressure.flags[i] === SetAside.spike)
        result.push({ x: run.x(time_s[i] ?? NaN), value: pressure.values[i] ?? NaN });
  return result;
}
/** Where the marks stand on the paper; empty where there are too many. */
export function spikeMarks(frame: Frame, run: PlacedRun): { x: number; y: number }[] {
  const found = spikes(run);
  if (found.length > MOST_MARKS) return [];
  const top = frame.y.pane + MARK_INSIDE,
    bottom = frame.y.pane + PANE_HEIGHT - MARK_INSIDE;
  return found.map(({ x, value }) => ({
    x: Math.min(Math.max(x, run.left + 1), run.right - 1),
    y: Math.min(Math.max(frame.paneY(value), top), bottom),
  }));
}
function setAsideMarks(frame: Frame, run: PlacedRun): Item[] {
  const marks = spikeMarks(frame, run);
  const half = 0.75;
  const lines = marks.flatMap(({ x, y }) => [
    [x - half, y - half, x + half, y + half],
    [x - half, y + half, x + half, y - half],
  ]);
  return lines.length === 0
    ? []
    : [
        { kind: 'lines', lines, stroke: { width: 0.9, ink: WHITE } },
        { kind: 'lines', lines, stroke: { width: 0.25, ink: BLACK } },
      ];
}

/** Axis of the large pane: name, figures, limits in heavy type, the two slashes and the words that say that it does not start at zero. */
export function pressureAxis(frame: Frame): Item[] {
  const { top, bottom, perMillimetre } = frame.pane;
  const foot = frame.y.pane + PANE_HEIGHT;
  const inPane = (level: number | null): level is number => level !== null && level >= bottom && level <= top;
  const limitFigures = [frame.band.low, frame.band.high].filter(inPane);
  const clear = (level: number): boolean =>
    limitFigures.every((limit) => Math.abs(limit - level) / perMillimetre >= 3.3) &&
    frame.paneY(level) > frame.y.pane + 1 &&
    frame.paneY(level) < foot - 4;
  const figures = [
    ...limitFigures.map((level) => ({ level, weight: 600 as const })),
    ...multiples(perMillimetre * 10, bottom, top)
      .filter(clear)
      .map((level) => ({ level, weight: 400 as const })),
  ];
  // Limits nearer than a line of figures are pushed apart, the higher one up.
  const close =
    limitFigures.length === 2
      ? Math.max(0, LINE_MM - Math.abs((limitFigures[1] ?? 0) - (limitFigures[0] ?? 0)) / perMillimetre) / 2
      : 0;
  const items: Item[] = figures.flatMap(({ level, weight }, index): Item[] => [
    line(PLOT_LEFT - 1.1, frame.paneY(level), PLOT_LEFT, frame.paneY(level), weight === 600 ? 0.35 : 0.2),
    text(
      PLOT_LEFT - 1.6,
      frame.paneY(level) + HALF_FIGURE + (weight === 600 ? (index === 0 ? close : -close) : 0),
      frame.stated(level),
      { anchor: 'end', weight },
    ),
  ]);
  items.push(
    text(3.1, frame.y.pane + PANE_HEIGHT / 2, frame.words.pressureAxis(unitLabel(frame.unit)), {
      anchor: 'middle',
      upwards: true,
      weight: 600,
    }),
  );
  if (bottom === 0) return items;
  // A piece of the axis is taken out between the slashes.
  items.push(
    {
      kind: 'lines',
      lines: [[PLOT_LEFT, foot - 2.75, PLOT_LEFT, foot - 1.75]],
      stroke: { width: 0.7, ink: WHITE },
    },
    {
      kind: 'lines',
      lines: [
        [PLOT_LEFT - 1.6, foot - 2.2, PLOT_LEFT + 1.6, foot - 3.4],
        [PLOT_LEFT - 1.6, foot - 1.1, PLOT_LEFT + 1.6, foot - 2.3],
      ],
      stroke: { width: 0.3, ink: BLACK },
    },
  );
  frame.words
    .startsAt(frame.stated(bottom))
    .flatMap((words) => besideTheAxis(words, frame))
    .forEach((words, row) =>
      items.push(text(0, foot + 3.2 + row * 3.28, words, { weight: 600, size_pt: LABEL_SIZE_PT })),
    );
  return items;
}

/** A line of words left of the plot; one that would reach into it goes on below. */
function besideTheAxis(words: string, frame: Frame): string[] {
  const last = words.lastIndexOf(', ');
  return last < 0 || frame.width(words, LABEL_SIZE_PT, 600) <= PLOT_LEFT - 0.6
    ? [words]
    : [words.slice(0, last + 1), words.slice(last + 2)];
}
