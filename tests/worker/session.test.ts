import 'fake-indexeddb/auto';
import { describe, expect, it } from 'vitest';
import { assess } from '#assessment/assess.ts';
import { inspect } from '#assessment/inspect.ts';
import { openBrowserBook } from '#book/browser-store.ts';
import type { BookStore } from '#book/store.ts';
import { writeJson } from '#formats/number.ts';
import { readLog } from '#log/read-log.ts';
import type { Answers, Reply, Request, RequestKind } from '#worker/messages.ts';
import { createSession, type Surroundings } from '#worker/session.ts';
import { createHash } from 'node:crypto';
import { expectEqual } from '../log/expect-equal.ts';
import { fonts, logBytes, logFile, rig, spec, textFile } from './sample.ts';

type WithoutId<R> = R extends unknown ? Omit<R, 'id'> : never;

/** A session whose replies are gathered. */
function begin(change: Partial<Surroundings> = {}) {
  const replies: Reply[] = [];
  let id = 0;
  const handle = createSession({
    programVersion: '1.2.3',
    fonts: () => Promise.resolve(fonts()),
    openBook: () => openBrowserBook('unused', () => undefined),
    // Structured clone, as posting does it: what cannot be posted fails here too.
    post: (reply, transfer) => void replies.push(structuredClone(reply, { transfer })),
    ...change,
  });
  return {
    replies,
    ask: async (question: WithoutId<Request>): Promise<Reply> => {
      const request: Request = { ...question, id: ++id };
      await handle(request);
      const last = replies.filter((reply) => reply.id === id && reply.kind !== 'progress').at(-1);
      if (last === undefined) throw new Error('no reply');
      return last;
    },
    handle,
  };
}
function answered<K extends RequestKind>(reply: Reply): Answers[K] {
  if (reply.kind !== 'answer') throw new Error(JSON.stringify(reply));
  return reply.answer as Answers[K];
}

const five = 'five-over-the-band.csv';
/** Kept and saved again and again: a fifth as long. */
const kept = 'creeps-over-the-band.csv';
const reading = { rig: rig('bench-1.json'), overrides: [] };
const judging = { spec: spec('example-400-420.json'), judge: null };
const sha256 = (bytes: Uint8Array): string => createHash('sha256').update(bytes).digest('hex');

const judgedBefore = new Map<string, ReturnType<typeof judged>>();
/** A log read and judged without a session, once. */
function direct(name = five): ReturnType<typeof judged> {
  const found = judgedBefore.get(name) ?? judged(name);
  judgedBefore.set(name, found);
  return found;
}
function judged(name: string) {
  const bytes = logBytes(name);
  const log = readLog(bytes, { fileName: name, rig: reading.rig, sha256: sha256(bytes) });
  if (!log.ok) throw new Error('not read');
  const assessed = assess({ log: log.value, rig: reading.rig, ...judging, programVersion: '1.2.3' });
  if (!assessed.ok) throw new Error('not assessed');
  return { log: log.value, ...assessed.value };
}

