import { durationText, fixedText, noBreak } from '#units/number-text.ts';
import { type Frame, LABEL_SIZE_PT, type PlacedRun, RULE_GRADUATION, RULE_PHASES } from './chart-frame.ts';
import { BLACK, line, text, WHITE, type Item } from './display-list.ts';
import { steadyFromHoldOn, warmFromHoldOn } from './judged-facts.ts';
import { graduation } from './scales.ts';
import { multiples } from './pressure-panes.ts';

const perUnit = { s: 1, min: 60, h: 3600 };
/** A figure stands this far from its tick. */
const BESIDE = 0.8;

/** The time axis and the phases of the run as one engraved rule between the panes. */
export function hourRule(frame: Frame): Item[] {
  return frame.runs.flatMap((run) => [...ticks(frame, run), ...phases(frame, run)]);
}

function ticks(frame: Frame, run: PlacedRun): Item[] {
  const { short_s, middle_s, long_s, figure_s, unit } = graduation(frame.perHour);
  const top = frame.y.rule;
  const from = run.first_s - run.zero_s,
    to = run.last_s - run.zero_s;
  const thin: number[][] = [],
    thick: number[][] = [];
  const isMultiple = (t: number, step: number): boolean => Math.abs(t / step - Math.round(t / step)) < 1e-6;
  for (const t of multiples(short_s, from, to)) {
    const x = run.x(run.zero_s + t);
    if (isMultiple(t, long_s)) thick.push([x, top, x, top + 2.6]);
    else if (isMultiple(t, middle_s)) thin.push([x, top, x, top + 1.9]);
    else thin.push([x, top, x, top + 1.1]);
  }
  const items: Item[] = [
    { kind: 'lines', lines: thin, stroke: { width: 0.14, ink: BLACK } },
    { kind: 'lines', lines: thick, stroke: { width: 0.26, ink: BLACK } },
    {
      kind: 'rect',
      x: run.left,
      y: top,
      width: run.right - run.left,
      height: RULE_GRADUATION,
      stroke: { width: 0.25, ink: BLACK },
    },
  ];
  let free = run.left - 0.5;
  for (const t of multiples(figure_s, from, to)) {
    const number = fixedText(t / perUnit[unit], figure_s < perUnit[unit] ? 1 : 0, frame.numbers);
    const words = t === 0 ? number : noBreak(`${number} ${frame.words.timeUnit[unit]}`);
    const width = frame.width(words, LABEL_SIZE_PT, 600);
    const x = run.x(run.zero_s + t);
    const before = x + BESIDE + width > run.right - 0.3;
    const left = before ? x - BESIDE - width : x + BESIDE;
    if (left < free || left < run.left + 0.2) continue;
    items.push(text(left, top + 4.8, words, { weight: 600 }));
    free = left + width + 0.8;
  }
  return items;
}

function phases(frame: Frame, run: PlacedRun): Item[] {
  const y = frame.y.phases;
  const baseline = y + RULE_PHASES / 2 + 0.98;
  const { words } = frame;
  const warm = steadyFromHoldOn(run.assessment) && warmFromHoldOn(run.assessment);
  const items: Item[] = [];
  const phrase = (choices: readonly string[], left: number, right: number, hold: boolean): void => {
    const fits = choices.find(
      (choice) => frame.width(choice, LABEL_SIZE_PT, hold ? 600 : 400) + 1.4 <= right - left,
    );
    if (fits !== undefined)
      items.push(
        text((left + right) / 2, baseline, fits, {
          anchor: 'middle',
          ...(hold ? { ink: WHITE, weight: 600 as const } : {}),
        }),
      );
  };
  const total_s = run.holds.reduce((sum, hold) => sum + hold.end_s - hold.start_s, 0);
  const longest = run.holds.reduce((best, hold) => Math.max(best, hold.end_s - hold.start_s), 0);
  let named = false;
  for (const phase of run.phases) {
    const left = run.x(phase.start_s),
      right = run.x(phase.end_s);
    if (phase.kind === 'hold') {
      items.push({ kind: 'rect', x: left, y, width: right - left, height: RULE_PHASES, fill: BLACK });
      const longestPiece = phase.end_s - phase.start_s === longest;
      if (longestPiece && !named) {
        named = true;
        phrase(words.judged(noBreak(durationText(total_s, false, frame.numbers)), warm), left, right, true);
      }
      continue;
    }
    if (left > run.left + 0.05) items.push(line(left, y, left, y + RULE_PHASES, 0.14));
    if (phase.kind === 'warm-up') phrase(words.warmingUp, left, right, false);
    if (phase.kind === 'not-judged' || (phase.kind === 'idle' && run.holds.length === 0))
      phrase(words.notJudged, left, right, false);
  }
  items.push({
    kind: 'rect',
    x: run.left,
    y,
    width: run.right - run.left,
    height: RULE_PHASES,
    stroke: { width: 0.25, ink: BLACK },
  });
  return items;
}
