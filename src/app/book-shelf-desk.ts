import { entryPath } from '#book/place.ts';
import type { KeptRig, KeptSpec } from '#formats/book.ts';
import { writeJson } from '#formats/number.ts';
import type { Rig } from '#formats/rig.ts';
import type { Spec } from '#formats/spec.ts';
import type { BookState, Step } from './book-desk.ts';

/** The newest version of kept limits or of a kept bench. */
export const newestSpec = ({ versions }: KeptSpec): Spec | null => versions.at(-1)?.spec ?? null;
export const newestRig = ({ versions }: KeptRig): Rig | null => versions.at(-1)?.rig ?? null;

const bare = (name: string): string => name.trim().toLowerCase();
const equal = (a: unknown, b: unknown): boolean => writeJson(a) === writeJson(b);

/** Kept limits that a spec is a version of, with the version's number from 1; null: it is kept nowhere. */
export function keptVersionOf(
  specs: readonly KeptSpec[],
  spec: Spec,
): { kept: KeptSpec; version: number } | null {
  for (const kept of specs) {
    const at = kept.removedAt === null ? kept.versions.findIndex((each) => equal(each.spec, spec)) : -1;
    if (at >= 0) return { kept, version: at + 1 };
  }
  return null;
}

/** Limits under a name; a later one of the same name is a version behind the earlier ones, which stay. */
export function createShelf(side: {
  state: () => BookState;
  edit: (step: Step, created?: KeptSpec[]) => Promise<boolean>;
  newId: () => string;
  at: () => string;
}): {
  keepSpec: (spec: Spec, name: string) => Promise<boolean>;
} {
  const entry = () => ({ id: side.newId(), revision: 1, changedAt: side.at(), removedAt: null });
  const add = (made: KeptSpec, said: string): Promise<boolean> => {
    const path = entryPath(made);
    return side.edit(
      {
        said,
        before: [{ path, change: { removedAt: side.at() } }],
        after: [{ path, change: { removedAt: null } }],
      },
      [made],
    );
  };
  return {
    keepSpec(given, name) {
      const spec: Spec = { ...given, name: name.trim() };
      const found = side
        .state()
        .specs.find((kept) => kept.removedAt === null && bare(newestSpec(kept)?.name ?? '') === bare(name));
      const version = { savedAt: side.at(), spec };
      if (found === undefined)
        return add(
          { format: 'overdrive-bench/book-spec', version: 1, ...entry(), versions: [version] },
          `Limits “${spec.name}” kept.`,
        );
      if (equal(newestSpec(found), spec)) return Promise.resolve(true);
      const path = entryPath(found);
      return side.edit({
        said: `Limits “${spec.name}” kept as version ${found.versions.length + 1}; what was judged by an earlier one stays as it is.`,
        before: [{ path, change: { versions: found.versions } }],
        after: [{ path, change: { versions: [...found.versions, version] } }],
      });
    },
  };
}
