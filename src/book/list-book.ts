import type { BookListing, BookRun, BookUnit } from '#formats/book.ts';
import { looseRuns, unitLines } from './search.ts';
import type { BookStore } from './store.ts';

/** The units of a book with their runs, the bin left out; what `book list` prints and writes. */
export async function listBook(store: BookStore): Promise<BookListing> {
  const { entries } = await store.entries();
  const units = entries.filter((entry): entry is BookUnit => entry.format === 'overdrive-bench/book-unit');
  const runs = entries.filter((entry): entry is BookRun => entry.format === 'overdrive-bench/book-run');
  return {
    format: 'overdrive-bench/book',
    version: 1,
    units: unitLines(units, runs).map(({ unit, runs: own }) => ({
      id: unit.id,
      serial: unit.record.unit?.serial ?? null,
      type: unit.record.unit?.type ?? null,
      customer: unit.record.customer ?? null,
      goneOutOn: unit.goneOutOn,
      runs: own.map((run) => {
        const last = run.assessments.at(-1) ?? null;
        return {
          id: run.id,
          kind: run.kind,
          fileName: run.log.fileName,
          start: run.log.start,
          verdict: last?.verdict ?? null,
          operatingPressure: last?.operatingPressure ?? null,
          expandedUncertainty: last?.expandedUncertainty ?? null,
          unit: last?.unit ?? null,
        };
      }),
    })),
    unassignedRuns: looseRuns(units, runs).length,
  };
}
