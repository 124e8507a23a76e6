import 'fake-indexeddb/auto';
import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { unzipSync } from 'fflate';
import { describe, expect, it } from 'vitest';
import { openBrowserBook } from '#book/browser-store.ts';
import { writeJson } from '#formats/number.ts';
import type { UnitRecord } from '#formats/unit-record.ts';
import type { Answers, Reply, Request } from '#worker/messages.ts';
import type { RecordsLook } from '#worker/record-messages.ts';
import { createSession } from '#worker/session.ts';
import { ownFolder, run, shortRun } from '../commands/run-command.ts';
import { fonts, rig, spec } from './sample.ts';

const { version } = JSON.parse(readFileSync('package.json', 'utf8')) as { version: string };
const bench = { ...rig('bench-1.json'), channels: [] };
const limits = spec('example-pressure-only.json');
const look: RecordsLook = {
  date: '2026-03-06',
  paper: 'letter',
  language: 'de',
  leaveOut: ['later'],
  logo: null,
  units: { pressure: 'bar' },
  shop: { name: 'Invented Overdrive Works', contact: 'by post' },
};
const unit: UnitRecord = {
  // In an order that no file would have.
  unit: { type: 'relief type', serial: 'B-1' },
  recordNumber: 'R-1',
  version: 1,
  format: 'overdrive-bench/unit-record',
};

/** A book with two runs that can be judged, of one name, and a session over it. */
async function bookOf(name: string) {
  const replies: Reply[] = [];
  let onPost: (reply: Reply) => void = () => undefined;
  const handle = createSession({
    programVersion: version,
    fonts: () => Promise.resolve(fonts()),
    openBook: () => openBrowserBook(name, () => undefined),
    post: (reply) => {
      replies.push(reply);
      onPost(reply);
    },
  });
  let id = 0;
  const ask = async (
    question: Request extends infer R ? (R extends unknown ? Omit<R, 'id'> : never) : never,
  ): Promise<Reply> => {
    const own = ++id;
    await handle({ ...question, id: own });
    const last = replies.findLast((reply) => reply.id === own && reply.kind !== 'progress');
    if (last === undefined) throw new Error('no reply');
    return last;
  };
  const logs = [shortRun(600), shortRun(600).replaceAll('41', '43')];
  const runs: string[] = [];
  for (const [index, text] of logs.entries()) {
    const reply = await ask({
      kind: 'keep',
      file: { key: `log ${index}`, blob: new Blob([text]), name: 'b-1.csv' },
      reading: { rig: bench, overrides: [] },
      judging: { spec: limits, judge: null },
      unitRecord: index === 0 ? unit : null,
      at: `2026-03-06T1${index}:00:00.000Z`,
      seen: null,
    });
    if (reply.kind !== 'answer' || !('run' in (reply.answer as Answers['keep'])))
      throw new Error(JSON.stringify(reply));
    runs.push((reply.answer as { run: string }).run);
  }
  return {
    runs,
    logs,
    replies,
    handle,
    listen: (hear: (reply: Reply) => void) => void (onPost = hear),
    records: async (of: string[], given = look) => {
      const reply = await ask({ kind: 'records', runs: of, look: given, to: null });
      if (reply.kind !== 'answer') throw new Error(JSON.stringify(reply));
      return reply.answer as Answers['records'];
    },
    lastId: () => id,
  };
}
type Made = Extract<Answers['records'], { records: unknown }>;
function made(answer: Answers['records']): Made {
  if (!('records' in answer)) throw new Error(JSON.stringify(answer));
  return answer;
}
const filesIn = async ({ blob }: Made): Promise<Record<string, Uint8Array>> =>
  blob === null ? {} : unzipSync(new Uint8Array(await blob.arrayBuffer()));

describe('records of many runs of the book', () => {
  it('are, byte for byte, what the command line writes of the same', async () => {
    const { runs, logs, records, replies } = await bookOf('bytes');
    const answer = made(await records(runs));
    expect(answer.records.map(({ name }) => name)).toEqual(['b-1.pdf', 'b-1-2.pdf']);
    expect(answer.left).toEqual([]);
    const files = await filesIn(answer);
    const folder = ownFolder();
    const place = (name: string): string => path.join(folder, name);
    for (const [index, log] of logs.entries()) {
      const own = `${index}`;
      mkdirSync(place(own));
      mkdirSync(place(`${own}/units`));
      writeFileSync(place(`${own}/b-1.csv`), log);
      if (index === 0) writeFileSync(place(`${own}/units/b-1.json`), writeJson(unit));
      writeFileSync(place('spec.json'), writeJson(limits));
      writeFileSync(place('rig.json'), writeJson(bench));
      writeFileSync(
        place('shop.json'),
        writeJson({
          format: 'overdrive-bench/shop',
          version: 1,
          ...look.shop,
          paper: 'letter',
          language: 'de',
          leaveOut: ['later'],
          units: { pressure: 'bar' },
        }),
      );
      const { code, stderr } = await run([
        'records',
        place(`${own}/b-1.csv`),
        '--into',
        place(own),
        '--units',
        place(`${own}/units`),
        '--date',
        '2026-03-06',
        '--spec',
        place('spec.json'),
        '--rig',
        place('rig.json'),
        '--shop',
        place('shop.json'),
      ]);
      expect(stderr).toBe('');
      expect(code).toBeLessThan(3);
      const written = readFileSync(place(`${own}/b-1.pdf`));
      expect(written.equals(files[answer.records[index]?.name ?? ''] ?? new Uint8Array())).toBe(true);
    }
    const progress = replies.flatMap((reply) => (reply.kind === 'progress' ? [reply.progress] : []));
    expect(progress.at(-1)).toMatchObject({ bytesDone: 2, bytesTotal: 2 });
  });
  it('give the same zip for the same runs', async () => {
    const { runs, records } = await bookOf('again');
    const [one, two] = [made(await records(runs)), made(await records(runs))];
    // As bytes: any two ArrayBuffers are equal to toEqual, whatever they hold.
    const [first, second] = await Promise.all(
      [one, two].map(async ({ blob }) => new Uint8Array((await blob?.arrayBuffer()) ?? new ArrayBuffer())),
    );
    expect(first?.length).toBeGreaterThan(0);
    expect(Buffer.from(first ?? []).equals(second ?? new Uint8Array())).toBe(true);
  });
  it('name a run that is not there and make the others', async () => {
    const { runs, records } = await bookOf('left');
    const answer = made(await records(['gone', ...runs.slice(0, 1)]));
    expect(answer.left).toEqual([
      { name: 'gone', reason: expect.stringContaining('not in the book') as string },
    ]);
    expect(Object.keys(await filesIn(answer))).toEqual(['b-1.pdf']);
    expect(made(await records(['gone'])).blob).toBeNull();
  });
  it('can be stopped: nothing is written', async () => {
    const { runs, records, listen, handle, lastId } = await bookOf('stopped');
    listen((reply) => {
      if (reply.kind === 'progress' && reply.progress.bytesDone === 1 && reply.progress.stage === 'copying')
        void handle({ kind: 'cancel', id: lastId() });
    });
    expect(await records([...runs, ...runs])).toEqual({ stopped: true });
  });
});