describe('session', () => {
  it('says the same of a streamed file as a whole read says, its hash included', async () => {
    const { ask, replies } = begin();
    const understood = answered<'inspect'>(await ask({ kind: 'inspect', file: logFile(five), reading }));
    expectEqual(understood.inspection, inspect(direct().log, reading.rig));
    expect(understood.inspection.log.sha256).toBe(sha256(logBytes(five)));
    expect(understood.outlines).toHaveLength(understood.inspection.log.channels.length);
    const progress = replies.flatMap((reply) => (reply.kind === 'progress' ? [reply.progress] : []));
    expect(progress.at(-1)).toMatchObject({ stage: 'reading', bytesDone: logBytes(five).length });
  });

  it('gives the assessment that the core gives, and series that outlive being handed over', async () => {
    const { ask } = begin();
    const question = { kind: 'assess', file: logFile(five), reading, judging } as const;
    const first = answered<'assess'>(await ask(question));
    const again = answered<'assess'>(await ask(question));
    const { assessment, series } = direct();
    expect(first.assessment).toEqual(assessment);
    expectEqual(again.series.pressure?.smoothed, series.pressure?.smoothed);
    expectEqual(again.series.time_s, series.time_s);
    expectEqual(again.series.oil?.values, series.oil?.values);
  });

  it('saves the assessment as the command line writes it, byte for byte', async () => {
    const { ask } = begin();
    const choices = { unitRecord: null, date: '2026-03-06', paper: 'a4' } as const;
    const saved = answered<'save'>(
      await ask({ kind: 'save', file: logFile(five), reading, judging, choices, as: 'json' }),
    );
    expect(new TextDecoder().decode(saved.bytes)).toBe(writeJson(direct().assessment));
  });

  it('saves every kind, each what it says it is', async () => {
    const { ask } = begin();
    const choices = { unitRecord: null, date: '2026-03-06', paper: 'a4' } as const;
    const begins = {
      pdf: '%PDF-1.7',
      html: '<!doctype html>',
      svg: '<svg ',
      csv: 'elapsed_s,',
      json: '{',
    } as const;
    for (const [as, start] of Object.entries(begins) as [keyof typeof begins, string][]) {
      const saved = answered<'save'>(
        await ask({ kind: 'save', file: logFile(kept), reading, judging, choices, as }),
      );
      expect(new TextDecoder('latin1').decode(saved.bytes.subarray(0, 40)).toLowerCase()).toContain(
        start.toLowerCase(),
      );
    }
  });

  it('names what a person can mend, and no more is asked of the file', async () => {
    const { ask } = begin();
    const empty = await ask({
      kind: 'inspect',
      file: textFile('empty.csv', ''),
      reading: { rig: null, overrides: [] },
    });
    expect(empty).toMatchObject({ kind: 'refused', problems: [{ code: 'empty-file' }] });
    const noUnit = textFile(
      'no-unit.csv',
      `t,P main\n${Array.from({ length: 50 }, (_, i) => `${i},${400 + (i % 5)}`).join('\n')}\n`,
    );
    const plain = { rig: null, overrides: [] };
    expect(await ask({ kind: 'assess', file: noUnit, reading: plain, judging })).toMatchObject({
      kind: 'refused',
      problems: [{ code: 'pressure-without-unit', column: 'P main' }],
    });
    const said = { rig: null, overrides: [{ column: 'P main', unit: 'bar' as const }] };
    const understood = answered<'inspect'>(await ask({ kind: 'inspect', file: noUnit, reading: said }));
    expect(understood.inspection.log.channels[0]).toMatchObject({ unit: 'bar', unitFrom: 'user' });
  });

  it('tells a file that went away after it was chosen', async () => {
    const { ask } = begin();
    const gone = {
      size: 10,
      stream: () =>
        new ReadableStream({
          pull(controller) {
            controller.error(new DOMException('gone', 'NotReadableError'));
          },
        }),
    } as unknown as Blob;
    expect(
      await ask({ kind: 'inspect', file: { key: 'gone', blob: gone, name: 'gone.csv' }, reading }),
    ).toMatchObject({ kind: 'refused', problems: [{ code: 'file-not-readable', file: 'gone.csv' }] });
  });

  it('stops a reading between two pieces, and reads the same file when asked again', async () => {
    const { ask, handle, replies } = begin();
    const pieces = 5;
    const slow = {
      size: 100,
      stream: () => {
        let given = 0;
        return new ReadableStream<Uint8Array>({
          async pull(controller) {
            await new Promise((resolve) => setTimeout(resolve, 5));
            if (given++ === pieces) controller.close();
            else
              controller.enqueue(
                new TextEncoder().encode(given === 1 ? 't_s,p_psi\n0,400\n1,401\n' : `${given},402\n`),
              );
          },
        });
      },
    } as unknown as Blob;
    const file = { key: 'slow', blob: slow, name: 'slow.csv' };
    const plain = { rig: null, overrides: [] };
    const first = handle({ id: 77, kind: 'inspect', file, reading: plain });
    await handle({ id: 77, kind: 'cancel' });
    await first;
    expect(replies.find((reply) => reply.id === 77 && reply.kind === 'refused')).toMatchObject({
      problems: [{ code: 'cancelled' }],
    });
    const again = answered<'inspect'>(await ask({ kind: 'inspect', file, reading: plain }));
    expect(again.inspection.log.rows).toBe(pieces + 1);
  });

  it('says when it broke: a mistake of ours is an answer, not silence', async () => {
    const { ask } = begin({ fonts: () => Promise.reject(new Error('no letters')) });
    const choices = { unitRecord: null, date: null, paper: 'a4' } as const;
    expect(await ask({ kind: 'save', file: logFile(five), reading, judging, choices, as: 'svg' })).toEqual({
      id: 1,
      kind: 'failed',
      message: 'no letters',
    });
  });
});

