import { expect, it } from 'vitest';
import { besideUnjudged, type SaidOfLog } from '#app/unjudged-logs.ts';
import type { Draft, Waiting } from '#app/state.ts';

const waiting = (key: string, state: Waiting['state'] = 'waiting'): Waiting => ({
  file: { key, blob: new Blob([key]), name: `${key}.csv` },
  state,
  verdict: null,
});
const said = (key: string): SaidOfLog => ({
  file: waiting(key).file,
  sample: null,
  rig: null,
  layout: {},
  timeMissing: false,
  corrections: [],
  answers: new Map(),
  limits: null,
  unitRecord: null,
  unitBefore: null,
});
const keys = (batch: readonly Waiting[]): string[] => batch.map(({ file, state }) => `${file.key} ${state}`);

it('what an earlier page left is asked about where nothing else is', () => {
  const { batch, draft } = besideUnjudged(
    { batch: [], draft: null },
    { batch: [waiting('a', 'asked'), waiting('b')], draft: said('a') },
  );
  expect(draft?.file.key).toBe('a');
  expect(keys(batch)).toEqual(['a asked', 'b waiting']);
});

it('a log that was brought in since is asked about first; none of the earlier ones is lost', () => {
  const draft = said('new') as unknown as Draft;
  const alone = besideUnjudged({ batch: [], draft }, { batch: [], draft: said('a') });
  expect(alone.draft).toBeNull();
  expect(keys(alone.batch)).toEqual(['a waiting']);
  const several = besideUnjudged(
    { batch: [waiting('new', 'asked')], draft },
    { batch: [waiting('a', 'asked'), waiting('b')], draft: said('a') },
  );
  expect(keys(several.batch)).toEqual(['new asked', 'a waiting', 'b waiting']);
});
