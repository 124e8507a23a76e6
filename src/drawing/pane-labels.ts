import { durationText, fixedText, noBreak, withUnit } from '#units/number-text.ts';
import { LABEL_SIZE_PT, LINE_MM, type Frame, type PlacedRun } from './chart-frame.ts';
import { COLUMN_MM } from './columns.ts';
import { BLACK, line, text, WHITE, type Box, type Item, type Weight } from './display-list.ts';
import { pressureDecimals } from './gap-column.ts';
import { spikeMarks, spikes } from './pressure-panes.ts';
import { PANE_HEIGHT } from './scales.ts';

const LABEL_HEIGHT = 3.1;
/** Baseline below the top of a label's white ground. */
const BASELINE = 2.35;
const AWAY = 0.8;
/** Any place that covers no thin line is taken before one that does. */
const COST_OF_A_LINE = 1e4;

/** Labels that stand in the large pane, each on a white ground, and the words for which no free place was found. */
export interface PaneLabels {
  items: Item[];
  homeless: Homeless[];
}
/** Words for the event lane, at the place that they speak of where they speak of one. */
export interface Homeless {
  words: string;
  x: number | null;
}

/** Names of the trace, of what is clipped, of what was set aside; nothing is put over the trace, a gap or a border. */
export function paneLabels(frame: Frame): PaneLabels {
  const items: Item[] = [];
  const homeless: Homeless[] = [];
  const taken: Box[] = [];
  for (const run of frame.runs) {
    const isLast = run === frame.last;
    const trace = traceOf(frame, run);
    const beyond = beyondThePane(frame, run);
    taken.push(...obstacles(frame, run));
    if (frame.runs.length > 1) items.push(...runName(frame, run, isLast, taken));
    for (const mark of beyond) {
      items.push(...mark.items);
      taken.push(mark.box);
      const placed = place(
        frame,
        run,
        trace,
        mark.words,
        taken,
        (box) =>
          Math.abs(box.x - mark.box.x - mark.box.width) +
          3 * Math.abs(box.y + LABEL_HEIGHT / 2 - (mark.box.y + mark.box.height / 2)),
      );
      if (placed) items.push(...labelItems(placed, mark.words));
      else homeless.push({ words: mark.words, x: mark.box.x });
    }
    const first = spikeMarks(frame, run)[0];
    const count = spikes(run).length;
    if (first) {
      const words = frame.words.spikesSetAside(count);
      const placed = place(
        frame,
        run,
        trace,
        words,
        taken,
        (box) =>
          Math.min(Math.abs(box.x - first.x - 1.2), Math.abs(box.x + box.width - first.x + 1.2)) +
          2 * Math.abs(box.y + LABEL_HEIGHT / 2 - first.y),
      );
      if (placed) items.push(...labelItems(placed, words));
      else homeless.push({ words, x: first.x });
    }
    if (isLast) traceNames(frame, run, trace, taken, items, homeless);
    else items.push(...earlierAverage(frame, run, trace, taken));
  }
  return { items, homeless };
}

/** Thin lines of engaging and releasing: a label may lie over one where there is no other place. */
function engagementLines(frame: Frame, run: PlacedRun): Box[] {
  return run.engagements
    .flatMap(({ start_s, end_s }) => [run.x(start_s), run.x(end_s)])
    .map((x) => ({ x: x - 0.4, y: frame.y.pane, width: 0.8, height: PANE_HEIGHT }));
}

/** What no label may cover besides the trace itself: gaps, the border of the hold, limits, marks. */
function obstacles(frame: Frame, run: PlacedRun): Box[] {
  const top = frame.y.pane,
    height = PANE_HEIGHT;
  const upright = (x: number, half: number): Box => ({ x: x - half, y: top, width: 2 * half, height });
  return [
    ...run.wideGaps.map((gap) => ({ x: gap.left - 0.4, y: top, width: gap.right - gap.left + 0.8, height })),
    ...run.holds.slice(0, 1).map((hold) => upright(run.x(hold.start_s), 0.5)),
    ...[frame.band.low, frame.band.high].flatMap((limit) =>
      limit === null
        ? []
        : [{ x: run.left, y: frame.paneY(limit) - 0.4, width: run.right - run.left, height: 0.8 }],
    ),
    ...spikeMarks(frame, run).map(({ x, y }) => ({ x: x - 1, y: y - 1, width: 2, height: 2 })),
  ];
}

