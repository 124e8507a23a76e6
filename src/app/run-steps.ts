import type { UnitRecord } from '#formats/unit-record.ts';
import type { Judging } from '#worker/messages.ts';
import type { Run } from './state.ts';

/** One thing that was done by hand on a run's sheet or record, as it is taken back: judged as before, or what was said of the unit. */
export type RunStep = { judging: Judging } | { said: Said };
/** What is said of the unit goes from one record to another; what both hold alike is none of this step's. */
interface Said {
  from: UnitRecord | null;
  to: UnitRecord | null;
}

/** What a record that is said of the run's unit adds to the steps that can be taken back; nothing where nothing was changed. */
export function withSaid(run: Run, next: UnitRecord | null): Partial<Pick<Run, 'undo' | 'redo'>> {
  if (same(run.unitRecord, next)) return {};
  return { undo: [...run.undo, { said: { from: next, to: run.unitRecord } }], redo: [] };
}

/** The record as it is now with this step made: what else was changed since, here or in another window, stays. */
export function recordAfter(now: UnitRecord | null, { from, to }: Said): UnitRecord {
  const parts = new Map<string, unknown>(Object.entries(now ?? {}));
  const before = new Map<string, unknown>(Object.entries(from ?? {})),
    after = new Map<string, unknown>(Object.entries(to ?? {}));
  for (const part of new Set([...before.keys(), ...after.keys()])) {
    if (same(before.get(part), after.get(part))) continue;
    if (after.has(part)) parts.set(part, after.get(part));
    else parts.delete(part);
  }
  return { ...Object.fromEntries(parts), format: 'overdrive-bench/unit-record', version: 1 };
}

const same = (a: unknown, b: unknown): boolean => JSON.stringify(a) === JSON.stringify(b);
