import type { Outcome, WorkerClient } from '#worker/client.ts';
import { inNextTask } from './in-next-task.ts';

/**
 * A client whose questions are asked in a task of their own, in their order. The worker takes every processor there is: what the page
 * does with the same press of a button comes first, or it would take several times as long.
 */
export function askingAfter(client: WorkerClient): WorkerClient {
  const waiting = new Set<() => void>();
  const askAll = (): void => {
    const all = [...waiting];
    waiting.clear();
    for (const ask of all) ask();
  };
  return {
    ...client,
    ask(question, onProgress) {
      type Asked = ReturnType<typeof client.ask<typeof question>>;
      let asked: Asked | null = null,
        settle: (outcome: Awaited<Asked['outcome']> | Asked['outcome']) => void = () => {};
      const outcome = new Promise<Awaited<Asked['outcome']>>((done) => (settle = done));
      const ask = (): void => {
        try {
          asked = client.ask(question, onProgress);
          settle(asked.outcome);
        } catch (trouble) {
          // Where no worker may be begun: nobody is left to whom it could be thrown.
          settle({ kind: 'failed', message: trouble instanceof Error ? trouble.message : String(trouble) });
        }
      };
      if (waiting.size === 0) inNextTask(askAll);
      waiting.add(ask);
      return {
        outcome,
        stop() {
          if (asked !== null) asked.stop();
          else if (waiting.delete(ask)) {
            const stopped: Outcome<never> = { kind: 'refused', problems: [{ code: 'cancelled' }] };
            settle(stopped);
          }
        },
      };
    },
  };
}
