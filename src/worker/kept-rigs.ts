import type { BookProblem, BookStore } from '#book/store.ts';
import type { KeptRig } from '#formats/book.ts';
import { writeJson } from '#formats/number.ts';
import type { Rig } from '#formats/rig.ts';
import { tableHeading } from '#log/table-heading.ts';

const HEAD = 65536;
const headOf = async (blob: Blob): Promise<Uint8Array> =>
  new Uint8Array(await blob.slice(0, HEAD).arrayBuffer());

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
  const head = await headOf(blob);
  for (const kept of await keptRigs(store)) {
    const rig = newest(kept);
    if (kept.header === null || rig === null) continue;
    const heading = tableHeading(head, rig.dialect);
    if (heading !== null && writeJson(heading) === writeJson(kept.header)) return rig;
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
  const header = tableHeading(await headOf(blob), rig.dialect);
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