describe('the last run', () => {
  const name = (test: string): Pick<Surroundings, 'openBook'> => ({
    openBook: () => openBrowserBook(test, () => undefined),
  });
  const keep = {
    kind: 'keep',
    file: logFile(kept),
    reading,
    judging,
    unitRecord: null,
    at: '2026-03-06T10:00:00.000Z',
    seen: null,
  } as const;

  it('comes back after everything was closed: same bytes, same judgement', async () => {
    expect(answered<'keep'>(await begin(name('kept')).ask(keep))).toMatchObject({
      seen: { unitRecord: null },
    });
    const later = begin(name('kept'));
    const { run, problem } = answered<'restore'>(await later.ask({ kind: 'restore' }));
    expect(problem).toBeNull();
    if (run === null) throw new Error('nothing kept');
    expectEqual(new Uint8Array(await run.file.blob.arrayBuffer()), logBytes(kept));
    expect(run.file.name).toBe(kept);
    const judged = answered<'assess'>(
      await later.ask({ kind: 'assess', file: run.file, reading: run.reading, judging: run.judging }),
    );
    expect(writeJson(judged.assessment)).toBe(writeJson(direct(kept).assessment));
  });

  it('stays in the book beside the next one; the same one again writes its log only once', async () => {
    const session = begin(name('next'));
    await session.ask(keep);
    await session.ask({
      ...keep,
      judging: { ...judging, spec: spec('example-simple-rule.json') },
      at: '2026-03-06T11:00:00.000Z',
    });
    const opened = await openBrowserBook('next', () => undefined);
    if (!opened.ok) throw new Error('not opened');
    const paths = await opened.value.paths();
    expect(paths.filter((path) => path.endsWith('/log.gz'))).toHaveLength(1);
    expect(paths.filter((path) => /assessment-\d+\.json$/u.test(path))).toHaveLength(2);
    await session.ask({
      ...keep,
      file: logFile('clean-pass.csv'),
      reading: { rig: rig('bench-1-clock.json'), overrides: [] },
      at: '2026-03-06T12:00:00.000Z',
    });
    const { run } = answered<'restore'>(await session.ask({ kind: 'restore' }));
    expect(run?.file.name).toBe('clean-pass.csv');
    expect((await opened.value.paths()).filter((path) => path.endsWith('/run.json'))).toHaveLength(2);
    opened.value.close();
  });

  it('names the limits of each verdict on it once, also those that only a verdict has', async () => {
    const session = begin(name('limits'));
    const first = answered<'keep'>(await session.ask(keep));
    if (!('run' in first) || keep.judging.spec === null) throw new Error('not kept');
    const typed = {
      ...keep.judging.spec,
      name: 'typed by hand',
      pressureBand: { low: 380, high: 390, unit: 'psi' as const },
    };
    const seen = { verdict: first.seen.verdict, unitRecord: first.seen.unitRecord };
    const again = answered<'keep'>(
      await session.ask({ ...keep, judging: { spec: typed, judge: null }, seen, at: '2026-03-06T08:00:00Z' }),
    );
    if (!('run' in again)) throw new Error('not kept again');
    expect(answered<'limits-before'>(await session.ask({ kind: 'limits-before', run: again.run }))).toEqual([
      keep.judging.spec,
      typed,
    ]);
    expect(answered<'limits-before'>(await session.ask({ kind: 'limits-before', run: 'none' }))).toEqual([]);
  });
  it('is named as damaged when its bytes are not what was kept', async () => {
    const session = begin(name('damaged'));
    await session.ask(keep);
    const opened = await openBrowserBook('damaged', () => undefined);
    if (!opened.ok) throw new Error('not opened');
    const path = (await opened.value.paths()).find((each) => each.endsWith('/log.gz')) ?? '';
    await opened.value.write([], [{ path, bytes: new Uint8Array([1, 2, 3]) }]);
    opened.value.close();
    expect(answered<'restore'>(await session.ask({ kind: 'restore' }))).toMatchObject({
      run: null,
      problem: { code: 'entry-damaged' },
    });
    // The same log again mends it, as the app advises.
    await session.ask(keep);
    const { run } = answered<'restore'>(await session.ask({ kind: 'restore' }));
    if (run === null) throw new Error('not mended');
    expectEqual(new Uint8Array(await run.file.blob.arrayBuffer()), logBytes(kept));
  });

  it('says that there is no room, and that a browser keeps nothing', async () => {
    const full = {
      list: () => Promise.resolve({ entries: [], damaged: [] }),
      paths: () => Promise.resolve([]),
      write: () => Promise.resolve({ ok: false, problem: { code: 'no-room' } }),
      close: () => undefined,
    } as unknown as BookStore;
    const withFull = begin({ openBook: () => Promise.resolve({ ok: true, value: full }) });
    expect(answered<'keep'>(await withFull.ask(keep))).toEqual({ problem: { code: 'no-room' } });
    const closed = begin({
      openBook: () => Promise.resolve({ ok: false, problem: { code: 'not-kept', reason: 'private window' } }),
    });
    expect(answered<'keep'>(await closed.ask(keep))).toEqual({
      problem: { code: 'not-kept', reason: 'private window' },
    });
    expect(answered<'restore'>(await closed.ask({ kind: 'restore' }))).toEqual({
      run: null,
      problem: { code: 'not-kept', reason: 'private window' },
    });
  });

  it('a log that lies in the bin is put back when it comes again, with all its verdicts', async () => {
    const session = begin(name('again'));
    await session.ask(keep);
    const { runs } = answered<'book'>(await session.ask({ kind: 'book' }));
    const [run] = runs;
    if (run === undefined) throw new Error('nothing kept');
    const path = `runs/${run.id}/run.json`;
    const removed = { removedAt: '2026-03-06T10:30:00Z' };
    const edits = [{ path, revision: run.revision, change: removed }];
    const edited = await session.ask({ kind: 'edit', edits, at: '2026-03-06T10:30:00Z' });
    expect(answered<'edit'>(edited)).toBeNull();
    // Made on a state that is no longer the one that is kept.
    const late = await session.ask({ kind: 'edit', edits, at: '2026-03-06T10:31:00Z' });
    expect(answered<'edit'>(late)).toMatchObject({ code: 'changed-elsewhere' });
    await session.ask({ ...keep, at: '2026-03-06T11:00:00.000Z' });
    const after = answered<'book'>(await session.ask({ kind: 'book' })).runs;
    expect(after).toHaveLength(1);
    expect(after[0]).toMatchObject({ id: run.id, removedAt: null, assessments: run.assessments });
  });
  it('goes to the unit of its serial, and the bin is emptied with all that belongs to it', async () => {
    const session = begin(name('units'));
    const unitRecord = {
      format: 'overdrive-bench/unit-record' as const,
      version: 1 as const,
      customer: 'A. Customer',
      unit: { serial: 'B-0417' },
    };
    await session.ask({ ...keep, unitRecord });
    await session.ask({
      ...keep,
      file: logFile('clean-pass.csv'),
      reading: { rig: rig('bench-1-clock.json'), overrides: [] },
      unitRecord: { format: unitRecord.format, version: 1, unit: { serial: ' b-0417' } },
      at: '2026-03-06T12:00:00.000Z',
    });
    const { units, runs } = answered<'book'>(await session.ask({ kind: 'book' }));
    expect(units).toHaveLength(1);
    expect(units[0]?.record.customer).toBe('A. Customer');
    expect(
      runs.map(({ unitId, kind }) => [unitId, kind]).sort((a, b) => String(a).localeCompare(String(b))),
    ).toEqual([
      [units[0]?.id, 're-test'],
      [units[0]?.id, 'test'],
    ]);
    // The list carries no outlines; they are asked for by themselves.
    expect(runs.every(({ outline }) => outline === null)).toBe(true);
    const ids = runs.map(({ id }) => id);
    const outlines = answered<'outlines'>(await session.ask({ kind: 'outlines', runs: [...ids, 'gone'] }));
    expect(Object.keys(outlines).sort()).toEqual([...ids].sort());
    expect(Object.values(outlines).every((outline) => outline?.low.length === 200)).toBe(true);
    const test = runs.find(({ kind }) => kind === 'test');
    const path = `runs/${test?.id ?? ''}/run.json`;
    const change = { removedAt: '2026-03-07T00:00:00Z' };
    await session.ask({
      kind: 'edit',
      edits: [{ path, revision: test?.revision ?? 0, change }],
      at: change.removedAt,
    });
    await session.ask({ kind: 'empty-bin', removedBefore: '2026-03-07T00:00:00Z' });
    expect(answered<'book'>(await session.ask({ kind: 'book' })).runs).toHaveLength(2);
    await session.ask({ kind: 'empty-bin', removedBefore: '2026-03-08T00:00:00Z' });
    expect(answered<'book'>(await session.ask({ kind: 'book' })).runs).toHaveLength(1);
    const opened = await openBrowserBook('units', () => undefined);
    if (!opened.ok) throw new Error('not opened');
    expect((await opened.value.paths()).filter((each) => each.includes(test?.id ?? 'none'))).toEqual([]);
    opened.value.close();
  });
  it('a copy put aside comes back into an empty book, and says first what it would change', async () => {
    const session = begin(name('from'));
    await session.ask(keep);
    const made = answered<'copy'>(await session.ask({ kind: 'copy', to: null }));
    if (!('blob' in made) || made.blob === null) throw new Error('no copy');
    expect(made).toMatchObject({ stopped: false, files: 4 });
    const other = begin(name('to'));
    const look = answered<'look-at-copy'>(await other.ask({ kind: 'look-at-copy', copy: made.blob }));
    expect(look).toEqual({
      steps: [{ what: 'add', name: `run ${kept}` }],
      left: [],
      twice: [],
      empty: false,
    });
    expect(answered<'book'>(await other.ask({ kind: 'book' })).runs).toEqual([]);
    expect(
      answered<'bring-back'>(
        await other.ask({
          kind: 'bring-back',
          copy: made.blob,
          name: 'copy.zip',
          at: '2026-03-06T08:00:00Z',
        }),
      ),
    ).toEqual({ added: 1, replaced: 0, joined: 0, mended: 0, left: 0, problem: null, twice: [] });
    const { run } = answered<'restore'>(await other.ask({ kind: 'restore' }));
    if (run === null) throw new Error('not brought back');
    expectEqual(new Uint8Array(await run.file.blob.arrayBuffer()), logBytes(kept));
    // Stopped before anything is written: nothing came, and it says so.
    const third = begin(name('stopped'));
    const asked = third.ask({
      kind: 'bring-back',
      copy: made.blob,
      name: 'copy.zip',
      at: '2026-03-06T08:00:00Z',
    });
    await third.handle({ id: 1, kind: 'cancel' });
    expect(await asked).toMatchObject({ kind: 'refused', problems: [{ code: 'cancelled' }] });
    expect(answered<'book'>(await third.ask({ kind: 'book' }))).toMatchObject({
      runs: [],
      broughtBack: null,
    });
    const no = new Blob(['Dear customer']);
    expect(answered<'look-at-copy'>(await other.ask({ kind: 'look-at-copy', copy: no }))).toMatchObject({
      empty: true,
    });
  });
});

