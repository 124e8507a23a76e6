import { describe, expect, it } from 'vitest';
import { createTogether } from '#app/book-together.ts';
import type { BookState } from '#app/book-desk.ts';
import { createUndoSteps } from '#app/undo-steps.ts';
import type { BookAdjustment, BookRun, BookUnit } from '#formats/book.ts';
import type { WorkerClient } from '#worker/client.ts';
import type { BookEdit } from '#worker/messages.ts';

const unit = (id: string, more: object = {}): BookUnit =>
  ({
    format: 'overdrive-bench/book-unit',
    id,
    revision: 3,
    removedAt: null,
    record: { unit: { serial: 'B-1' } },
    ...more,
  }) as BookUnit;
const run = (id: string, unitId: string, removedAt: string | null = null): BookRun =>
  ({ format: 'overdrive-bench/book-run', id, unitId, removedAt, revision: 1 }) as BookRun;
const change = (id: string, unitId: string): BookAdjustment =>
  ({ format: 'overdrive-bench/book-adjustment', id, unitId, revision: 5 }) as BookAdjustment;

const relief = { fitted_mm: [1] } as BookUnit['relief'];

function begin(from: BookUnit, to: BookUnit) {
  const written: BookEdit[][] = [];
  const told: string[] = [];
  const undo = createUndoSteps({ tell: (text) => void told.push(text), canUndo: () => undefined });
  const trail = {
    steps: [{ adjustment: change('a', from.id) }],
    takenOut: [change('b', from.id), change('c', 'elsewhere')],
  };
  const together = createTogether({
    client: {
      ask: () => ({ outcome: Promise.resolve({ kind: 'answer', answer: trail }), stop: () => undefined }),
    } as unknown as WorkerClient,
    state: () =>
      ({
        units: [from, to],
        runs: [run('r1', from.id), run('r2', from.id), run('gone', from.id, '2026'), run('r3', to.id)],
      }) as BookState,
    at: () => '2026-03-06T10:00:00Z',
    tell: (text) => void told.push(text),
    revision: () => 3,
    write: (edits) => Promise.resolve(written.push(edits) > 0),
    undo,
  });
  return { together, written, told, undo };
}
/** What was written last, by the end of its path. */
const last = (written: BookEdit[][]): Record<string, unknown> =>
  Object.fromEntries(
    (written.at(-1) ?? []).flatMap((edit) =>
      'change' in edit
        ? [[edit.path.split('/').slice(1).join('/'), { ...edit.change, at: edit.revision }]]
        : [],
    ),
  );

describe('two units of one serial', () => {
  it('become one in one step: runs, what was set between them, and what is fitted', async () => {
    const { together, written, told, undo } = begin(unit('u1', { relief }), unit('u2'));
    await together.giveAllTo(unit('u1', { relief }), unit('u2'));
    expect(told).toEqual(['2 runs given to the other B-1, with what was set on it.']);
    const moved = Object.values(last(written));
    expect(moved).toEqual([
      { unitId: 'u2', at: 3 },
      { unitId: 'u2', at: 3 },
      { unitId: 'u2', at: 5 },
      { unitId: 'u2', at: 5 },
      { relief, at: 3 },
    ]);
    await undo.undo();
    // A change of the setting is no entry of the list: its revision is counted here.
    expect(Object.values(last(written))).toEqual([
      { unitId: 'u1', at: 3 },
      { unitId: 'u1', at: 3 },
      { unitId: 'u1', at: 6 },
      { unitId: 'u1', at: 6 },
      { relief: undefined, at: 3 },
    ]);
    await undo.redo();
    expect(Object.values(last(written))[2]).toEqual({ unitId: 'u2', at: 7 });
    expect(written).toHaveLength(3);
  });

  it('leave what is fitted as the one says that gets the runs', async () => {
    const { together, written } = begin(unit('u1', { relief }), unit('u2', { relief }));
    await together.giveAllTo(unit('u1', { relief }), unit('u2', { relief }));
    expect(Object.values(last(written)).some((each) => Object.hasOwn(each as object, 'relief'))).toBe(false);
  });

  it('stay apart where the one has no run', async () => {
    const { together, written, told } = begin(unit('u1'), unit('u2'));
    await together.giveAllTo(unit('nobody'), unit('u2'));
    expect([written, told]).toEqual([[], []]);
  });
});
