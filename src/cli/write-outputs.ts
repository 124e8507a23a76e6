import { accessSync, constants, realpathSync, renameSync, statSync, type Stats } from 'node:fs';
import { open } from 'node:fs/promises';
import path from 'node:path';
import type { Problem } from '#formats/problem.ts';
import { STANDARD } from './input-file.ts';
import { removeUnfinished, whileUnfinished } from './interruption.ts';
import { systemCode, systemReason } from './system-error.ts';

/** One file to be written. */
export interface Output {
  name: string;
  content: Uint8Array | Iterable<string>;
}

const PIECE = 1024 * 1024;

/**
 * Looks, before the work is begun, whether every output can be put where it is wanted: not over an input, not where a folder stands, into
 * a folder that is there and may be written to.
 */
export function checkOutputs(outputs: readonly string[], inputs: readonly string[]): Problem[] {
  const taken = new Map<string, string>();
  for (const input of inputs) {
    const found = fileAt(input);
    if (found) taken.set(identity(found), input);
  }
  return outputs.flatMap((file) => {
    const reason = refusal(file, taken);
    return reason === null ? [] : [{ code: 'output-not-writable' as const, file, reason }];
  });
}

function refusal(name: string, taken: ReadonlyMap<string, string>): string | null {
  try {
    const found = fileAt(name);
    if (found?.isDirectory()) return 'a folder of that name is there';
    const input = found ? taken.get(identity(found)) : undefined;
    if (input !== undefined) return `it is an input of this command (${input}), and inputs are never changed`;
    if (found && !found.isFile()) return null;
    accessSync(path.dirname(placeOf(name)), constants.W_OK);
    return null;
  } catch (error) {
    const code = systemCode(error);
    if (code === null) throw error;
    return code === 'ENOENT' ? `there is no folder ${path.dirname(name)}` : systemReason(code);
  }
}

/**
 * Writes every output beside its place, flushed, then moves them all there; when one fails, none is moved. What is not a plain file (a
 * device, a pipe) is written to as it is.
 */
export async function writeOutputs(outputs: readonly Output[]): Promise<Problem | null> {
  const ready: { made: string; place: string; finished: () => void }[] = [];
  let current = '';
  try {
    for (const { name, content } of outputs) {
      current = name;
      const found = fileAt(name);
      if (found && !found.isFile()) {
        await writeTo(name, 'w', content);
        continue;
      }
      const place = placeOf(name);
      const made = path.join(path.dirname(place), `.${path.basename(place)}.${process.pid}.unfinished`);
      const finished = whileUnfinished(made);
      await writeTo(made, 'w', content, found?.mode);
      ready.push({ made, place, finished });
    }
    for (const { made, place, finished } of ready) {
      current = place;
      renameSync(made, place);
      finished();
    }
    return null;
  } catch (error) {
    removeUnfinished();
    const code = systemCode(error);
    if (code === null) throw error;
    return { code: 'output-not-writable', file: current, reason: systemReason(code) };
  }
}

async function writeTo(
  file: string,
  flags: string,
  content: Output['content'],
  mode?: number,
): Promise<void> {
  const handle = await open(file, flags, mode);
  try {
    if (content instanceof Uint8Array) await handle.writeFile(content);
    else {
      let waiting = '';
      for (const piece of content) {
        waiting += piece;
        if (waiting.length < PIECE) continue;
        await handle.appendFile(waiting);
        waiting = '';
      }
      await handle.appendFile(waiting);
    }
    // A device has nothing to flush and says so by an error.
    if ((await handle.stat()).isFile()) await handle.sync();
  } finally {
    await handle.close();
  }
}

/** Where the bytes will lie: behind a link, the file that it leads to. */
function placeOf(name: string): string {
  try {
    return realpathSync(name);
  } catch {
    return path.resolve(name);
  }
}

function fileAt(name: string): Stats | null {
  if (name === STANDARD) return null;
  return statSync(name, { throwIfNoEntry: false }) ?? null;
}
/** The same file by any of its names. */
const identity = ({ dev, ino }: Stats): string => `${dev}:${ino}`;
