import { runFilePath } from '#book/place.ts';
import type { BookProblem, BookStore } from '#book/store.ts';
import { assessmentSchema, type Assessment } from '#formats/assessment.ts';
import type { BookAdjustment, BookEntry, BookRun, BookShop, BookUnit } from '#formats/book.ts';
import { rounded } from '#formats/number.ts';
import type { Adjustments, TrailedAdjustment } from '#formats/relief.ts';
import { unlikeness } from '#relief/like-for-like.ts';
import type { Trail, TrailStep } from './relief-messages.ts';

interface Shelf {
  units: BookUnit[];
  runs: BookRun[];
  adjustments: BookAdjustment[];
  takenOut: BookAdjustment[];
  shop: BookShop | null;
}

/** What of the book lies outside of the bin, oldest first; of the changes also what was taken out, newest first. */
async function shelfOf(store: BookStore): Promise<Shelf> {
  const { entries } = await store.list();
  const all = <F extends BookEntry['format']>(format: F): Extract<BookEntry, { format: F }>[] =>
    entries.filter((entry): entry is Extract<BookEntry, { format: F }> => entry.format === format);
  const of = <F extends BookEntry['format']>(format: F): Extract<BookEntry, { format: F }>[] =>
    all(format).filter(({ removedAt }) => removedAt === null);
  return {
    units: of('overdrive-bench/book-unit'),
    runs: of('overdrive-bench/book-run').sort((a, b) => (a.broughtInAt < b.broughtInAt ? -1 : 1)),
    adjustments: of('overdrive-bench/book-adjustment').sort((a, b) => (orderOf(a) < orderOf(b) ? -1 : 1)),
    takenOut: all('overdrive-bench/book-adjustment')
      .filter(({ removedAt }) => removedAt !== null)
      .sort((a, b) => ((a.removedAt ?? '') < (b.removedAt ?? '') ? 1 : -1)),
    shop: of('overdrive-bench/book-shop')[0] ?? null,
  };
}

const orderOf = ({ date, notedAt }: BookAdjustment): string => notedAt ?? date;

/**
 * The re-test of each change that still waits: the first run of the unit that came in after it was noted and has an operating pressure.
 * A run that was broken off or never got warm tells nothing of the setting, so the change goes on waiting.
 */
function linked({ runs, adjustments }: Shelf, at: string): BookAdjustment[] {
  const taken = new Set(adjustments.flatMap(({ runAfter }) => (runAfter === null ? [] : [runAfter])));
  return adjustments.flatMap((adjustment) => {
    if (adjustment.runAfter !== null || adjustment.notedAt === undefined) return [];
    const { notedAt } = adjustment;
    const run = runs.find(
      ({ id, unitId, broughtInAt, kind, assessments }) =>
        unitId === adjustment.unitId &&
        id !== adjustment.runBefore &&
        broughtInAt > notedAt &&
        kind !== 'aborted' &&
        !taken.has(id) &&
        (assessments.at(-1)?.operatingPressure ?? null) !== null,
    );
    if (run === undefined) return [];
    taken.add(run.id);
    return [{ ...adjustment, runAfter: run.id, revision: adjustment.revision + 1, changedAt: at }];
  });
}

/** What the last verdict on a run was made of; null where its file is missing or of another version's shape. */
async function assessmentOf(store: BookStore, run: BookRun): Promise<Assessment | null> {
  const last = run.assessments.at(-1);
  const bytes = last === undefined ? null : await store.file(runFilePath(run.id, last.file));
  if (bytes === null) return null;
  try {
    const data: unknown = JSON.parse(new TextDecoder().decode(bytes));
    const checked = assessmentSchema.safeParse(data);
    return checked.success ? checked.data : null;
  } catch {
    return null;
  }
}

interface Read {
  run: BookRun;
  assessment: Assessment | null;
  pressure: TrailedAdjustment['pressureBefore'];
}

/** A run's operating pressure; where its assessment cannot be read any more, what the entry keeps of it, U as two standard uncertainties. */
async function readOf(store: BookStore, run: BookRun): Promise<Read | null> {
  const assessment = await assessmentOf(store, run);
  const operating = assessment?.quantities.operatingPressure;
  const last = run.assessments.at(-1);
  const value = operating?.value ?? last?.operatingPressure ?? null;
  if (value === null || last === undefined) return null;
  const expanded = last.expandedUncertainty;
  const u = operating?.standardUncertainty ?? (expanded === null ? null : rounded(expanded / 2));
  return {
    run,
    assessment,
    pressure: {
      value,
      unit: operating?.unit ?? last.unit,
      ...(u === null ? {} : { standardUncertainty: u }),
    },
  };
}

