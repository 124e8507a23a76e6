import { describe, expect, it } from 'vitest';
import { looseRuns, nearestSerial, searcher, unitLines } from '#book/search.ts';
import { madeRun, madeUnit } from './made-book.ts';

const record = (serial: string, customer: string) => ({
  format: 'overdrive-bench/unit-record' as const,
  version: 1 as const,
  customer,
  unit: { serial, type: 'held-charged type' },
  setting: { shims_mm: [0.5, 0.25] },
});
const units = [
  madeUnit('u1', { record: record('B-0417', 'Ada Őry') }),
  madeUnit('u2', { record: record('B-0420', 'Bo Łukasz') }),
  madeUnit('u3', { record: record('B-0500', 'Cid'), removedAt: '2026-03-08T00:00:00Z' }),
];
const older = madeRun('r1', 'u1', 'a', { broughtInAt: '2026-03-04T15:00:00Z' }).run;
const verdict = older.assessments[0];
if (!verdict) throw new Error('a made run has a verdict');
const newer = madeRun('r2', 'u1', 'b', {
  broughtInAt: '2026-03-06T15:00:00Z',
  assessments: [{ ...verdict, verdict: 'pass' }],
}).run;
const lines = unitLines(units, [
  newer,
  older,
  madeRun('r3', 'u2', 'c', { removedAt: '2026-03-09T00:00:00Z' }).run,
]);

describe('runs under no unit of the list', () => {
  it('are found all the same: without a unit, with one that was lost, with one in the bin', () => {
    const runs = [null, 'u1', 'u3', 'lost'].map(
      (unitId, index) => madeRun(`x${index}`, unitId, `log ${index}`).run,
    );
    const removed = madeRun('x9', null, 'log 9', { removedAt: '2026-03-09T00:00:00Z' }).run;
    expect(looseRuns(units, [...runs, removed]).map(({ id }) => id)).toEqual(['x0', 'x2', 'x3']);
  });
});

describe('finding a unit', () => {
  it('lists newest first with the last verdict, without what is in the bin', () => {
    expect(lines.map((line) => [line.unit.id, line.verdict, line.runs.map((run) => run.id)])).toEqual([
      ['u1', 'pass', ['r1', 'r2']],
      ['u2', null, []],
    ]);
  });
  it.each([
    ['0417', ['u1']],
    ['ory', ['u1']],
    ['ŐRY march', ['u1']],
    ['passes', ['u1']],
    ['2026-03-06', ['u1']],
    ['March 6', ['u1']],
    ['6 march 2026', ['u1']],
    ['6. March', ['u1']],
    // Its figures are in many a date.
    ['March 26', []],
    ['March 2026', ['u1']],
    ['0.25', ['u1', 'u2']],
    ['B-05', []],
    ['', ['u1', 'u2']],
  ])('by "%s"', (query, found) => {
    expect(searcher(lines)(query).map((line) => line.unit.id)).toEqual(found);
  });
  it('by the name of any file of a run that came in several', () => {
    const part = (file: string, fileName: string) => ({ file, fileName, bytes: 1, sha256: 'a'.repeat(64) });
    const whole = {
      ...older.log,
      fileName: 'h1.csv',
      parts: [part('log.gz', 'h1.csv'), part('log-2.gz', 'h2.csv')],
    };
    const listed = unitLines(units, [{ ...older, log: whole }]);
    expect(searcher(listed)('h2.csv').map((line) => line.unit.id)).toEqual(['u1']);
  });
  it('names the nearest serial when nothing is found, and none when none is near', () => {
    expect(nearestSerial(lines, '0471')).toBe('B-0417');
    expect(nearestSerial(lines, 'zzzz')).toBeNull();
  });
});
