import { logName } from '#book/new-run.ts';
import type { BookEntry, BookListing } from '#formats/book.ts';
import { verdictWords } from '#formats/criterion-text.ts';
import { uncertainText, unitLabel } from '#units/number-text.ts';
import { tableLines, type Cell } from './text-table.ts';
import type { Ink, Terminal } from './terminal.ts';

const inks: Readonly<Record<keyof typeof verdictWords, Ink>> = {
  pass: 'pass',
  fail: 'fail',
  undecided: 'open',
  'not-assessed': 'quiet',
};

/** The book in words: a line a unit, its last run behind it. */
export function listingText(listing: BookListing, terminal: Terminal): string {
  const { units, unassignedRuns } = listing;
  const runs = units.reduce((sum, unit) => sum + unit.runs.length, 0);
  const head = `${counted(units.length, 'unit')} with ${counted(runs, 'run')}${unassignedRuns === 0 ? '' : `; ${counted(unassignedRuns, 'run')} not yet given to a unit`}.`;
  const rows = units.map((unit) => {
    const last = unit.runs.at(-1);
    const verdict: Cell =
      last?.verdict === undefined || last.verdict === null
        ? { text: '' }
        : { text: verdictWords[last.verdict], ink: inks[last.verdict] };
    return {
      cells: [
        { text: unit.serial ?? 'no serial', ink: 'strong' as const },
        { text: unit.type ?? '' },
        { text: unit.customer ?? '' },
        { text: String(unit.runs.length), right: true },
        verdict,
        { text: last === undefined ? '' : pressureText(last) },
        { text: last?.start?.slice(0, 10) ?? '' },
        { text: unit.goneOutOn === null ? 'on the bench' : `gone out ${unit.goneOutOn}` },
      ],
    };
  });
  const table =
    rows.length === 0
      ? []
      : tableLines(
          ['Serial', 'Type', 'Customer', 'Runs', 'Last', 'Pressure', 'Run of', 'Where'],
          rows,
          terminal,
        );
  return `${[head, ...table].join('\n')}\n`;
}

function pressureText(run: BookListing['units'][number]['runs'][number]): string {
  const { operatingPressure, expandedUncertainty, unit } = run;
  if (operatingPressure === null || unit === null) return '';
  return expandedUncertainty === null
    ? `${operatingPressure.toFixed(1)} ${unitLabel(unit)}`
    : uncertainText(operatingPressure, expandedUncertainty, unit);
}

const counted = (count: number, what: string): string => `${count} ${what}${count === 1 ? '' : 's'}`;

/** An entry as a person calls it: "unit B-0417". */
export function entryWords(entry: BookEntry): string {
  switch (entry.format) {
    case 'overdrive-bench/book-unit':
      return `unit ${entry.record.unit?.serial ?? entry.id}`;
    case 'overdrive-bench/book-run':
      return `run ${logName(entry) ?? entry.id}${entry.log.start === null ? '' : ` of ${entry.log.start}`}`;
    case 'overdrive-bench/book-adjustment':
      return `adjustment of ${entry.date}`;
    case 'overdrive-bench/book-spec':
      return `spec ${entry.versions.at(-1)?.spec.name ?? entry.id}`;
    case 'overdrive-bench/book-rig':
      return `rig ${entry.versions.at(-1)?.rig.name ?? entry.id}`;
    case 'overdrive-bench/book-shop':
      return `shop ${entry.name}`;
  }
}
