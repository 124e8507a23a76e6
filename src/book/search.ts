import type { BookRun, BookUnit } from '#formats/book.ts';
import type { Verdict } from '#formats/assessment.ts';
import { logFilesOf } from './new-run.ts';

/** A unit as the list shows it. */
export interface UnitLine {
  unit: BookUnit;
  /** Oldest first, the bin left out. */
  runs: BookRun[];
  /** Verdict that counts of the last run; null without a run or verdict. */
  verdict: Verdict | null;
  /** Newest date of anything about it, for the order. */
  newest: string;
}

/** Units with their runs, newest first; removed ones are left out. */
export function unitLines(units: readonly BookUnit[], runs: readonly BookRun[]): UnitLine[] {
  const byUnit = new Map<string, BookRun[]>();
  for (const run of runs) {
    if (run.unitId === null || run.removedAt !== null) continue;
    const list = byUnit.get(run.unitId);
    if (list) list.push(run);
    else byUnit.set(run.unitId, [run]);
  }
  return units
    .filter((unit) => unit.removedAt === null)
    .map((unit): UnitLine => {
      const own = (byUnit.get(unit.id) ?? []).sort((a, b) => (a.broughtInAt < b.broughtInAt ? -1 : 1));
      const last = own.at(-1);
      return {
        unit,
        runs: own,
        verdict: last?.assessments.at(-1)?.verdict ?? null,
        newest: last?.broughtInAt ?? unit.changedAt,
      };
    })
    .sort((a, b) =>
      a.newest === b.newest ? (a.unit.id < b.unit.id ? -1 : 1) : a.newest > b.newest ? -1 : 1,
    );
}

/** Runs that stand under no unit of the list: not given to one yet, or their unit is in the bin or was lost. Nobody would find them else. */
export function looseRuns(units: readonly BookUnit[], runs: readonly BookRun[]): BookRun[] {
  const there = new Set(units.filter(({ removedAt }) => removedAt === null).map(({ id }) => id));
  return runs.filter(
    ({ unitId, removedAt }) => removedAt === null && (unitId === null || !there.has(unitId)),
  );
}

const verdictWords: Readonly<Record<Verdict, string>> = {
  pass: 'pass passes passed',
  fail: 'fail fails failed',
  undecided: 'undecided',
  'not-assessed': 'not assessed not-assessed',
};
const months = [
  'january',
  'february',
  'march',
  'april',
  'may',
  'june',
  'july',
  'august',
  'september',
  'october',
  'november',
  'december',
];

/** Lower case, accents taken off: "Őry" is found by "ory". */
const folded = (text: string): string => text.normalize('NFD').replace(/\p{M}/gu, '').toLowerCase();

/** Everything a unit can be found by: serial, type, customer, months, verdict, shims. */
function searchText(line: UnitLine): string {
  const { record } = line.unit;
  const dates = [
    record.testedOn,
    record.unit?.receivedOn,
    line.unit.goneOutOn,
    ...line.runs.flatMap((run) => [run.log.start?.slice(0, 10), run.broughtInAt.slice(0, 10)]),
  ];
  const dateWords = dates.flatMap((date) => {
    const [, month, day] = /^\d{4}-(\d{2})-(\d{2})$/.exec(date ?? '') ?? [];
    const name = month === undefined ? undefined : months[Number(month) - 1];
    return name === undefined ? [] : [date ?? '', name, dayWord(name, Number(day))];
  });
  const shims = (record.setting?.shims_mm ?? []).map((shim) => `${shim} ${shim.toFixed(2)}`);
  return folded(
    [
      record.unit?.serial,
      record.unit?.type,
      record.customer,
      record.recordNumber,
      record.notes,
      ...dateWords,
      line.verdict ? verdictWords[line.verdict] : '',
      ...shims,
      ...line.runs.flatMap((run) => logFilesOf(run).map(({ fileName }) => fileName)),
    ]
      .filter((part) => part !== undefined && part !== null)
      .join(' \n '),
  );
}

/** A day of a month as one word, since its figures alone would be found in every year: "february=26." */
const dayWord = (month: string, day: number): string => `${month}=${day}.`;

/** The words of a query; a month with a day before or behind it, as the list writes it, is one. */
function wordsOf(query: string): string[] {
  const names = months.join('|');
  const whole = folded(query)
    .replace(new RegExp(`\\b(${names})\\s+(\\d{1,2})\\b(?!-)`, 'gu'), (_, month: string, day: string) =>
      dayWord(month, Number(day)),
    )
    .replace(new RegExp(`\\b(\\d{1,2})\\.?\\s+(${names})\\b(?!=)`, 'gu'), (_, day: string, month: string) =>
      dayWord(month, Number(day)),
    );
  return whole.split(/\s+/u).filter((word) => word !== '');
}

/** A search that is built once for a list and then asked with every letter typed. */
export function searcher(lines: readonly UnitLine[]): (query: string) => UnitLine[] {
  const texts = lines.map(searchText);
  return (query) => {
    const words = wordsOf(query);
    return words.length === 0
      ? [...lines]
      : lines.filter((_, index) => words.every((word) => texts[index]?.includes(word)));
  };
}

/** The serial nearest to a text that found nothing, by the fewest changed letters; null where none is near (over half changed). */
export function nearestSerial(lines: readonly UnitLine[], query: string): string | null {
  const wanted = folded(query.trim());
  let best: string | null = null;
  let fewest = wanted.length / 2;
  for (const line of lines) {
    const serial = line.unit.record.unit?.serial;
    if (serial === undefined || wanted === '') continue;
    // "0471" is near to "B-0417": letters before the digits may be left out.
    for (const form of [folded(serial), folded(serial).replace(/^[^0-9]+/, '')]) {
      const changes = editDistance(wanted, form);
      if (changes <= fewest && (best === null || changes < fewest)) {
        fewest = changes;
        best = serial;
      }
    }
  }
  return best;
}

/** Fewest letters inserted, removed, changed or swapped with a neighbour (optimal string alignment). */
function editDistance(a: string, b: string): number {
  const width = b.length + 1;
  let before = Array.from({ length: width }, () => 0);
  let last = Array.from({ length: width }, (_, j) => j);
  for (let i = 1; i <= a.length; i++) {
    const row = [i];
    for (let j = 1; j <= b.length; j++) {
      const cost = a[i - 1] === b[j - 1] ? 0 : 1;
      let value = Math.min((last[j] ?? 0) + 1, (row[j - 1] ?? 0) + 1, (last[j - 1] ?? 0) + cost);
      if (i > 1 && j > 1 && a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1])
        value = Math.min(value, (before[j - 2] ?? 0) + 1);
      row.push(value);
    }
    before = last;
    last = row;
  }
  return last[b.length] ?? 0;
}
