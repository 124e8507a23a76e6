import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { assess, readingsOf } from '#assessment/assess.ts';
import { inspect } from '#assessment/inspect.ts';
import { readRig, readSpec } from '#formats/check.ts';
import type { Judge } from '#formats/judge.ts';
import { writeJson } from '#formats/number.ts';
import type { Spec } from '#formats/spec.ts';
import { readLog } from '#log/read-log.ts';

const root = new URL('../../sample-runs/', import.meta.url);
const spec = (name: string): Spec => {
  const read = readSpec(readFileSync(new URL(`specs/${name}`, root), 'utf8'), name);
  if (!read.ok) throw new Error(name);
  return read.value;
};
const rig = readRig(readFileSync(new URL('rigs/bench-1.json', root), 'utf8'), 'bench-1.json');
if (!rig.ok) throw new Error('bench-1.json');
const bench = rig.value;

const band = spec('example-400-420.json'),
  charged = spec('example-held-charged.json');
const later: Judge = {
  format: 'overdrive-bench/judge',
  version: 1,
  choices: [{ what: 'hold-start', from_s: 12_000, by: 'A. Bench', why: 'a try', on: '2026-01-05' }],
};
/** As a person goes to and fro: other limits, looked at only, a border moved and put back. */
const judgings: { spec: Spec | null; judge: Judge | null }[] = [
  { spec: band, judge: null },
  { spec: null, judge: null },
  { spec: charged, judge: null },
  { spec: band, judge: later },
  { spec: { ...band, pressureBand: { low: 27, high: 30, unit: 'bar' } }, judge: null },
  { spec: band, judge: null },
];

describe('readings at hand', () => {
  const logs = readdirSync(new URL('logs/', root)).filter((name) => name.endsWith('.csv'));
  it.each(logs)('give the same as readings made anew, whatever was asked before: %s', (name) => {
    const read = readLog(readFileSync(new URL(`logs/${name}`, root)), {
      fileName: name,
      rig: bench,
      sha256: null,
    });
    if (!read.ok) return expect(read.problems.length).toBeGreaterThan(0);
    const log = read.value;
    const readings = readingsOf(log, bench);
    expect(writeJson(inspect(log, bench, readings))).toBe(writeJson(inspect(log, bench)));
    for (const judging of judgings) {
      const input = { log, rig: bench, ...judging, programVersion: '1' };
      const kept = assess({ ...input, readings }),
        anew = assess(input);
      if (!kept.ok || !anew.ok) {
        expect(kept).toEqual(anew);
        continue;
      }
      expect(writeJson(kept.value.assessment)).toBe(writeJson(anew.value.assessment));
      expect(kept.value.series.pressure?.flags).toEqual(anew.value.series.pressure?.flags);
    }
    expect(writeJson(inspect(log, bench, readings))).toBe(writeJson(inspect(log, bench)));
  });

  it('are not used for another log or another rig', () => {
    const name = 'five-over-the-band.csv';
    const bytes = readFileSync(new URL(`logs/${name}`, root));
    const [with_, without] = [bench, null].map((used) =>
      readLog(bytes, { fileName: name, rig: used, sha256: null }),
    );
    if (with_?.ok !== true || without?.ok !== true) throw new Error('not read');
    const readings = readingsOf(with_.value, bench);
    const input = { log: without.value, rig: null, spec: band, judge: null, programVersion: '1' };
    expect(assess({ ...input, readings })).toEqual(assess(input));
  });
});
