import type { WorkerClient } from '#worker/client.ts';
import type { BookProblem } from '#worker/messages.ts';
import type { BookState } from './book-desk.ts';
import { bookTrouble } from './book-words.ts';
import { goingBy } from './going.ts';
import { openedShop, shopRuns } from './sample-shop.ts';
import type { UndoSteps } from './undo-steps.ts';

/** Takes the invented shop into the book, run by run, and out of it again. */
export function createSampleShopDesk(side: {
  client: WorkerClient;
  now: () => Date;
  state: () => BookState;
  set: (patch: Partial<BookState>) => void;
  tell: (text: string, wrong?: boolean) => void;
  changed: () => Promise<void>;
  undo: UndoSteps;
}) {
  const { client, now, state, set, tell, changed, undo } = side;
  let stopped = false;

  async function bringSampleShop(): Promise<void> {
    if (state().shopComing !== null) return;
    const total = shopRuns.length;
    let done = 0;
    const going = goingBy(now);
    const came = (): void =>
      set({ shopComing: going({ stage: 'copying', bytesDone: done, bytesTotal: total }), told: null });
    stopped = false;
    came();
    let problem: BookProblem | null = null;
    for await (const { run, opened, unitRecord } of openedShop()) {
      // A run comes whole or not at all: it is stopped between two.
      if (stopped as boolean) break;
      const outcome = await client.ask({
        kind: 'keep',
        file: { key: `sample ${run.log}`, blob: opened.blob, name: run.log },
        reading: { rig: opened.rig, overrides: [] },
        judging: { spec: opened.spec, judge: null },
        unitRecord,
        at: run.at,
        seen: null,
        sample: true,
      }).outcome;
      if (outcome.kind === 'answer' && 'problem' in outcome.answer) problem = outcome.answer.problem;
      if (problem !== null) break;
      done++;
      came();
    }
    set({ shopComing: null });
    await changed();
    if (problem !== null) tell(bookTrouble(problem), true);
    else if (stopped as boolean)
      tell(
        done === 0
          ? 'Stopped. Nothing of the sample shop was brought in.'
          : `Stopped. ${done} of ${total} invented runs are in the book. “Take the sample shop out” removes them.`,
      );
    else if (done === 0) tell('The sample runs are not beside the program: nothing was brought in.', true);
    else
      tell(`The sample shop is in the book: ${done} invented runs. “Take the sample shop out” removes it.`);
  }

  async function removeSampleShop(): Promise<void> {
    const outcome = await client.ask({ kind: 'remove-sample-shop' }).outcome;
    undo.forget();
    await changed();
    if (outcome.kind === 'answer' && outcome.answer.removed > 0) tell('The sample shop was taken out.');
    else tell('The sample shop could not be taken out. Try again.', true);
  }

  return { bringSampleShop, removeSampleShop, stopSampleShop: () => void (stopped = true) };
}