const nameOf = (unit: BookUnit): string => unit.record.unit?.serial ?? unit.id;
const typeOf = (unit: BookUnit): string => unit.record.unit?.type?.trim().toLowerCase() ?? '';

/**
 * What the book knows of the unit of a run: its runs, its changes of the setting and what each did, and the changes of its type to learn
 * from. Each run's assessment is read once.
 */
export async function trailOf(
  store: BookStore,
  runId: string,
  at: string,
): Promise<Trail | { problem: BookProblem }> {
  let shelf = await shelfOf(store);
  const found = linked(shelf, at);
  if (found.length > 0) {
    const written = await store.write(found, []);
    // Another window was quicker: what it wrote is read.
    if (!written.ok && written.problem.code !== 'changed-elsewhere') return { problem: written.problem };
    shelf = await shelfOf(store);
  }
  const { units, runs, adjustments, takenOut, shop } = shelf;
  const run = runs.find(({ id }) => id === runId);
  if (run === undefined)
    return { problem: { code: 'not-kept', reason: 'the run is not in the book any more' } };
  const unit = units.find(({ id }) => id === run.unitId) ?? null;
  if (unit === null)
    return { unit, run, runs: [], steps: [], takenOut: [], shop, history: null, alike: null };
  const type = typeOf(unit);
  const family = units.filter((each) => each.id === unit.id || (type !== '' && typeOf(each) === type));

  const reads = new Map<string, Promise<Read | null>>();
  const read = (id: string | null): Promise<Read | null> => {
    const wanted = runs.find((each) => each.id === id);
    if (wanted === undefined) return Promise.resolve(null);
    const known = reads.get(wanted.id) ?? readOf(store, wanted);
    reads.set(wanted.id, known);
    return known;
  };
  const steps: TrailStep[] = [];
  const changes: TrailedAdjustment[] = [];
  for (const adjustment of adjustments) {
    const owner = family.find(({ id }) => id === adjustment.unitId);
    if (owner === undefined) continue;
    const change = changeOf(
      adjustment,
      nameOf(owner),
      await read(adjustment.runBefore),
      await read(adjustment.runAfter),
    );
    if (owner.id === unit.id) steps.push({ adjustment, change });
    if (change !== null) changes.push(change);
  }
  const history: Adjustments | null =
    changes.length === 0
      ? null
      : {
          format: 'overdrive-bench/adjustments',
          version: 1,
          serial: nameOf(unit),
          adjustments: changes,
        };
  const others = family
    .filter((each) => each.id !== unit.id && each.relief !== undefined)
    .sort((a, b) => (a.changedAt < b.changedAt ? 1 : -1));
  const [other] = others;
  return {
    unit,
    run,
    runs: runs.filter(({ unitId }) => unitId === unit.id).map((each) => ({ ...each, outline: null })),
    steps,
    takenOut: takenOut.filter(({ unitId }) => unitId === unit.id),
    shop,
    history,
    alike: other?.relief === undefined ? null : { serial: nameOf(other), relief: other.relief },
  };
}

function changeOf(
  adjustment: BookAdjustment,
  serial: string,
  before: Read | null,
  after: Read | null,
): TrailedAdjustment | null {
  if (before === null || after === null) return null;
  const notAlike =
    before.assessment === null || after.assessment === null
      ? null
      : unlikeness(before.assessment, after.assessment);
  const { date, before_mm, after_mm, by, why, predicted } = adjustment;
  const verdictBefore = before.run.assessments.at(-1)?.verdict;
  return {
    date,
    serial,
    before_mm,
    after_mm,
    pressureBefore: before.pressure,
    pressureAfter: after.pressure,
    ...(by === '' ? {} : { by }),
    ...(why === '' ? {} : { why }),
    ...(verdictBefore === undefined ? {} : { verdictBefore }),
    ...(predicted === null ? {} : { predicted }),
    ...(notAlike === null ? {} : { notAlike }),
  };
}