const overlap = (a: Box, b: Box): boolean =>
  a.x < b.x + b.width && b.x < a.x + a.width && a.y < b.y + b.height && b.y < a.y + a.height;

/** Where envelope and line run, column by column of paper, in millimetres; NaN where they do not. */
interface Trace {
  left: number;
  envelope: { top: Float64Array; bottom: Float64Array };
  line: { top: Float64Array; bottom: Float64Array };
}
function traceOf(frame: Frame, run: PlacedRun): Trace {
  const count = Math.ceil((run.right - run.left) / COLUMN_MM) + 1;
  const empty = (): Trace['line'] => ({
    top: new Float64Array(count).fill(NaN),
    bottom: new Float64Array(count).fill(NaN),
  });
  const trace: Trace = { left: run.left, envelope: empty(), line: empty() };
  const add = (part: Trace['line'], x: number, high: number, low: number): void => {
    const index = Math.floor((x - run.left) / COLUMN_MM);
    if (index < 0 || index >= count) return;
    const top = frame.paneY(high),
      bottom = frame.paneY(low);
    if (!(top >= (part.top[index] ?? NaN))) part.top[index] = top;
    if (!(bottom <= (part.bottom[index] ?? NaN))) part.bottom[index] = bottom;
  };
  for (const stretch of run.envelope)
    for (const column of stretch) add(trace.envelope, column.x, column.highest, column.lowest);
  for (const points of run.smoothed)
    for (let i = 0; i + 1 < points.length; i += 2)
      add(trace.line, points[i] ?? NaN, points[i + 1] ?? NaN, points[i + 1] ?? NaN);
  return trace;
}
/** Top and bottom of a part between two places; null where it does not run there. */
function reachBetween(
  part: Trace['line'],
  left: number,
  from: number,
  to: number,
): { top: number; bottom: number } | null {
  let top = Infinity,
    bottom = -Infinity;
  const last = Math.min(part.top.length - 1, Math.floor((to - left) / COLUMN_MM));
  for (let index = Math.max(0, Math.floor((from - left) / COLUMN_MM)); index <= last; index++) {
    const high = part.top[index] ?? NaN,
      low = part.bottom[index] ?? NaN;
    if (high < top) top = high;
    if (low > bottom) bottom = low;
  }
  return top <= bottom ? { top, bottom } : null;
}
/** The same of envelope and line together. */
function traceBetween(trace: Trace, from: number, to: number): { top: number; bottom: number } | null {
  const a = reachBetween(trace.envelope, trace.left, from, to),
    b = reachBetween(trace.line, trace.left, from, to);
  if (!a || !b) return a ?? b;
  return { top: Math.min(a.top, b.top), bottom: Math.max(a.bottom, b.bottom) };
}

/**
 * The free place of a label that is cheapest by a cost; places lie on a raster of 1 mm by 0.5 mm, the same on every machine.
 * The place found is taken.
 */
function place(
  frame: Frame,
  run: PlacedRun,
  trace: Trace,
  words: string | string[],
  taken: Box[],
  cost: (box: Box) => number,
  weight: Weight = 400,
): Box | null {
  const lines = Array.isArray(words) ? words : [words];
  const width = Math.max(...lines.map((part) => frame.width(part, LABEL_SIZE_PT, weight))) + 1;
  const height = LABEL_HEIGHT + (lines.length - 1) * LINE_MM;
  const top = frame.y.pane + 0.5,
    bottom = frame.y.pane + PANE_HEIGHT - 0.5;
  const candidates: { box: Box; cost: number }[] = [];
  const thin = engagementLines(frame, run);
  for (let x = run.left + 0.6; x + width <= run.right - 0.6; x += 1) {
    const there = traceBetween(trace, x - AWAY, x + width + AWAY);
    for (let y = top; y + height <= bottom; y += 0.5) {
      if (there && y - AWAY < there.bottom && y + height + AWAY > there.top) continue;
      const box = { x, y, width, height };
      if (!taken.some((other) => overlap(box, other))) {
        const covered = thin.filter((other) => overlap(box, other)).length;
        candidates.push({ box, cost: cost(box) + COST_OF_A_LINE * covered });
      }
    }
  }
  candidates.sort((a, b) => a.cost - b.cost || a.box.x - b.box.x || a.box.y - b.box.y);
  const best = candidates[0]?.box ?? null;
  if (best) taken.push(best);
  return best;
}

