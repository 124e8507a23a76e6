import { describe, expect, it, vi } from 'vitest';
import { createClient } from '#worker/client.ts';
import type { Reply, Request } from '#worker/messages.ts';

/** A worker of which the test says what it does. */
class FakeWorker extends EventTarget {
  posted: Request[] = [];
  ended = false;
  postMessage(request: Request): void {
    this.posted.push(request);
  }
  reply(reply: Reply): void {
    this.dispatchEvent(Object.assign(new Event('message'), { data: reply }));
  }
  terminate(): void {
    this.ended = true;
  }
}

function begin() {
  const workers: FakeWorker[] = [];
  const client = createClient(() => {
    const worker = new FakeWorker();
    workers.push(worker);
    return worker as unknown as Worker;
  });
  return { client, workers, worker: () => workers.at(-1) ?? new FakeWorker() };
}

describe('client', () => {
  it('gives each answer to its own question, and progress before it', async () => {
    const { client, worker } = begin();
    const seen = vi.fn();
    const first = client.ask({ kind: 'restore' }, seen);
    const second = client.ask({ kind: 'book' });
    const progress = { stage: 'reading', bytesDone: 1, bytesTotal: 2, rows: 3 } as const;
    worker().reply({ id: 1, kind: 'progress', progress });
    worker().reply({ id: 2, kind: 'answer', answer: null });
    worker().reply({ id: 1, kind: 'answer', answer: { run: null, problem: null } });
    expect(await second.outcome).toMatchObject({ kind: 'answer', answer: null });
    expect(await first.outcome).toMatchObject({ kind: 'answer', answer: { run: null } });
    expect(seen).toHaveBeenCalledExactlyOnceWith(progress);
  });

  it('hears of a worker that broke, and begins another for the next question', async () => {
    const { client, workers, worker } = begin();
    const asked = client.ask({ kind: 'restore' });
    worker().dispatchEvent(Object.assign(new Event('error'), { message: 'no memory' }));
    expect(await asked.outcome).toEqual({ kind: 'failed', message: 'no memory' });
    client.ask({ kind: 'restore' });
    expect(workers).toHaveLength(2);
    expect(workers[0]?.ended).toBe(true);
  });

  it('asks a question to stop, and ends a worker that does not listen', async () => {
    vi.useFakeTimers();
    const { client, workers, worker } = begin();
    const asked = client.ask({ kind: 'restore' });
    asked.stop();
    expect(worker().posted.at(-1)).toEqual({ id: 1, kind: 'cancel' });
    expect(worker().ended).toBe(false);
    await vi.advanceTimersByTimeAsync(2000);
    expect(await asked.outcome).toEqual({ kind: 'refused', problems: [{ code: 'cancelled' }] });
    expect(workers[0]?.ended).toBe(true);
    vi.useRealTimers();
  });

  it('asks the next worker what the ended one had not answered, unless it may be writing', async () => {
    vi.useFakeTimers();
    const { client, workers, worker } = begin();
    const stopped = client.ask({ kind: 'restore' });
    const other = client.ask({ kind: 'restore' });
    stopped.stop();
    await vi.advanceTimersByTimeAsync(2000);
    expect(workers).toHaveLength(2);
    expect(worker().posted).toEqual([{ id: 2, kind: 'restore' }]);
    worker().reply({ id: 2, kind: 'answer', answer: { run: null, problem: null } });
    expect(await other.outcome).toMatchObject({ kind: 'answer' });
    const writing = client.ask({ kind: 'empty-bin', removedBefore: '2026-03-06' });
    client.ask({ kind: 'restore' }).stop();
    await vi.advanceTimersByTimeAsync(4000);
    expect(workers).toHaveLength(2);
    worker().reply({ id: 3, kind: 'answer', answer: null });
    expect(await writing.outcome).toMatchObject({ kind: 'answer' });
    await vi.advanceTimersByTimeAsync(2000);
    expect(workers[1]?.ended).toBe(true);
    vi.useRealTimers();
  });

  it('never ends a worker that writes into the book: what was stopped says itself how far it came', async () => {
    vi.useFakeTimers();
    const { client, workers, worker } = begin();
    const bringing = client.ask({
      kind: 'bring-back',
      copy: new Blob(),
      name: 'a.zip',
      at: '2026-03-06T08:00:00Z',
    });
    bringing.stop();
    await vi.advanceTimersByTimeAsync(60_000);
    expect(workers[0]?.ended).toBe(false);
    const merged = { added: 3, replaced: 0, joined: 0, mended: 0, left: 4, problem: null, twice: [] };
    worker().reply({ id: 1, kind: 'answer', answer: merged });
    expect(await bringing.outcome).toMatchObject({ kind: 'answer', answer: merged });
    await vi.advanceTimersByTimeAsync(60_000);
    expect(workers[0]?.ended).toBe(false);
    vi.useRealTimers();
  });

  it('leaves a worker alone that stopped in time', async () => {
    vi.useFakeTimers();
    const { client, workers, worker } = begin();
    const asked = client.ask({ kind: 'restore' });
    asked.stop();
    worker().reply({ id: 1, kind: 'refused', problems: [{ code: 'cancelled' }] });
    await vi.advanceTimersByTimeAsync(1000);
    expect(await asked.outcome).toMatchObject({ kind: 'refused' });
    expect(workers[0]?.ended).toBe(false);
    vi.useRealTimers();
  });
});
