import type { Outcome, WorkerClient } from '#worker/client.ts';
import { inNextTask } from './in-next-task.ts';

/**
 * A client whose questions are asked in a task of their own. The worker takes every processor there is: what the page does with the same
 * press of a button comes first, or it would take several times as long.
 */
export function askingAfter(client: WorkerClient): WorkerClient {
  return {
    ...client,
    ask(question, onProgress) {
      type Asked = ReturnType<typeof client.ask<typeof question>>;
      let asked: Asked | null = null,
        notAsked: (outcome: Outcome<never>) => void = () => {};
      let takeBack = (): void => {};
      const outcome = new Promise<Awaited<Asked['outcome']>>((settle) => {
        notAsked = settle;
        takeBack = inNextTask(() => {
          asked = client.ask(question, onProgress);
          settle(asked.outcome);
        });
      });
      return {
        outcome,
        stop() {
          if (asked !== null) {
            asked.stop();
            return;
          }
          takeBack();
          notAsked({ kind: 'refused', problems: [{ code: 'cancelled' }] });
        },
      };
    },
  };
}