function labelItems(box: Box, words: string): Item[] {
  return [{ kind: 'rect', ...box, fill: WHITE }, text(box.x + 0.5, box.y + BASELINE, words)];
}

/** Grey and black line named with a leader each, in the band's free part. */
function traceNames(
  frame: Frame,
  run: PlacedRun,
  trace: Trace,
  taken: Box[],
  items: Item[],
  homeless: Homeless[],
): void {
  const { smoothing } = run.assessment.settings;
  const names = [
    { words: frame.words.grey, toLine: false, wish: 0.3 },
    ...(smoothing.method === 'none'
      ? []
      : [
          {
            words: frame.words.smoothedLine(
              smoothing.method,
              noBreak(durationText(smoothing.window_s, true, frame.numbers)),
            ),
            toLine: true,
            wish: 0.75,
          },
        ]),
  ];
  const inBand = (box: Box): boolean => {
    const { low, high } = frame.band;
    return (
      (high === null || box.y > frame.paneY(high)) && (low === null || box.y + box.height < frame.paneY(low))
    );
  };
  for (const { words, toLine, wish } of names) {
    const wanted = run.left + (run.right - run.left) * wish;
    const placed = place(frame, run, trace, words, taken, (box) => {
      const reach = leaderReach(frame, trace, box, toLine);
      // Inside the band first, then a short leader, then near the wished place.
      return (
        (inBand(box) ? 0 : 1000) +
        (reach === null ? 500 : 6 * reach.length) +
        Math.abs(box.x + box.width / 2 - wanted) * 0.5
      );
    });
    const reach = placed ? leaderReach(frame, trace, placed, toLine) : null;
    if (!placed || !reach || reach.length > 20) {
      if (placed) taken.pop();
      homeless.push({ words, x: null });
      continue;
    }
    items.push(line(reach.x, reach.from, reach.x, reach.to, 0.18), ...labelItems(placed, words));
  }
}

/** The upright line from a label's middle to the trace: where it starts and ends. */
function leaderReach(
  frame: Frame,
  trace: Trace,
  box: Box,
  toLine: boolean,
): { x: number; from: number; to: number; length: number } | null {
  const x = box.x + box.width / 2;
  const extent = toLine
    ? reachBetween(trace.line, trace.left, x - 0.4, x + 0.4)
    : reachBetween(trace.envelope, trace.left, x, x);
  if (!extent) return null;
  const below = box.y > extent.bottom;
  const inset = toLine ? 0 : Math.min(0.8, (extent.bottom - extent.top) / 3);
  const to = below ? extent.bottom - inset : extent.top + inset;
  const inPane = to > frame.y.pane && to < frame.y.pane + PANE_HEIGHT;
  const from = below ? box.y : box.y + box.height;
  return inPane ? { x, from, to, length: Math.abs(from - to) } : null;
}

