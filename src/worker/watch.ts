import type { Progress } from './messages.ts';

/** Thrown by work that only looks, when it is stopped: nothing was written yet. */
export class Stopped extends Error {}

/** Whoever waits for a question that lasts. */
export interface Watch {
  /** Says how far it is; throws where it was stopped. */
  look: (stage: Progress['stage']) => (done: number, total: number) => Promise<void>;
  /** … while something is written: then only `cancelled` stops it, between two steps that are each whole. */
  write: (done: number, total: number) => Promise<void>;
  cancelled: () => boolean;
}

/** So long may work go on before a stop is listened for. */
const EACH_MS = 100;

/**
 * Work that does not wait for anything lets no message in: it steps aside every now and then, so that it can be stopped.
 * @param post where progress goes
 */
export function watching(post: (progress: Progress) => void, cancelled: () => boolean): Watch {
  let last = performance.now();
  const say = async (stage: Progress['stage'], done: number, total: number): Promise<void> => {
    if (done < total && performance.now() - last < EACH_MS) return;
    post({ stage, bytesDone: done, bytesTotal: total, rows: 0 });
    await new Promise((resolve) => setTimeout(resolve));
    last = performance.now();
  };
  return {
    look: (stage) => async (done, total) => {
      await say(stage, done, total);
      if (cancelled()) throw new Stopped('stopped');
    },
    write: (done, total) => say('copying', done, total),
    cancelled,
  };
}
