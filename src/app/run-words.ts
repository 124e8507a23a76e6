import { assessedHashes } from '#book/new-run.ts';
import type { Assessment, Criterion, Verdict } from '#formats/assessment.ts';
import { criterionNames } from '#formats/criterion-names.ts';
import {
  asSentence,
  dateText,
  headlineText,
  noBreak,
  placeText,
  sizeText,
  valueText,
  verdictWords,
} from './shown-numbers.ts';
import type { PressureUnit } from '#units/pressure.ts';
import { filesText } from './files-of-run.ts';
import type { Run } from './state.ts';
import { inUnit } from './viewing-unit.ts';

/** What the run is called: the unit's serial, else the log's file name. */
export function runName(run: Run): string {
  const serial = run.unitRecord?.unit?.serial?.trim() ?? '';
  return serial === '' ? filesText(run.file) : serial;
}

/** What a draft about the run's log is kept under: the same after a reload. */
export const logKey = (run: Run): string =>
  assessedHashes(run.judged.assessment.log).join('+') || run.file.key;

/** Which of a unit's runs is open: its serial and the log's name. */
export function openRunText(run: Run): string {
  const name = runName(run),
    log = filesText(run.file);
  return run.file.name === null || log === name ? name : `${name}, ${log}`;
}

/** First what failed, then what is open, then what could not be told, then what passed; the spec's order inside. */
export const verdictOrder: readonly Verdict[] = ['fail', 'undecided', 'not-assessed', 'pass'];

export interface Head {
  word: string;
  /** The criterion that the verdict hangs on; null where no limit was set. */
  criterion: Criterion | null;
  /** Its number, its ± and its limit; `found` is the part of it that was found. */
  sentence: string;
  found: string;
  /** How far from the limit, or why not. */
  distance: string;
}

/**
 * The verdict in words. It speaks of the pressure, unless the verdict hangs on something else.
 * @param unit for viewing; null: as judged
 */
export function headOf(assessment: Assessment, unit: PressureUnit | null): Head {
  const { verdict, criteria } = assessment;
  const word = verdictWords[verdict];
  const first = criteria.find((criterion) => criterion.verdict === verdict) ?? criteria[0] ?? null;
  if (first === null)
    return {
      word,
      criterion: null,
      sentence: 'No limit was given: the run is shown, nothing is judged.',
      found: '',
      distance: '',
    };
  const criterion = unit === null ? first : inUnit(first, unit);
  const about = first.id === 'operating-pressure' ? '' : `${criterionNames[first.id].plain}: `;
  if (criterion.value === null && verdict === 'not-assessed')
    return { word, criterion: first, sentence: asSentence(about + first.reason), found: '', distance: '' };
  return {
    word,
    criterion: first,
    sentence: noBreak(asSentence(about + headlineText(criterion))),
    found: noBreak(valueText(criterion)),
    distance: noBreak(asSentence(distanceText(criterion, first.reason))),
  };
}

function distanceText(criterion: Criterion, reason: string): string {
  const place = placeText(criterion);
  const { verdict, expandedUncertainty } = criterion;
  if (verdict === 'undecided' && expandedUncertainty !== null && place !== '')
    return `${place}, but the gauge is only sure to ± ${sizeText(criterion, expandedUncertainty)}`;
  if (verdict === 'pass' && place !== '' && place !== 'on the limit') {
    const size = place.replace(/ (?:inside|clear|above|below).*$/u, '');
    return `clear of the nearer limit by ${size}`;
  }
  if (verdict === 'not-assessed' || place === '') return reason;
  return place;
}

/** Where all came out alike. */
const allOf: Readonly<Record<number, string>> = { 2: 'Both limits' };

/** "Of 9 limits 2 fail, 1 is undecided, 1 is not assessed, 5 pass.", "All 7 limits pass." */
export function countSentence(criteria: readonly Criterion[]): string {
  const of = (verdict: Verdict): number =>
    criteria.filter((criterion) => criterion.verdict === verdict).length;
  const total = criteria.length;
  if (total === 0) return '';
  const says: Readonly<Record<Verdict, (count: number) => string>> = {
    fail: (count) => (count === 1 ? '1 fails' : `${count} fail`),
    undecided: (count) => (count === 1 ? '1 is undecided' : `${count} are undecided`),
    'not-assessed': (count) => (count === 1 ? '1 is not assessed' : `${count} are not assessed`),
    pass: (count) => (count === 1 ? '1 passes' : `${count} pass`),
  };
  const parts = verdictOrder
    .filter((verdict) => of(verdict) > 0)
    .map((verdict) => says[verdict](of(verdict)));
  if (total > 1 && parts.length === 1)
    return `${allOf[total] ?? `All ${total} limits`} ${parts.join('').replace(/^\d+ /u, '')}.`;
  if (total === 1) return `The one limit: ${parts.join('')}.`.replace(': 1 ', ' ');
  return `Of ${total} limits ${parts.join(', ')}.`;
}

/** A start as logged, in words: "4 March 2026, 08:15"; a time of day alone as it is; null for elapsed time. */
export function startText(start: string | null): string | null {
  if (start === null) return null;
  const parts = /^(\d{4})-(\d{2})-(\d{2})[T ](\d{2}:\d{2})/u.exec(start);
  if (parts === null) return start.slice(0, 5);
  const [, year, month, day, clock] = parts;
  return `${dateText(`${year}-${month}-${day}`)}, ${clock}`;
}
