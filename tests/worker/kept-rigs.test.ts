import 'fake-indexeddb/auto';
import { describe, expect, it } from 'vitest';
import { openBrowserBook } from '#book/browser-store.ts';
import type { BookStore } from '#book/store.ts';
import type { Rig } from '#formats/rig.ts';
import { keptInASpreadsheet } from '../log/make-workbook.ts';
import { recogniseRig, rememberRig } from '#worker/kept-rigs.ts';

let count = 0;
async function book(): Promise<BookStore> {
  const opened = await openBrowserBook(`rigs-${++count}`, () => undefined);
  if (!opened.ok) throw new Error('no book');
  return opened.value;
}
const rig = (name: string, change: Partial<Rig> = {}): Rig => ({
  format: 'overdrive-bench/rig',
  version: 1,
  name,
  ...change,
});
const blob = (text: string): Blob => new Blob([text]);
const rows = '08:15:00;28,1;61\n08:15:01;28,2;61\n08:15:02;28,3;61\n';
const at = '2026-03-06T10:00:00.000Z';

describe('a remembered logger', () => {
  it('is recognised by its heading, whatever stands above it, and not by another', async () => {
    const store = await book();
    const heading = 'Zeit;Druck;Temp\n';
    expect(await rememberRig(store, blob(`Nr. 1\n${heading}${rows}`), rig('A'), at)).toEqual({
      recognised: true,
    });
    expect(await recogniseRig(store, blob(`Nr. 2\nam Freitag\n${heading}${rows}`))).toEqual(rig('A'));
    expect(await recogniseRig(store, blob(`Zeit;Druck;Strom\n${rows}`))).toBeNull();
    expect(await recogniseRig(store, blob(''))).toBeNull();
  });
  it('is recognised by the heading of a sheet of its spreadsheet files', async () => {
    const store = await book();
    const workbook = new Blob([Uint8Array.from(keptInASpreadsheet())]);
    const bench = rig('S', { channels: [{ column: 'Pressure [psi]', role: 'pressure', unit: 'psi' }] });
    expect(await rememberRig(store, workbook, bench, at)).toEqual({ recognised: true });
    expect(await recogniseRig(store, workbook)).toEqual(bench);
    expect(await recogniseRig(store, blob(`Zeit;Druck;Temp\n${rows}`))).toBeNull();
  });
  it('is recognised where its layout has to be told: the file is read as it was remembered', async () => {
    const store = await book();
    // Two lines above the heading look like one.
    const text = `a;b;c\nd;e;f\nZeit;Druck;Temp\n${rows}`;
    const told = rig('B', { dialect: { headerLine: 3 } });
    expect(await rememberRig(store, blob(text), told, at)).toEqual({ recognised: true });
    expect(await recogniseRig(store, blob(text))).toEqual(told);
  });
  it('without a heading is kept and not recognised: any file of so many columns would be it', async () => {
    const store = await book();
    expect(await rememberRig(store, blob(rows), rig('C'), at)).toEqual({ recognised: false });
    expect(await recogniseRig(store, blob(rows))).toBeNull();
  });
  it('of the same name gets a version more, and the newest counts; the one remembered last comes first', async () => {
    const store = await book();
    const text = `Zeit;Druck;Temp\n${rows}`;
    await rememberRig(store, blob(text), rig('D'), at);
    const better = rig('d', { channels: [{ column: 'Druck', role: 'pressure', unit: 'bar' }] });
    await rememberRig(store, blob(text), better, '2026-03-07T10:00:00.000Z');
    expect((await store.entries()).entries).toHaveLength(1);
    expect(await recogniseRig(store, blob(text))).toEqual(better);
    const other = rig('E');
    await rememberRig(store, blob(text), other, '2026-03-08T10:00:00.000Z');
    expect(await recogniseRig(store, blob(text))).toEqual(other);
  });
});