describe('two windows on one run', () => {
  const openBook = (test: string) => () => openBrowserBook(test, () => undefined);
  const unitRecord = {
    format: 'overdrive-bench/unit-record' as const,
    version: 1 as const,
    customer: 'A. Customer',
    unit: { serial: 'B-0417' },
  };
  const keep = {
    kind: 'keep',
    file: logFile(kept),
    reading,
    judging,
    unitRecord,
    at: '2026-03-06T10:00:00.000Z',
    seen: null,
  } as const;
  const seenOf = (answer: Answers['keep']) => {
    if ('problem' in answer) throw new Error(JSON.stringify(answer));
    return answer.seen;
  };

  it('a later verdict of the second, made on what it saw, is refused and told; said again it stands behind the other', async () => {
    const session = begin({ openBook: openBook('windows') });
    const seen = seenOf(answered<'keep'>(await session.ask(keep)));
    const simple = { ...judging, spec: spec('example-simple-rule.json') };
    const first = seenOf(answered<'keep'>(await session.ask({ ...keep, judging: simple, seen })));
    const looked = { ...judging, spec: null };
    expect(answered<'keep'>(await session.ask({ ...keep, judging: looked, seen }))).toMatchObject({
      problem: { code: 'changed-elsewhere' },
    });
    seenOf(answered<'keep'>(await session.ask({ ...keep, judging: looked, seen: first })));
    const { runs } = answered<'book'>(await session.ask({ kind: 'book' }));
    expect(runs[0]?.assessments.map(({ file }) => file)).toEqual([
      'assessment-1.json',
      'assessment-2.json',
      'assessment-3.json',
    ]);
  });

  it('what was changed of the unit elsewhere stays, field by field; the same field changed twice is told', async () => {
    const session = begin({ openBook: openBook('fields') });
    const seen = seenOf(answered<'keep'>(await session.ask(keep)));
    const later = { ...unitRecord, customer: 'Another Customer' };
    const after = seenOf(answered<'keep'>(await session.ask({ ...keep, unitRecord: later, seen })));
    expect(after.unitRecord?.customer).toBe('Another Customer');
    // A window that still shows the first customer, and adds a note.
    const noted = { ...unitRecord, notes: 'lock nut was loose' };
    const merged = seenOf(answered<'keep'>(await session.ask({ ...keep, unitRecord: noted, seen })));
    expect(merged.unitRecord).toMatchObject({ customer: 'Another Customer', notes: 'lock nut was loose' });
    const third = { ...unitRecord, customer: 'A third' };
    expect(answered<'keep'>(await session.ask({ ...keep, unitRecord: third, seen }))).toMatchObject({
      problem: { code: 'changed-elsewhere' },
    });
  });

  it('a run that another window removed is not put back unasked', async () => {
    const session = begin({ openBook: openBook('removed') });
    const seen = seenOf(answered<'keep'>(await session.ask(keep)));
    const { runs } = answered<'book'>(await session.ask({ kind: 'book' }));
    const edits = runs.map((run) => ({
      path: `runs/${run.id}/run.json`,
      revision: run.revision,
      change: { removedAt: '2026-03-06T11:00:00Z' },
    }));
    await session.ask({ kind: 'edit', edits, at: '2026-03-06T11:00:00Z' });
    expect(answered<'keep'>(await session.ask({ ...keep, seen }))).toMatchObject({
      problem: { code: 'changed-elsewhere' },
    });
  });
});
