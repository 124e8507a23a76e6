import type { Merged } from '#book/merge.ts';
import type { BookRun, KeptAssessment } from '#formats/book.ts';
import {
  asSentence,
  dateText,
  durationText,
  fixedText,
  headlineText,
  noBreak,
  placeText,
  valueText,
} from './shown-numbers.ts';
import { criterionNames } from '#formats/criterion-names.ts';
import type { BookProblem } from '#worker/messages.ts';
import type { RecordsMade } from '#worker/record-messages.ts';
import { dayOf } from './desk.ts';

/** A copy older than this is asked about. */
const COPY_DAYS = 14;
const DAY_MS = 86_400_000;

/** A day as the reader writes it, with the year when it is another one; an instant by the clock on the wall. */
export function dayText(date: string, today: Date): string {
  const day = date.length > 10 && date.endsWith('Z') ? dayOf(new Date(date)) : date.slice(0, 10);
  return dateText(day, Number(day.slice(0, 4)) !== today.getFullYear());
}

/** The day of a run: as its log says, else the day it was brought in. */
export const runDay = (run: BookRun, today: Date): string =>
  dayText(/^\d{4}-\d{2}-\d{2}/u.test(run.log.start ?? '') ? (run.log.start ?? '') : run.broughtInAt, today);

/** The same day as ISO text, to gather by. */
export const isoRunDay = (run: BookRun): string =>
  /^\d{4}-\d{2}-\d{2}/u.exec(run.log.start ?? '')?.[0] ?? dayOf(new Date(run.broughtInAt));

/** What became of the records of many runs: how many, what is missing, which were left out and why. */
export function recordsSentence({ records, left, bytes }: RecordsMade, file: string): string {
  const lacking = records.filter(({ lacks }) => lacks > 0).length;
  return [
    records.length === 0
      ? 'No records were written.'
      : `${records.length === 1 ? '1 record' : `${records.length} records`}, ${sizeText(bytes)}: ${file}.`,
    ...(lacking > 0
      ? [
          `${lacking === 1 ? 'One lacks' : `${lacking} lack`} something before going out: see Delivery record of the run.`,
        ]
      : []),
    ...left.map(({ name, reason }) => asSentence(`${name} was left out: ${reason}`)),
  ].join(' ');
}

/** What the list says of a verdict: how far outside, or the number with its ±. */
export function verdictSentence(kept: KeptAssessment, run: BookRun): string {
  const { deciding, verdict } = kept;
  if (deciding === undefined || deciding === null)
    return kept.operatingPressure === null || run.spec === null ? 'no limit was given' : '';
  const about = deciding.id === 'operating-pressure' ? '' : `${criterionNames[deciding.id].plain}: `;
  if (verdict === 'not-assessed')
    return deciding.id === 'run-length'
      ? `stopped after ${durationText(run.log.duration_s)}`
      : deciding.reason;
  if (deciding.value === null) return deciding.reason;
  if (verdict === 'fail') return noBreak(about + (placeText(deciding) || headlineText(deciding)));
  return noBreak(`${about}${valueText(deciding)}${verdict === 'undecided' ? ', too near' : ''}`);
}

export const runsText = (count: number): string => (count === 1 ? '1 run' : `${count} runs`);
export const unitsText = (count: number): string => (count === 1 ? '1 unit' : `${count} units`);

const kindWords: Readonly<Record<BookRun['kind'], string>> = {
  'as-found': 'As found',
  test: 'Test',
  're-test': 'Re-test',
  aborted: 'Broken off',
};
export const kindText = (kind: BookRun['kind']): string => kindWords[kind];

/** Why the book would not take a change, in plain words, and what would mend it. */
export function bookTrouble(problem: BookProblem): string {
  switch (problem.code) {
    case 'changed-elsewhere':
      return 'This was changed in another window of this browser in the meantime. Nothing was written; what you see now is what is kept. Make the change again.';
    case 'no-room':
      return 'The book could not be written: the disk, or this browser’s share of it, is full. Nothing was changed. Put a copy aside, then make room.';
    case 'not-kept':
      return `The book could not be written: this browser refuses to store it (${problem.reason}). Nothing was changed.`;
    case 'entry-damaged':
      return asSentence(
        `${problem.path} cannot be read: ${problem.reason}. ${problem.newer ? 'Load the page anew to get that version' : 'Bring it back from a copy'}`,
      );
  }
}

