import { readFile } from 'node:fs/promises';
import path from 'node:path';
import type { Result } from '#formats/problem.ts';
import { systemCode, systemReason } from './system-error.ts';

/** Standard input or output by its name on the command line. */
export const STANDARD = '-';

/** A file as sentences name it. */
export const shownName = (name: string): string => (name === STANDARD ? 'standard input' : name);

/**
 * Reads one of our JSON files (spec, rig …) and checks its shape; null when none was named.
 * @param check its reader in formats/check.ts
 */
export async function readSettings<T>(
  name: string | null,
  check: (text: string, file: string | null) => Result<T>,
): Promise<Result<T | null>> {
  if (name === null) return { ok: true, value: null };
  const bytes = await readBytes(name);
  if (!bytes.ok) return bytes;
  return check(new TextDecoder().decode(bytes.value), name === STANDARD ? null : path.basename(name));
}

/** The bytes of a file or of standard input. */
export async function readBytes(name: string): Promise<Result<Uint8Array>> {
  try {
    if (name !== STANDARD) return { ok: true, value: await readFile(name) };
    const pieces: Buffer[] = [];
    for await (const piece of process.stdin as AsyncIterable<Buffer>) pieces.push(piece);
    return { ok: true, value: Buffer.concat(pieces) };
  } catch (error) {
    const code = systemCode(error);
    if (code === null) throw error;
    return {
      ok: false,
      problems: [{ code: 'file-not-readable', file: shownName(name), reason: systemReason(code) }],
    };
  }
}
