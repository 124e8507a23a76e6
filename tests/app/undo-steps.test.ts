import { describe, expect, it } from 'vitest';
import { createUndoSteps, type StepOutcome, type UndoStep } from '#app/undo-steps.ts';

/** A number that steps raise; what was told; whether there is something to put back. */
function begin() {
  const seen = { value: 0, told: [] as string[], offered: false, can: false };
  const steps = createUndoSteps({
    tell(text, _wrong, canPutBack) {
      seen.told.push(text);
      seen.offered = canPutBack;
    },
    canUndo: (can) => void (seen.can = can),
  });
  const add = (by: number, answer?: { back?: StepOutcome; again?: StepOutcome }): UndoStep => ({
    said: `added ${by}`,
    async back() {
      if (answer?.back !== undefined) return answer.back;
      seen.value -= by;
      return { said: `Put back: added ${by}` };
    },
    async again() {
      if (answer?.again !== undefined) return answer.again;
      seen.value += by;
      return { said: `added ${by}` };
    },
  });
  const did = (by: number, answer?: Parameters<typeof add>[1]): void => {
    seen.value += by;
    steps.did(add(by, answer));
  };
  return { seen, steps, did };
}

describe('steps that are taken back', () => {
  it('one by one, newest first, and made again in order', async () => {
    const { seen, steps, did } = begin();
    did(1);
    did(10);
    await steps.undo();
    expect(seen).toEqual({
      value: 1,
      told: ['added 1', 'added 10', 'Put back: added 10'],
      offered: false,
      can: true,
    });
    await steps.undo();
    await steps.undo();
    expect(seen).toMatchObject({ value: 0, can: false });
    await steps.redo();
    await steps.redo();
    await steps.redo();
    expect(seen).toMatchObject({ value: 11, can: true });
    expect(seen.told.slice(-2)).toEqual(['added 1', 'added 10']);
    expect(seen.offered).toBe(true);
  });
  it('a new step ends what could be made again', async () => {
    const { seen, steps, did } = begin();
    did(1);
    await steps.undo();
    did(10);
    await steps.redo();
    expect(seen.value).toBe(10);
  });
  it('what could not be done stays to be tried again; what never can goes', async () => {
    const { seen, steps, did } = begin();
    did(1);
    did(10, { back: 'stays' });
    await steps.undo();
    await steps.undo();
    expect(seen).toMatchObject({ value: 11, told: ['added 1', 'added 10'], can: true });
    steps.forget();
    expect(seen.can).toBe(false);
    did(1);
    did(10, { back: 'gone' });
    await steps.undo();
    await steps.undo();
    expect(seen.told.slice(4)).toEqual(['Put back: added 1']);
    await steps.redo();
    await steps.redo();
    expect(seen.told.slice(4)).toEqual(['Put back: added 1', 'added 1']);
  });
  it('keys that come faster than the disk take one step back, not the same one twice', async () => {
    const { seen, steps, did } = begin();
    did(1);
    did(10);
    await Promise.all([steps.undo(), steps.undo()]);
    expect(seen).toMatchObject({ value: 1, can: true });
    expect(seen.told.slice(2)).toEqual(['Put back: added 10']);
  });
  it('one that throws does not stand in the way of the next', async () => {
    const { seen, steps } = begin();
    steps.did({
      said: 'broken',
      back: () => Promise.reject(new Error('no')),
      again: () => Promise.resolve('stays'),
    });
    await expect(steps.undo()).rejects.toThrow('no');
    await expect(steps.undo()).rejects.toThrow('no');
    expect(seen.can).toBe(true);
  });
});
