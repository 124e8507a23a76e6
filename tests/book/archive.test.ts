import 'fake-indexeddb/auto';
import { gunzipSync } from 'fflate';
import { describe, expect, it } from 'vitest';
import { readArchive, writeArchive } from '#book/archive.ts';
import { openBrowserBook } from '#book/browser-store.ts';
import { checkBook, findingSentence, isGrave } from '#book/check-book.ts';
import { carryOutMerge, nothingMerged, planMerge } from '#book/merge.ts';
import type { BookUnit } from '#formats/book.ts';
import type { BookStore } from '#book/store.ts';
import { memoryTree, treeStore } from '#book/tree-store.ts';
import { madeRun, madeUnit, sha256 } from './made-book.ts';

async function filled(): Promise<BookStore> {
  const store = treeStore(memoryTree());
  for (let i = 1; i <= 5; i++) {
    const { run, files } = madeRun(
      `r${i}`,
      `u${i}`,
      `elapsed_s,pressure_psi\n${Array.from({ length: 400 }, (_, k) => `${k},${400 + i}`).join('\n')}\n`,
    );
    await store.write([madeUnit(`u${i}`), run], files);
  }
  return store;
}
async function archived(store: BookStore): Promise<Uint8Array> {
  const pieces: Uint8Array[] = [];
  await writeArchive(store, async (piece) => void pieces.push(piece.slice()));
  return new Uint8Array(Buffer.concat(pieces));
}
function* inPieces(bytes: Uint8Array, size: number): Iterable<Uint8Array> {
  for (let at = 0; at < bytes.length; at += size) yield bytes.slice(at, at + size);
}

