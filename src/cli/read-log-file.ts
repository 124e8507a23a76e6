import { createHash } from 'node:crypto';
import { open, type FileHandle } from 'node:fs/promises';
import path from 'node:path';
import { performance } from 'node:perf_hooks';
import type { Log } from '#formats/log.ts';
import type { Result } from '#formats/problem.ts';
import type { Rig } from '#formats/rig.ts';
import { createLogReader } from '#log/read-log.ts';
import { isPacked } from '#log/sheet-rows.ts';
import { WORTH_A_THREAD_bytes, type ChannelReader } from './channel-reader.ts';
import { FarPart, MUCH_LONGER } from './far-part.ts';
import { sumOf } from './file-sum.ts';
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
 * @param thread reads the far rows of a large file meanwhile
 */
export async function readLogFile(
  name: string,
  rig: Rig | null,
  keep: boolean,
  terminal: Terminal,
  thread: ChannelReader | null = null,
): Promise<Result<ReadLogFile>> {
  const fileName = name === STANDARD ? null : path.basename(name);
  const began_ms = performance.now();
  const hash = createHash('sha256');
  const pieces: Uint8Array[] = [];
  let bytes = 0,
    packed = false;
  let file: FileHandle | null = null,
    read: Result<Log>;
  try {
    if (name !== STANDARD) file = await open(name);
    const before = (await file?.stat()) ?? null,
      size = before?.size ?? null;
    const reader = createLogReader({
      fileName,
      rig,
      ...(size === null ? {} : { size, shared: size > WORTH_A_THREAD_bytes }),
    });
    const far = thread && file && size !== null ? new FarPart(thread, reader, file, size) : null;
    // Bytes that are wanted here are all read here, and summed up on the way.
    const apart = thread && file && size !== null && !keep ? { thread, file: file.fd } : null;
    if (size !== null) apart?.thread.beginSum(apart.file, size);
    const source: AsyncIterable<Uint8Array> = file === null ? process.stdin : piecesOf(file);
    for await (const piece of source) {
      if (bytes === 0) packed = isPacked(piece);
      if (apart === null && !packed) hash.update(piece);
      if (!packed) (far ?? reader).push(piece);
      if (keep || packed) pieces.push(piece.slice());
      bytes += piece.length;
      terminal.progress(`Reading ${shownName(name)}${size ? `: ${Math.floor((bytes / size) * 100)} %` : ''}`);
      if (apart !== null && far?.isNearDone === true) break;
    }
    if (far !== null && !packed) bytes = await far.end(apart === null ? bytes : Infinity);
    if (packed) read = await readWorkbook(Buffer.concat(pieces), { fileName, rig }, sumOfAll(pieces));
    else if (apart === null) read = reader.finish({ bytes, sha256: hash.digest('hex') });
    else {
      apart.thread.askSum(bytes);
      const finished = reader.finish({ bytes, sha256: null });
      const sha256 =
        (await apart.thread.awaitSum(MUCH_LONGER * (performance.now() - began_ms))) ??
        sumOf(apart.file, bytes);
      read = finished.ok
        ? { ok: true, value: { ...finished.value, source: { ...finished.value.source, sha256 } } }
        : finished;
    }
    const after = (await file?.stat()) ?? null;
    // Written over meanwhile: the two threads may have read two logs. What a logger adds at the end does no harm.
    if (far !== null && before?.mtimeMs !== after?.mtimeMs && (after?.size ?? 0) <= (before?.size ?? 0))
      return await readLogFile(name, rig, keep, terminal);
  } catch (error) {
    const code = systemCode(error);
    if (code === null) throw error;
    return {
      ok: false,
      problems: [{ code: 'file-not-readable', file: shownName(name), reason: systemReason(code) }],
    };
  } finally {
    await file?.close();
    terminal.progress(null);
  }
  return read.ok
    ? { ok: true, value: { log: read.value, bytes: keep ? Buffer.concat(pieces) : null } }
    : read;
}

function sumOfAll(pieces: readonly Uint8Array[]): string {
  const hash = createHash('sha256');
  for (const piece of pieces) hash.update(piece);
  return hash.digest('hex');
}

/**
 * A file piece by piece, in two pieces by turns: while one is worked on, the system fills the other. Fresh ones for each piece cost the
 * system more than the reading itself.
 */
async function* piecesOf(file: FileHandle): AsyncGenerator<Uint8Array> {
  let piece = new Uint8Array(PIECE),
    next = new Uint8Array(PIECE);
  let reading = file.read(piece, 0, PIECE);
  try {
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
    // The file can be closed only once nothing is read from it.
    await reading.catch(() => undefined);
  }
}