/** A filled triangle at the pane's edge where the smoothed run lies beyond it, with how far. */
function beyondThePane(frame: Frame, run: PlacedRun): { items: Item[]; box: Box; words: string }[] {
  const { pane, words } = frame;
  const say = (value: number): string =>
    noBreak(
      withUnit(
        fixedText(
          value,
          pressureDecimals(frame.unit) === 1 ? 0 : pressureDecimals(frame.unit),
          frame.numbers,
        ),
        frame.unit,
      ),
    );
  return (['above', 'below'] as const).flatMap((side) => {
    let extreme: { x: number; value: number; cold: boolean } | null = null;
    for (const phase of run.phases) {
      if (phase.kind !== 'hold' && phase.kind !== 'warm-up') continue;
      for (const stretch of run.envelope)
        for (const column of stretch) {
          if (column.x < run.x(phase.start_s) || column.x > run.x(phase.end_s)) continue;
          const value = side === 'above' ? column.highest : column.lowest;
          const beyond = side === 'above' ? value > pane.top : value < pane.bottom;
          if (!beyond || (side === 'below' && rising(frame, run, column.x))) continue;
          if (extreme === null || (side === 'above' ? value > extreme.value : value < extreme.value))
            extreme = { x: column.x, value, cold: phase.kind === 'warm-up' };
        }
    }
    if (extreme === null) return [];
    const { x, value, cold } = extreme;
    const edge = side === 'above' ? frame.y.pane + 0.7 : frame.y.pane + PANE_HEIGHT - 0.7;
    const base = side === 'above' ? edge + 1.9 : edge - 1.9;
    const at = Math.min(Math.max(x + (cold ? 1.4 : 0), run.left + 1.6), run.right - 1.6);
    return [
      {
        items: [
          {
            kind: 'area' as const,
            rings: [[at, edge, at - 0.95, base, at + 0.95, base]],
            fill: BLACK,
            stroke: { width: 0.2, ink: WHITE },
          },
        ],
        box: { x: at - 1, y: Math.min(edge, base), width: 2, height: 1.9 },
        words: side === 'above' ? words.aboveThePane(say(value), cold) : words.belowThePane(say(value), cold),
      },
    ];
  });
}

/** The climb on engaging, before the pressure first reached the pane: low because it just began. */
function rising(frame: Frame, run: PlacedRun, x: number): boolean {
  for (const stretch of run.envelope)
    for (const column of stretch) {
      if (column.x < run.x(run.zero_s)) continue;
      if (column.highest >= frame.pane.bottom) return x <= column.x;
      if (column.x > x + 2) return false;
    }
  return false;
}

/** "first test", "re-test" at the top right of each part. */
function runName(frame: Frame, run: PlacedRun, isLast: boolean, taken: Box[]): Item[] {
  const words = isLast ? frame.words.reTest : frame.words.firstTest;
  const width = frame.width(words, LABEL_SIZE_PT, 600) + 1;
  const box = { x: run.right - width - 1, y: frame.y.pane + 1, width, height: LABEL_HEIGHT };
  taken.push(box);
  return [{ kind: 'rect', ...box, fill: WHITE }, text(box.x + 0.5, box.y + BASELINE, words, { weight: 600 })];
}

/** The average of the test before, in words with a leader: the column belongs to the last one. */
function earlierAverage(frame: Frame, run: PlacedRun, trace: Trace, taken: Box[]): Item[] {
  const { value } = run.assessment.quantities.operatingPressure;
  if (value === null) return [];
  const whole = frame.words.average(fixedText(value, pressureDecimals(frame.unit), frame.numbers));
  const cost = (candidate: Box): number => {
    const reach = leaderReach(frame, trace, candidate, true);
    return reach === null ? 500 : reach.length + Math.abs(reach.length - 6);
  };
  // In a narrow part the words and the figure stand one under the other.
  for (const lines of [[whole], whole.split(/ (?=[^ ]*$)/)]) {
    const box = place(frame, run, trace, lines, taken, cost, 600);
    if (!box) continue;
    const reach = leaderReach(frame, trace, box, true);
    return [
      ...(reach ? [line(reach.x, reach.from, reach.x, reach.to, 0.18)] : []),
      { kind: 'rect', ...box, fill: WHITE },
      ...lines.map((words, row) =>
        text(box.x + box.width / 2, box.y + BASELINE + row * LINE_MM, words, {
          weight: 600,
          anchor: 'middle',
        }),
      ),
    ];
  }
  return [];
}
