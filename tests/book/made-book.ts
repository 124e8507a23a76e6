import { createHash } from 'node:crypto';
import { gzipSync } from 'fflate';
import type { BookRun, BookUnit } from '#formats/book.ts';
import type { BookFile } from '#book/store.ts';

/** Invented entries for the tests of the book. */
export const sha256 = (bytes: Uint8Array): string => createHash('sha256').update(bytes).digest('hex');

export function madeUnit(id: string, change: Partial<BookUnit> = {}): BookUnit {
  return {
    format: 'overdrive-bench/book-unit',
    version: 1,
    id,
    revision: 1,
    changedAt: '2026-03-04T08:00:00Z',
    removedAt: null,
    record: {
      format: 'overdrive-bench/unit-record',
      version: 1,
      customer: 'Ada Őry',
      unit: { serial: 'B-0417', type: 'relief and dashpot type', receivedOn: '2026-02-16' },
    },
    goneOutOn: null,
    ...change,
  };
}

export function madeRun(
  id: string,
  unitId: string | null,
  logText: string,
  change: Partial<BookRun> = {},
): { run: BookRun; files: BookFile[] } {
  const log = new TextEncoder().encode(logText);
  const assessment = new TextEncoder().encode(`{ "made": "for the test of ${id}" }\n`);
  const run: BookRun = {
    format: 'overdrive-bench/book-run',
    version: 1,
    id,
    revision: 1,
    changedAt: '2026-03-04T15:00:00Z',
    removedAt: null,
    unitId,
    kind: 'test',
    broughtInAt: '2026-03-04T15:00:00Z',
    log: {
      fileName: `${id}.csv`,
      bytes: log.length,
      sha256: sha256(log),
      start: '2026-03-04T08:15:00',
      duration_s: 21600,
      rows: 21600,
      parts: [],
    },
    spec: null,
    rig: null,
    judge: null,
    overrides: [],
    assessments: [
      {
        programVersion: '0.1.0',
        decidedAt: '2026-03-04T15:00:00Z',
        verdict: 'fail',
        operatingPressure: 425.1,
        expandedUncertainty: 3.5,
        unit: 'psi',
        sha256: sha256(assessment),
        file: 'assessment-1.json',
      },
    ],
    note: '',
    outline: null,
    ...change,
  };
  return {
    run,
    files: [
      { path: `runs/${id}/log.gz`, bytes: gzipSync(log, { mtime: 0 }) },
      { path: `runs/${id}/assessment-1.json`, bytes: assessment },
    ],
  };
}