describe('the copy put aside', () => {
  it('comes back into an empty book equal to the byte in the logs, whatever the pieces', async () => {
    const archive = await archived(await filled());
    for (const size of [1, 7, 4096, 1e9]) {
      const content = await readArchive(inPieces(archive, size));
      expect(content.damaged).toEqual([]);
      expect(content.whole).toBe(true);
      const opened = await openBrowserBook(`restore-${size}`, () => undefined);
      if (!opened.ok) throw new Error(opened.problem.code);
      const plan = await planMerge(opened.value, content.files, sha256);
      expect(plan.steps.map((step) => step.what)).toEqual(Array.from({ length: 10 }, () => 'add'));
      expect(await carryOutMerge(opened.value, plan, content.files)).toEqual({
        ...nothingMerged(0),
        added: 10,
        replaced: 0,
        joined: 0,
      });
      const original = await filled();
      for (let i = 1; i <= 5; i++) {
        const [a, b] = [
          await opened.value.file(`runs/r${i}/log.gz`),
          await original.file(`runs/r${i}/log.gz`),
        ];
        expect(gunzipSync(a ?? new Uint8Array())).toEqual(gunzipSync(b ?? new Uint8Array()));
      }
      expect((await checkBook(opened.value, sha256)).findings).toEqual([]);
      opened.value.close();
    }
  });

  it('of thousands of small entries is read whole, also where it comes in one piece', async () => {
    const store = treeStore(memoryTree());
    const units = Array.from({ length: 6000 }, (_, i) => madeUnit(`u${i}`));
    await store.write(units, []);
    const archive = await archived(store);
    for (const size of [65_536, 1e9]) {
      const content = await readArchive(inPieces(archive, size));
      expect(content).toMatchObject({ whole: true, damaged: [] });
      expect(content.files.size).toBe(6001);
    }
  });

  it('is the same bytes for the same book', async () => {
    expect(sha256(await archived(await filled()))).toBe(sha256(await archived(await filled())));
  });

  it('into a filled book: newer replaces, older is kept, nothing is taken out', async () => {
    const store = await filled();
    const content = await readArchive([await archived(store)]);
    await store.write(
      [
        madeUnit('u1', { revision: 2, changedAt: '2026-05-01T00:00:00Z', goneOutOn: '2026-05-01' }),
        madeUnit('extra'),
      ],
      [],
    );
    const newer = new Map(content.files);
    newer.set(
      'units/u2.json',
      new TextEncoder().encode(
        JSON.stringify(madeUnit('u2', { changedAt: '2026-06-01T00:00:00Z', goneOutOn: '2026-06-01' })),
      ),
    );
    const plan = await planMerge(store, newer, sha256);
    expect(Object.fromEntries(plan.steps.map((step) => [step.path, step.what]))).toMatchObject({
      'units/u1.json': 'keep',
      'units/u2.json': 'replace',
      'units/u3.json': 'same',
    });
    expect(await carryOutMerge(store, plan, newer)).toEqual({
      ...nothingMerged(0),
      added: 0,
      replaced: 1,
      joined: 0,
    });
    expect(await store.entry('units/u1.json')).toMatchObject({ goneOutOn: '2026-05-01' });
    expect(await store.entry('units/u2.json')).toMatchObject({ goneOutOn: '2026-06-01', revision: 2 });
    expect(await store.entry('units/extra.json')).not.toBeNull();
  });

  it('names the serials that would stand on two units, and no other', async () => {
    const named = (id: string, serial: string, change: Partial<BookUnit> = {}): BookUnit =>
      madeUnit(id, {
        record: { format: 'overdrive-bench/unit-record', version: 1, unit: { serial } },
        ...change,
      });
    const store = treeStore(memoryTree());
    await store.write(
      [named('u1', 'B-1'), named('u2', 'B-2'), named('u3', 'B-3', { removedAt: '2026-03-05T00:00:00Z' })],
      [],
    );
    const copy = treeStore(memoryTree());
    await copy.write(
      [named('v1', ' b-1'), named('u2', 'B-2'), named('v3', 'B-3'), named('v4', 'B-4'), named('v5', '')],
      [],
    );
    const files = (await readArchive([await archived(copy)])).files;
    const plan = await planMerge(store, files, sha256);
    expect(plan.twice).toEqual(['B-1']);
    await carryOutMerge(store, plan, files);
    // What stands twice already is not told again by a copy that has nothing to do with it.
    expect((await planMerge(store, files, sha256)).twice).toEqual([]);
  });

  it('damaged: what is whole comes back and the rest is named', async () => {
    const archive = await archived(await filled());
    const cut = await readArchive([archive.slice(0, Math.floor(archive.length * 0.6))]);
    expect(cut.whole).toBe(false);
    expect(cut.files.size).toBeGreaterThan(3);
    expect(cut.damaged.length).toBeGreaterThan(0);
    const plan = await planMerge(treeStore(memoryTree()), cut.files, sha256);
    expect(plan.steps.length).toBeGreaterThan(0);
  });

  it('a file that is no zip gives nothing and says so', async () => {
    const content = await readArchive([new TextEncoder().encode('this is a letter, not a copy of a book')]);
    expect(content).toMatchObject({ whole: false });
    expect(content.files.size).toBe(0);
  });

  it('stops when told to', async () => {
    expect(
      await writeArchive(
        await filled(),
        async () => undefined,
        undefined,
        () => true,
      ),
    ).toBeNull();
  });
});

describe('checking a book', () => {
  it('names one changed digit in a log, in an assessment, and a missing file', async () => {
    const store = await filled();
    const { files } = madeRun('r2', 'u2', 'elapsed_s,pressure_psi\n0,411\n');
    const log = files[0];
    if (!log) throw new Error('no log');
    await store.remove(['runs/r3/log.gz']);
    await store.write(
      [],
      [
        { path: 'runs/r2/log.gz', bytes: log.bytes },
        {
          path: 'runs/r1/assessment-1.json',
          bytes: new TextEncoder().encode('{ "made": "for the test of r7" }\n'),
        },
      ],
    );
    const { findings } = await checkBook(store, sha256);
    expect(findings.map((finding) => finding.code).sort()).toEqual([
      'assessment-changed',
      'file-missing',
      'log-changed',
    ]);
    expect(findings.every(isGrave)).toBe(true);
    for (const finding of findings) expect(findingSentence(finding)).toMatch(/runs\/r[123]\//);
  });
  it('a file that no entry names is told, not grave', async () => {
    const store = await filled();
    await store.write([], [{ path: 'runs/r99/log.gz', bytes: new Uint8Array([1]) }]);
    const { findings } = await checkBook(store, sha256);
    expect(findings).toEqual([{ code: 'unknown-file', path: 'runs/r99/log.gz' }]);
    expect(findings.some(isGrave)).toBe(false);
  });
});
