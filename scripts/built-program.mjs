// Where the built command line lies, and whether it still is what its sources say.
import { createHash } from 'node:crypto';
import {
  closeSync,
  existsSync,
  openSync,
  readdirSync,
  readFileSync,
  readSync,
  statSync,
  utimesSync,
} from 'node:fs';
import path from 'node:path';
import { fileURLToPath } from 'node:url';

export const root = path.dirname(path.dirname(fileURLToPath(import.meta.url)));
export const builtProgram = path.join(root, 'dist', 'cli', 'overdrive-bench.mjs');

/** Rooms that the command line is not made from. */
const otherRooms = new Set(['app', 'worker']);
const STAMP = '// sources: ';

/** Every file that the program is made from, sorted. */
function sources() {
  const files = ['package.json', 'vite.cli.config.ts', 'scripts/load-program.mjs'].map((name) =>
    path.join(root, name),
  );
  const walk = (folder) => {
    for (const entry of readdirSync(folder, { withFileTypes: true })) {
      // Put together by hand: `path.join` for six hundred files is a fiftieth of a start.
      const name = folder + path.sep + entry.name;
      if (entry.isDirectory()) walk(name);
      else if (entry.name.endsWith('.ts') && !entry.name.endsWith('.d.ts')) files.push(name);
    }
  };
  for (const room of readdirSync(path.join(root, 'src'), { withFileTypes: true }))
    if (room.isDirectory() && !otherRooms.has(room.name)) walk(path.join(root, 'src', room.name));
  return files.sort();
}

/** First line of the built file: a digest of its sources, so that a copied checkout, whose times say nothing, is not built again. */
export function stampOf(files = sources()) {
  const hash = createHash('sha256');
  for (const file of files)
    hash.update(path.relative(root, file)).update('\0').update(readFileSync(file)).update('\0');
  return `${STAMP}${hash.digest('hex')}`;
}

/** Whether the program has to be built: not there, or not made from the sources as they are. */
export function isStale() {
  if (!existsSync(path.join(root, 'src'))) return !existsSync(builtProgram);
  if (!existsSync(builtProgram)) return true;
  const at = statSync(builtProgram).mtimeMs;
  const files = sources();
  if (files.every((file) => statSync(file).mtimeMs <= at)) return false;
  const stamp = stampOf(files);
  if (firstLine(builtProgram, stamp.length) !== stamp) return true;
  try {
    // The same sources with newer times: remembered, so that the next start need not read them.
    const now = new Date();
    utimesSync(builtProgram, now, now);
  } catch {
    // A read-only checkout: reading the sources again costs some milliseconds.
  }
  return false;
}

function firstLine(file, length) {
  const handle = openSync(file, 'r');
  try {
    const bytes = Buffer.alloc(length);
    readSync(handle, bytes, 0, length, 0);
    return bytes.toString('latin1');
  } finally {
    closeSync(handle);
  }
}
