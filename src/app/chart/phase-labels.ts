import type { Phase } from '#formats/assessment.ts';
import { durationText, noBreak } from '#app/shown-numbers.ts';
import { partAlong, PHASE_LINE_PX } from './draw-marks.ts';
import { NARROW_UNDER, type ShownFrame } from './frame.ts';
import { LINE_PX, overlaps, sizeOf, type Label, type Measure, type TextRun } from './label.ts';
import type { Part, RunView } from './run-view.ts';

export const phaseWords: Readonly<Record<Phase['kind'], string>> = {
  idle: 'Idle',
  'warm-up': 'Warm-up',
  hold: 'Hold',
  'run-down': 'Run-down',
  'not-judged': 'Not judged',
  gap: 'No record',
};

/** First to get a place where not all fit. */
const weight: Readonly<Record<Phase['kind'], number>> = {
  hold: 0,
  'warm-up': 1,
  'run-down': 2,
  idle: 3,
  'not-judged': 4,
  gap: 9,
};

/** A name may be so much longer than its bracket. */
const OVERHANG = 1.5;

/** Names of the parts over their brackets (left of them when turned); a name that finds no place is left out. */
export function phaseLabels(
  frame: ShownFrame,
  view: RunView,
  measure: Measure,
  taken: readonly Label[],
): Label[] {
  const placed: Label[] = [];
  const parts = view.parts
    .filter(({ kind }) => kind !== 'gap')
    .sort((a, b) => weight[a.kind] - weight[b.kind] || b.end_s - b.start_s - (a.end_s - a.start_s));
  let judgedNamed = false;
  for (const part of parts) {
    const where = partAlong({ frame }, part);
    if (where === null) continue;
    const wording = wordings(part, frame, view, !judgedNamed);
    for (const lines of wording) {
      const label = frame.turned
        ? turnedLabel(frame, part, where, lines, measure, [...taken, ...placed])
        : wideLabel(frame, part, where, lines, measure, [...taken, ...placed]);
      if (label === null) continue;
      placed.push(label);
      if (part.kind === 'hold') judgedNamed = true;
      break;
    }
  }
  return placed;
}

/** The fullest wording first. A line of the wide strip is one line; the turned strip has two short ones. */
function wordings(part: Part, frame: ShownFrame, view: RunView, first: boolean): TextRun[][][] {
  const { kind } = part;
  const name = phaseWords[kind];
  const moved = kind === 'hold' && view.wasHere.length > 0;
  const length = `${noBreak(durationText(part.end_s - part.start_s))}${moved ? ', moved by hand' : ''}`;
  const bold = kind === 'hold';
  if (frame.turned)
    return [
      [[{ text: name, tone: 'ink', bold }], [{ text: bold && first ? 'judged' : length, tone: 'ink2' }]],
      [[{ text: name, tone: 'ink', bold }]],
    ];
  const full = bold && first ? `${name}: this part is judged` : name;
  const named: TextRun = { text: full, tone: 'ink', bold },
    short: TextRun = { text: name, tone: 'ink', bold };
  const withLength = (run: TextRun): TextRun[][] => [[run, { text: `\u2002${length}`, tone: 'ink2' }]];
  const choices = [[[named]], [[short]]];
  // Under 900 px durations leave the labels; idle and running down are never judged by theirs.
  if (frame.width < NARROW_UNDER || kind === 'idle' || kind === 'run-down') return choices;
  return [withLength(named), ...choices];
}

function wideLabel(
  frame: ShownFrame,
  part: Part,
  where: { from: number; to: number },
  lines: TextRun[][],
  measure: Measure,
  taken: readonly Label[],
): Label | null {
  const { plot } = frame;
  const { width, height } = sizeOf(lines, measure);
  const room = where.to - where.from;
  const top = plot.top - PHASE_LINE_PX - LINE_PX - 12;
  const label = (along: number, at = top): Label => ({
    key: `phase ${part.kind} ${part.start_s}`,
    left: plot.left + along,
    top: at,
    width,
    height,
    align: 'left',
    lines,
  });
  const choices: Label[] = [];
  // The start of a part is its name's place; a little longer than its bracket it may be.
  if (room >= width + 12 || (part.kind !== 'hold' && room >= 60 && room * OVERHANG >= width))
    choices.push(label(part.kind === 'hold' ? (where.from + where.to - width) / 2 : where.from + 8));
  // At the ends of the strip a short part's name may stand outside of it.
  else if (where.to < frame.along * 0.1) choices.push(label(Math.max(4 - plot.left, where.to - width - 12)));
  else if (where.from > frame.along * 0.9)
    choices.push(label(frame.along + 12, plot.top - PHASE_LINE_PX - LINE_PX / 2));
  return choices.find((choice) => taken.every((other) => !overlaps(choice, other, 6))) ?? null;
}

function turnedLabel(
  frame: ShownFrame,
  part: Part,
  where: { from: number; to: number },
  lines: TextRun[][],
  measure: Measure,
  taken: readonly Label[],
): Label | null {
  const { plot } = frame;
  const { width, height } = sizeOf(lines, measure);
  if (width > plot.left - 18) return null;
  for (let along = where.from + 6; along + height <= where.to; along += 6) {
    const label: Label = {
      key: `phase ${part.kind} ${part.start_s}`,
      left: 14,
      top: plot.top + along,
      width,
      height,
      align: 'left',
      lines,
    };
    if (taken.every((other) => !overlaps(label, other, 2))) return label;
  }
  return null;
}
