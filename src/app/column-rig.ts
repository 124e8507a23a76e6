import type { Rig, RigChannel } from '#formats/rig.ts';
import type { ColumnOverride } from '#worker/messages.ts';

/** How a file is laid out, as somebody put it right; what is left out is as it was worked out. */
export interface FileLayout {
  time?: Rig['time'];
  dialect?: Rig['dialect'];
}

/** A rig that holds only what was put right by hand. */
const BY_HAND = 'Put right by hand';

/** Keys with a value; an undefined one takes what stood there away. */
function given<T extends object>(before: T | undefined, change: T | undefined): T | undefined {
  const entries = Object.entries({ ...before, ...change }).filter(([, value]) => value !== undefined);
  return entries.length === 0 ? undefined : (Object.fromEntries(entries) as T);
}

/** A layout with a change made; undefined in the change takes a choice back. */
export function withChange(before: FileLayout, change: FileLayout): FileLayout {
  const time = given(before.time, change.time),
    dialect = given(before.dialect, change.dialect);
  return { ...(time === undefined ? {} : { time }), ...(dialect === undefined ? {} : { dialect }) };
}

/** The rig that a log is read with: the bench's, with the layout put right by hand over it; null where nothing is said. */
export function rigToRead(base: Rig | null, layout: FileLayout): Rig | null {
  if (layout.time === undefined && layout.dialect === undefined) return base;
  const { time, dialect } = withChange({ time: base?.time, dialect: base?.dialect }, layout);
  return {
    ...(base ?? { format: 'overdrive-bench/rig', version: 1, name: BY_HAND }),
    ...(time === undefined ? {} : { time }),
    ...(dialect === undefined ? {} : { dialect }),
  };
}

/**
 * Everything that was said of a file as one rig file: the bench, the layout, roles and units of columns. Read with it and nothing
 * else, the file gives the same.
 */
export function rigToKeep(
  base: Rig | null,
  layout: FileLayout,
  overrides: readonly ColumnOverride[],
  name: string,
): Rig {
  const channels: RigChannel[] = [...(base?.channels ?? [])];
  for (const { column, role, unit } of overrides) {
    const said = { ...(role === undefined ? {} : { role }), ...(unit === undefined ? {} : { unit }) };
    const at = channels.findIndex((channel) => channel.column === column);
    const before = channels[at];
    if (before === undefined) channels.push({ column, ...said });
    else channels[at] = { ...before, ...said };
  }
  const rig = rigToRead(base, layout);
  return {
    ...(rig ?? { format: 'overdrive-bench/rig', version: 1 }),
    name: name.trim(),
    ...(channels.length === 0 ? {} : { channels }),
  };
}