/** Where the book is kept and how safely; `asks`: it is time for a copy. */
export function keptWords(
  book: {
    problem: BookProblem | null;
    runs: readonly { id?: string; broughtInAt: string }[];
    persisted: boolean | null;
    lastCopy: string | null;
    folder?: { name: string; at: unknown } | null;
  },
  today: Date,
): { text: string; asks: boolean } {
  if (book.problem !== null)
    return {
      text: 'Nothing is kept here: this browser refuses to store the book (a private window, or storage switched off). Runs are lost when the page is closed.',
      asks: false,
    };
  if (book.runs.length === 0) return { text: '', asks: false };
  const kept =
    book.persisted === false
      ? 'Kept in this browser, which may clear it when the disk gets full.'
      : 'Kept on this computer.';
  // A folder that is up to date is a copy of today.
  if (book.folder?.at === 'up-to-date')
    return { text: `${kept} Also in the folder “${book.folder.name}”, up to date.`, asks: false };
  const age = (since: string): number => Math.floor((today.getTime() - Date.parse(since)) / DAY_MS);
  // An invented run of the sample shop needs no copy.
  const own = book.runs.filter(({ id }) => id?.startsWith('sample-') !== true);
  if (own.length === 0) return { text: kept, asks: false };
  const oldest = own.reduce((first, { broughtInAt }) => (broughtInAt < first ? broughtInAt : first), '9999');
  const copy =
    book.lastCopy === null
      ? 'No copy was put aside yet.'
      : `Last copy put aside ${dayText(book.lastCopy, today)}.`;
  const asks = age(book.lastCopy ?? oldest) >= COPY_DAYS;
  return { text: `${kept} ${copy}`, asks };
}

/** "overdrive-bench book 2026-03-02.zip" */
export const copyName = (now: Date): string => `overdrive-bench book ${dayOf(now)}.zip`;

/** "18 MB" */
export function sizeText(bytes: number): string {
  if (bytes < 1e6) return `${Math.max(1, Math.round(bytes / 1000))} kB`;
  return bytes < 1e9 ? `${Math.round(bytes / 1e6)} MB` : `${fixedText(bytes / 1e9, 1)} GB`;
}

const twiceText = (serials: readonly string[]): string =>
  serials.length === 0
    ? ''
    : ` ${serials.length > 5 ? `${serials.slice(0, 5).join(', ')} and ${serials.length - 5} more serials` : serials.join(', ')} now ${serials.length === 1 ? 'stands' : 'stand'} on two units: each book had made one of its own.`;

/** What bringing a copy back came to; also where it was stopped or refused half way. */
export function broughtBackSentence(file: string, merged: Merged & { twice: readonly string[] }): string {
  const { added, replaced, joined, mended, left, problem, twice } = merged;
  const done = [
    ...(added === 0 ? [] : [`${added} ${added === 1 ? 'entry' : 'entries'} came in`]),
    ...(replaced === 0 ? [] : [`${replaced} took the place of an older one`]),
    ...(joined === 0 ? [] : [`${joined} ${joined === 1 ? 'is' : 'are'} kept with what both held`]),
    ...(mended === 0
      ? []
      : [
          `${mended} that ${mended === 1 ? 'was' : 'were'} damaged or missing here ${mended === 1 ? 'is' : 'are'} whole again`,
        ]),
  ];
  if (left === 0 && problem === null && done.length === 0)
    return `Everything in ${file} is in the book already.`;
  if (left === 0 && problem === null)
    return `Copy brought back: ${file}. ${done.join(', ')}.${twiceText(twice)}`;
  const why = problem === null ? 'Stopped.' : bookTrouble(problem);
  if (done.length === 0) return `${why} Nothing of ${file} was brought back.`;
  return `${why} ${problem === null ? 'Of' : 'Before that, of'} ${file} ${done.join(', ')}; ${left} ${left === 1 ? 'entry was' : 'entries were'} not brought back. What came is whole, and can be taken back.${twiceText(twice)}`;
}

/** What taking it back came to. */
export function takenBackSentence(
  file: string,
  { out, back, left }: { out: number; back: number; left: readonly string[] },
): string {
  if (out + back + left.length === 0) return 'Put back: the book is as before the copy already.';
  const parts = [
    ...(out === 0 ? [] : [`${out} ${out === 1 ? 'entry' : 'entries'} of ${file} went out again`]),
    ...(back === 0 ? [] : [`${back} ${back === 1 ? 'is' : 'are'} as before`]),
  ];
  const stays =
    left.length === 0
      ? ''
      : ` ${left.length === 1 ? 'One stays, because it was' : `${left.length} stay, because they were`} changed since or the book needs ${left.length === 1 ? 'it' : 'them'}: ${left.join(', ')}.`;
  return `Put back as before the copy${parts.length === 0 ? '' : `: ${parts.join(', ')}`}.${stays}`;
}
