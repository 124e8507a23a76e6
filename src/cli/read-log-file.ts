import { createHash } from 'node:crypto';
import { open, stat } from 'node:fs/promises';
import path from 'node:path';
import type { Log } from '#formats/log.ts';
import type { Result } from '#formats/problem.ts';
import type { Rig } from '#formats/rig.ts';
import { createLogReader } from '#log/read-log.ts';
import { isPacked } from '#log/sheet-rows.ts';
import { WORTH_A_THREAD_bytes } from './channel-reader.ts';
import { shownName, STANDARD } from './input-file.ts';
import { readWorkbook } from './read-workbook.ts';
import { systemCode, systemReason } from './system-error.ts';
import type { Terminal } from './terminal.ts';

/** A log, and its bytes where they are wanted for a record. */
export interface ReadLogFile {
  log: Log;
  bytes: Uint8Array | null;
}

const PIECE = 1024 * 1024;

/**
 * Reads a log in one pass, piece by piece: the reader's columns and the hash are all that stays.
 * @param keep the bytes are wanted too
 */
export async function readLogFile(
  name: string,
  rig: Rig | null,
  keep: boolean,
  terminal: Terminal,
): Promise<Result<ReadLogFile>> {
  const fileName = name === STANDARD ? null : path.basename(name);
  // Not there, or no file: the reading says so below.
  const size = name === STANDARD ? null : ((await stat(name).catch(() => null))?.size ?? null);
  const reader = createLogReader({
    fileName,
    rig,
    ...(size === null ? {} : { size, shared: size > WORTH_A_THREAD_bytes }),
  });
  const hash = createHash('sha256');
  const pieces: Uint8Array[] = [];
  let bytes = 0,
    packed = false;
  try {
    const source: AsyncIterable<Uint8Array> = name === STANDARD ? process.stdin : piecesOf(name);
    for await (const piece of source) {
      if (bytes === 0) packed = isPacked(piece);
      hash.update(piece);
      if (!packed) reader.push(piece);
      if (keep || packed) pieces.push(piece.slice());
      bytes += piece.length;
      terminal.progress(`Reading ${shownName(name)}${size ? `: ${Math.floor((bytes / size) * 100)} %` : ''}`);
    }
  } catch (error) {
    const code = systemCode(error);
    if (code === null) throw error;
    return {
      ok: false,
      problems: [{ code: 'file-not-readable', file: shownName(name), reason: systemReason(code) }],
    };
  } finally {
    terminal.progress(null);
  }
  const sha256 = hash.digest('hex');
  const read = packed
    ? await readWorkbook(Buffer.concat(pieces), { fileName, rig }, sha256)
    : reader.finish({ bytes, sha256 });
  return read.ok
    ? { ok: true, value: { log: read.value, bytes: keep ? Buffer.concat(pieces) : null } }
    : read;
}

/**
 * A file piece by piece, in two pieces by turns: while one is worked on, the system fills the other. Fresh ones for each piece cost the
 * system more than the reading itself.
 */
async function* piecesOf(name: string): AsyncGenerator<Uint8Array> {
  const file = await open(name);
  let piece = new Uint8Array(PIECE),
    next = new Uint8Array(PIECE);
  try {
    let reading = file.read(piece, 0, PIECE);
    for (;;) {
      const { bytesRead } = await reading;
      if (bytesRead === 0) return;
      const filled = piece;
      [piece, next] = [next, piece];
      reading = file.read(piece, 0, PIECE);
      // Whoever has stopped listening by then needs no word of what became of it.
      reading.catch(() => undefined);
      yield filled.subarray(0, bytesRead);
    }
  } finally {
    await file.close();
  }
}
