import type { BookProblem, BookStore } from '#book/store.ts';
import type { KeptRig } from '#formats/book.ts';
import { writeJson } from '#formats/number.ts';
import type { Rig } from '#formats/rig.ts';
import { findColumn } from '#log/column-names.ts';
import { isPacked } from '#log/sheet-rows.ts';
import { tableHeading } from '#log/table-heading.ts';
import { workbookTexts } from './read-workbook.ts';

const HEAD = 65536;
/** The first bytes of a log; of a spreadsheet file those of the texts that stand for its sheets. */
async function headsOf(blob: Blob): Promise<Uint8Array[]> {
  const head = new Uint8Array(await blob.slice(0, HEAD).arrayBuffer());
  return isPacked(head) ? (await workbookTexts(blob)).map((text) => text.subarray(0, HEAD)) : [head];
}

async function keptRigs(store: BookStore): Promise<KeptRig[]> {
  const { entries } = await store.list();
  return entries
    .filter((entry): entry is KeptRig => entry.format === 'overdrive-bench/book-rig')
    .filter(({ removedAt }) => removedAt === null)
    .sort((a, b) => (a.changedAt < b.changedAt ? 1 : -1));
}
const newest = ({ versions }: KeptRig): Rig | null => versions.at(-1)?.rig ?? null;

/** The logger whose files have this file's heading, the one remembered last first; null for none. */
export async function recogniseRig(store: BookStore, blob: Blob): Promise<Rig | null> {
  const heads = await headsOf(blob);
  for (const kept of await keptRigs(store)) {
    const rig = newest(kept);
    if (kept.header === null || rig === null) continue;
    const known = writeJson(kept.header);
    if (heads.some((head) => writeJson(tableHeading(head, rig.dialect)) === known)) return rig;
  }
  return null;
}

/** What remembering came to. */
export type Remembering = { recognised: boolean } | { problem: BookProblem };

/**
 * Keeps a rig in the book with the heading of the log that it was made for; one of the same name gets a version more, the earlier ones
 * stay.
 * @returns whether a file of the same logger will be recognised: one without a heading has nothing to be known by
 */
export async function rememberRig(store: BookStore, blob: Blob, rig: Rig, at: string): Promise<Remembering> {
  // Of several sheets the one that the rig's columns are of.
  const header =
    (await headsOf(blob))
      .map((head) => tableHeading(head, rig.dialect))
      .find(
        (names) =>
          names !== null && (rig.channels ?? []).every(({ column }) => findColumn(names, column) >= 0),
      ) ?? null;
  const bare = (name: string): string => name.trim().toLowerCase();
  const before = (await keptRigs(store)).find((kept) => bare(newest(kept)?.name ?? '') === bare(rig.name));
  const version = { savedAt: at, rig };
  const entry: KeptRig =
    before === undefined
      ? {
          format: 'overdrive-bench/book-rig',
          version: 1,
          id: crypto.randomUUID(),
          revision: 1,
          changedAt: at,
          removedAt: null,
          header,
          versions: [version],
        }
      : {
          ...before,
          header,
          revision: before.revision + 1,
          changedAt: at,
          versions: [...before.versions, version],
        };
  const written = await store.write([entry], []);
  return written.ok ? { recognised: header !== null } : { problem: written.problem };
}
