import { expect, test } from 'vitest';
import { askingAfter } from '../../src/app/ask-after.ts';
import type { Outcome, Question, WorkerClient } from '../../src/worker/client.ts';

const nextTask = async (): Promise<void> => new Promise((go) => void setTimeout(go, 5));
const question = { kind: 'book' } as unknown as Question;

/** A client that writes down what happens to it. */
function clientOf(happened: string[]): { client: WorkerClient; answer: (outcome: Outcome<never>) => void } {
  let answer: (outcome: Outcome<never>) => void = () => {};
  const ask = (asked: Question, onProgress?: (progress: { bytesDone: number }) => void): unknown => {
    happened.push(`asked ${asked.kind}`);
    onProgress?.({ bytesDone: 7 });
    return {
      outcome: new Promise((settle) => (answer = settle)),
      stop: () => void happened.push('stopped'),
    };
  };
  const client = { ask, end: () => void happened.push('ended') } as unknown as WorkerClient;
  return { client, answer: (outcome) => answer(outcome) };
}

test('a question is asked after what runs now, its progress and its answer come through', async () => {
  const happened: string[] = [];
  const { client, answer } = clientOf(happened);
  const asked = askingAfter(client).ask(
    question,
    ({ bytesDone }) => void happened.push(`${bytesDone} bytes`),
  );
  await Promise.resolve();
  expect(happened).toEqual([]);
  await nextTask();
  expect(happened).toEqual(['asked book', '7 bytes']);
  answer({ kind: 'failed', message: 'no' });
  expect(await asked.outcome).toEqual({ kind: 'failed', message: 'no' });
});

test('stopped before it was asked it never is, and says that it was stopped', async () => {
  const happened: string[] = [];
  const asked = askingAfter(clientOf(happened).client).ask(question);
  asked.stop();
  expect(await asked.outcome).toEqual({ kind: 'refused', problems: [{ code: 'cancelled' }] });
  await nextTask();
  expect(happened).toEqual([]);
});

test('stopped after it was asked, the worker is told; ended, too', async () => {
  const happened: string[] = [];
  const after = askingAfter(clientOf(happened).client);
  const asked = after.ask(question);
  await nextTask();
  asked.stop();
  after.end();
  expect(happened).toEqual(['asked book', 'stopped', 'ended']);
});

test('questions are asked in their order', async () => {
  const happened: string[] = [];
  const after = askingAfter(clientOf(happened).client);
  after.ask(question);
  const takenBack = after.ask({ kind: 'save' } as unknown as Question);
  after.ask({ kind: 'inspect' } as unknown as Question);
  takenBack.stop();
  await nextTask();
  after.ask({ kind: 'restore' } as unknown as Question);
  await nextTask();
  expect(happened).toEqual(['asked book', 'asked inspect', 'asked restore']);
});

test('where no worker can be begun, the outcome says so', async () => {
  const client = {
    ask: () => {
      throw new Error('not allowed here');
    },
    end: () => {},
  } as unknown as WorkerClient;
  const asked = askingAfter(client).ask(question);
  expect(await asked.outcome).toEqual({ kind: 'failed', message: 'not allowed here' });
});
