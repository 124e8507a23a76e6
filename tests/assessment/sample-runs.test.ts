import { execFileSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { readdirSync, readFileSync, statSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { assess } from '#assessment/assess.ts';
import { assessmentSchema } from '#formats/assessment.ts';
import { readRig, readSpec } from '#formats/check.ts';
import { writeJson } from '#formats/number.ts';
import { readLog } from '#log/read-log.ts';

// The expectations are worked out from how sample-runs/generate.mjs makes each run, never from what the program printed.
const root = new URL('../../sample-runs/', import.meta.url);
interface Expected {
  log: string;
  spec: string;
  rig: string | null;
  odd: string;
  verdict: string;
  criteria: Record<string, string>;
  quantities: Record<string, [number, number] | null>;
  remarks?: string[];
  read?: Record<string, unknown>;
  setAside?: Record<string, number>;
}
const expected: { runs: Expected[] } = JSON.parse(readFileSync(new URL('expected.json', root), 'utf8'));

function at(data: unknown, path: string): unknown {
  return path
    .split('.')
    .reduce<unknown>(
      (place, key) => (place === null || place === undefined ? place : Reflect.get(Object(place), key)),
      data,
    );
}

describe('sample runs', () => {
  it('are rebuilt byte for byte by their generator, and stay under 8 MB', () => {
    expect(() =>
      execFileSync(process.execPath, [new URL('generate.mjs', root).pathname, '--check']),
    ).not.toThrow();
    const bytes = readdirSync(new URL('logs/', root)).reduce(
      (sum, name) => sum + statSync(new URL(`logs/${name}`, root)).size,
      0,
    );
    expect(bytes).toBeLessThan(8_000_000);
  });
  it('each have an expectation', () => {
    expect([...new Set(expected.runs.map((run) => run.log))].sort()).toEqual(
      readdirSync(new URL('logs/', root)).sort(),
    );
  });

  for (const run of expected.runs) {
    it(`${run.log} with ${run.spec}, ${run.rig ?? 'no rig'}: ${run.odd}`, () => {
      const bytes = readFileSync(new URL(`logs/${run.log}`, root));
      const spec = readSpec(readFileSync(new URL(`specs/${run.spec}`, root), 'utf8'), run.spec);
      const rig =
        run.rig === null ? null : readRig(readFileSync(new URL(`rigs/${run.rig}`, root), 'utf8'), run.rig);
      if (!spec.ok || (rig !== null && !rig.ok)) throw new Error('a sample spec or rig is refused');
      const rigValue = rig === null ? null : rig.value;
      const sha256 = createHash('sha256').update(bytes).digest('hex');
      const log = readLog(bytes, { fileName: run.log, rig: rigValue, sha256 });
      if (!log.ok) throw new Error(JSON.stringify(log.problems));
      const result = assess({
        log: log.value,
        rig: rigValue,
        spec: spec.value,
        judge: null,
        programVersion: '0.1.0',
      });
      if (!result.ok) throw new Error(JSON.stringify(result.problems));
      const { assessment } = result.value;
      expect(() => assessmentSchema.parse(JSON.parse(writeJson(assessment)))).not.toThrow();
      const found = Object.fromEntries(assessment.criteria.map((c) => [c.id, c.verdict]));
      expect(found, JSON.stringify(assessment.criteria, null, 1)).toMatchObject(run.criteria);
      expect(assessment.verdict, JSON.stringify(found)).toBe(run.verdict);
      for (const [path, value] of Object.entries(run.quantities)) {
        const got = at(assessment.quantities, path);
        if (value === null) expect(got, path).toBeNull();
        else
          expect(
            Math.abs(Number(got) - value[0]),
            `${path}: ${String(got)}, expected ${value[0]} ± ${value[1]}`,
          ).toBeLessThanOrEqual(value[1]);
      }
      for (const code of run.remarks ?? [])
        expect(assessment.remarks.map((remark) => remark.code)).toContain(code);
      for (const [key, value] of Object.entries(run.read ?? {})) {
        const got: unknown = Reflect.get(assessment.log, key);
        expect(key === 'gaps' && Array.isArray(got) ? got.length : got, key).toEqual(value);
      }
      if (run.setAside)
        expect(assessment.log.channels.find((channel) => channel.role === 'pressure')).toMatchObject(
          run.setAside,
        );
    });
  }
});
