import type { Problem } from '#formats/problem.ts';
import { beginWorker } from './begin-worker.ts';
import type { Answers, Progress, Reply, Request, RequestKind } from './messages.ts';

/** What came of a question. `failed`: a mistake of ours, with what is known of it. */
export type Outcome<T> =
  | { kind: 'answer'; answer: T }
  | { kind: 'refused'; problems: Problem[] }
  | { kind: 'failed'; message: string };

export interface Asked<K extends RequestKind> {
  outcome: Promise<Outcome<Answers[K]>>;
  /** Stops it: the outcome becomes refused with the problem "cancelled". */
  stop: () => void;
}

type WithoutId<R> = R extends unknown ? Omit<R, 'id'> : never;
export type Question = WithoutId<Exclude<Request, { kind: 'cancel' }>>;

export interface WorkerClient {
  ask: <Q extends Question>(question: Q, onProgress?: (progress: Progress) => void) => Asked<Q['kind']>;
  end: () => void;
}

interface Open {
  question: Question;
  settle: (outcome: Outcome<never>) => void;
  onProgress: ((progress: Progress) => void) | undefined;
}

/** So long a stopped question may still run before its worker is ended and another begun; arithmetic does not listen. */
const PATIENCE_MS = 1500;
/** Questions that change nothing: a new worker can be asked them again. */
const repeatable: readonly RequestKind[] = [
  'inspect',
  'assess',
  'follow',
  'save',
  'restore',
  'book',
  'limits-before',
  'look-at-copy',
  'advise',
  'lay-over',
  'check-gauge',
  'preview',
  'check-record',
  'clean-logo',
];

/** … and questions that write, but nothing into the book: half of it is thrown away. What writes into the book says itself where it stopped. */
const mayBeEnded: readonly RequestKind[] = [...repeatable, 'copy', 'records'];

/**
 * The page's side: asks, and hears every answer, also that of a worker that broke.
 * @param begin makes a worker
 */
export function createClient(begin: () => Worker): WorkerClient {
  let worker: Worker | null = null;
  let nextId = 1;
  const open = new Map<number, Open>();

  const settleAll = (outcome: Outcome<never>): void => {
    const all = [...open.values()];
    open.clear();
    for (const { settle } of all) settle(outcome);
  };
  const end = (): void => {
    worker?.terminate();
    worker = null;
  };
  const running = (): Worker => {
    if (worker !== null) return worker;
    const started = begin();
    started.addEventListener('message', (event: MessageEvent<Reply>) => hear(event.data));
    started.addEventListener('error', (event) => {
      end();
      settleAll({
        kind: 'failed',
        message: event.message || 'the part that reads and judges could not start',
      });
    });
    started.addEventListener('messageerror', () =>
      settleAll({ kind: 'failed', message: 'an answer could not be received' }),
    );
    worker = started;
    return started;
  };
  const hear = (reply: Reply): void => {
    const asked = open.get(reply.id);
    if (asked === undefined) return;
    if (reply.kind === 'progress') {
      asked.onProgress?.(reply.progress);
      return;
    }
    open.delete(reply.id);
    asked.settle(reply as Outcome<never>);
  };

  /** Ends a worker that does not listen to a stop; what else it was asked is asked of the next one. */
  const loseWith = (id: number): void => {
    const stopped = open.get(id);
    if (stopped === undefined) return;
    const others = [...open].filter(([other]) => other !== id);
    const safe =
      mayBeEnded.includes(stopped.question.kind) &&
      others.every(([, { question }]) => repeatable.includes(question.kind));
    if (!safe) {
      // It may be writing: that is waited for.
      setTimeout(() => loseWith(id), PATIENCE_MS);
      return;
    }
    end();
    open.delete(id);
    stopped.settle({ kind: 'refused', problems: [{ code: 'cancelled' }] });
    for (const [other, { question }] of others) running().postMessage({ ...question, id: other }, []);
  };

  return {
    ask(question, onProgress) {
      const id = nextId++;
      const outcome = new Promise<Outcome<never>>((settle) => open.set(id, { question, settle, onProgress }));
      running().postMessage({ ...question, id }, []);
      return {
        outcome,
        stop() {
          if (!open.has(id)) return;
          running().postMessage({ id, kind: 'cancel' }, []);
          setTimeout(() => loseWith(id), PATIENCE_MS);
        },
      };
    },
    end,
  };
}

/** The client of the real worker. */
export const startClient = (): WorkerClient => createClient(beginWorker);
