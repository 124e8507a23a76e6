import { durationText, noBreak } from '#units/number-text.ts';
import { LABEL_SIZE_PT, LINE_MM, type Frame, type PlacedRun } from './chart-frame.ts';
import { clockAt } from './clock.ts';
import { BLACK, line, text, WHITE, type Item } from './display-list.ts';
import type { Homeless } from './pane-labels.ts';
import { spikeMarks, spikes } from './pressure-panes.ts';
import { PANE_HEIGHT } from './scales.ts';

/** More engagements than this are ticks and one count. */
const MOST_ENGAGEMENTS = 6;
/** More than this and only their number is always said. */
const MOST_NAMED = 2;
const TRIANGLE = 1.9;

/** Words that look for room in the lane; the earlier ones choose first. */
interface Wanted {
  /** First that fits is taken. */
  words: readonly string[];
  x: number;
  anchor: 'start' | 'middle' | 'end';
  /** Left out where the lower line has no room: the mark alone says it. */
  mayGo?: boolean;
  /** Stands beside its mark or nowhere. */
  fixed?: boolean;
}

/** The lane over the large pane: what happened when, in marks and words. `extra` are words that found no room in the pane. */
export function eventLane(frame: Frame, extra: readonly Homeless[]): Item[] {
  const bottom = frame.y.pane;
  const items: Item[] = [];
  const wanted: Wanted[] = [];
  for (const run of frame.runs) {
    const { engagements } = run;
    const many = engagements.length > MOST_ENGAGEMENTS;
    for (const engagement of engagements) {
      const up = run.x(engagement.start_s);
      if (many) items.push(line(up, bottom - 2, up, bottom, 0.25));
      else items.push(...mark(up, bottom, true), ...engagementWords(frame, run, engagement, wanted));
    }
    if (engagements.length > MOST_NAMED)
      wanted.push({
        words: [frame.words.engagements(engagements.length)],
        x: run.left,
        anchor: 'start',
      });
    for (const gap of run.narrowGaps) items.push(line(gap.x, bottom - 1.2, gap.x, bottom, 0.14));
    for (const gap of run.wideGaps) {
      const middle = (gap.left + gap.right) / 2;
      items.push(line(middle, bottom - 0.9, middle, bottom, 0.14));
      wanted.push({
        words: frame.words.noReadings(noBreak(durationText(gap.end_s - gap.start_s, false, frame.numbers))),
        x: middle,
        anchor: 'middle',
      });
    }
    const aside = spikes(run).length;
    if (aside > 0 && spikeMarks(frame, run).length === 0)
      wanted.push({ words: [frame.words.spikesSetAside(aside)], x: run.right, anchor: 'end' });
  }
  for (const { words, x } of extra)
    wanted.push(
      x === null
        ? { words: [words], x: frame.right, anchor: 'end' }
        : { words: [words], x, anchor: 'middle' },
    );
  return [...items, ...lanePlaces(frame, wanted)];
}

/** Filled triangle on the pane's edge: up where it engages, down where it releases. */
function mark(x: number, bottom: number, up: boolean): Item[] {
  const top = bottom - TRIANGLE;
  return [
    {
      kind: 'area',
      rings: [
        up
          ? [x - TRIANGLE / 2, bottom, x + TRIANGLE / 2, bottom, x, top]
          : [x - TRIANGLE / 2, top, x + TRIANGLE / 2, top, x, bottom],
      ],
      fill: BLACK,
    },
    line(x, bottom, x, bottom + PANE_HEIGHT, 0.16),
  ];
}

function engagementWords(
  frame: Frame,
  run: PlacedRun,
  engagement: { start_s: number; end_s: number },
  wanted: Wanted[],
): Item[] {
  const clock = (t_s: number): string | null => (run.clock ? clockAt(run.clock, t_s - run.first_s) : null);
  // The judged engagement, and the end of the last, are always named; others where the line has room beside their mark.
  const judged = engagement.start_s <= run.zero_s && engagement.end_s > run.zero_s;
  const crowd = run.engagements.length > MOST_NAMED;
  const last = run.engagements[run.engagements.length - 1] === engagement;
  wanted.push({
    words: [frame.words.engaged(clock(engagement.start_s))],
    x: run.x(engagement.start_s) + TRIANGLE / 2 + 0.8,
    anchor: 'start',
    fixed: true,
    mayGo: !judged || crowd,
  });
  // Engaged to the log's last reading: it was never seen to release.
  if (engagement.end_s >= run.last_s - 2 * run.series.medianInterval_s) return [];
  const x = run.x(engagement.end_s);
  wanted.push({
    words: [frame.words.released(clock(engagement.end_s))],
    x: x - TRIANGLE / 2 - 0.8,
    anchor: 'end',
    fixed: true,
    mayGo: run !== frame.last || !last || crowd,
  });
  return mark(x, frame.y.pane, false);
}

/** Places on the lane's two lines, the lower one first; words that fit nowhere are left out. */
function lanePlaces(frame: Frame, wanted: readonly Wanted[]): Item[] {
  const marks = frame.runs.flatMap((run) =>
    run.engagements.length > MOST_ENGAGEMENTS
      ? []
      : run.engagements.flatMap(({ start_s, end_s }) => [run.x(start_s), run.x(end_s)]),
  );
  const crowded = frame.runs
    .filter((run) => run.engagements.length > MOST_ENGAGEMENTS)
    .map((run) => ({ row: 0, left: run.left, right: run.right }));
  const taken: { row: number; left: number; right: number }[] = marks.map((x) => ({
    row: 0,
    // Words keep 1 mm from each other but may stand nearer to a mark.
    left: x - TRIANGLE / 2 + 0.4,
    right: x + TRIANGLE / 2 - 0.4,
  }));
  // Ticks stand close: words keep to the line above them.
  taken.push(...crowded);
  const items: Item[] = [];
  const rightmost = frame.right + 30;
  for (const entry of wanted) place(entry);
  return items;

  function place({ words, x, anchor, mayGo, fixed }: Wanted): void {
    for (const row of mayGo === true ? [0] : [0, 1])
      for (const choice of words) {
        const width = frame.width(choice, LABEL_SIZE_PT, 400);
        const wish = anchor === 'start' ? x : anchor === 'middle' ? x - width / 2 : x - width;
        for (const shift of [0, -2, 2, -4, 4, -8, 8, -12, 12, -16, 16, -24, 24, -32, 32]) {
          const left = wish + shift;
          const clear =
            left >= frame.last.left - 200 &&
            left >= 0 &&
            left + width <= rightmost &&
            taken.every(
              (other) => other.row !== row || other.right + 1 < left || other.left - 1 > left + width,
            );
          if (!clear || (shift !== 0 && fixed === true)) continue;
          taken.push({ row, left, right: left + width });
          const baseline = frame.y.pane - 0.9 - row * LINE_MM;
          items.push(
            ...(row === 1
              ? [
                  {
                    kind: 'rect' as const,
                    x: left - 0.4,
                    y: baseline - 2.2,
                    width: width + 0.8,
                    height: 2.9,
                    fill: WHITE,
                  },
                ]
              : []),
            text(left, baseline, choice),
          );
          return;
        }
      }
  }
}
