import { open, type FileHandle } from 'node:fs/promises';
import type { Stats } from 'node:fs';
import type { Problem } from '#formats/problem.ts';
import { shownName, STANDARD } from './input-file.ts';
import { systemCode, systemReason } from './system-error.ts';

/** What one look at a growing file found. */
export interface Grown {
  /** Bytes that came since the look before. */
  added: number;
  /** The file was begun anew: it is shorter, or another one of the same name. */
  anew: boolean;
  /** Nothing more will come. */
  ended: boolean;
  /** It cannot be read at the moment. */
  problem: Problem | null;
}

/** Takes the bytes of a growing file, and knows where it was. */
export interface Taker {
  readonly bytes: number;
  readonly tail: Uint8Array;
  goesOn(size: number, before: Uint8Array): boolean;
  begin(): void;
  push(chunk: Uint8Array): void;
}

/** A file, or standard input, that is looked at again and again. */
export interface FollowedFile {
  look(taker: Taker): Promise<Grown>;
  /** Lets go of what would keep the program from ending. */
  close(): void;
}

const PIECE = 1024 * 1024;

/** The named file, looked at by its name each time: a logger that puts a new file in its place is noticed. */
export function followedFile(name: string): FollowedFile {
  return name === STANDARD ? standardInput() : namedFile(name);
}

function namedFile(name: string): FollowedFile {
  let known: Pick<Stats, 'dev' | 'ino'> | null = null;
  return {
    async look(taker) {
      let file: FileHandle | null = null;
      try {
        file = await open(name);
        const { dev, ino, size } = await file.stat();
        const before = await readAt(file, taker.bytes - taker.tail.length, taker.tail.length);
        const same = known === null || (known.dev === dev && known.ino === ino);
        const anew = !same || !taker.goesOn(size, before);
        if (anew) taker.begin();
        known = { dev, ino };
        return { added: await take(file, taker), anew, ended: false, problem: null };
      } catch (error) {
        const code = systemCode(error);
        if (code === null) throw error;
        const problem: Problem = { code: 'file-not-readable', file: name, reason: systemReason(code) };
        return { added: 0, anew: false, ended: false, problem };
      } finally {
        await file?.close();
      }
    },
    close: () => undefined,
  };
}

/** Everything from where the taker is to the end. */
async function take(file: FileHandle, taker: Taker): Promise<number> {
  const piece = new Uint8Array(PIECE);
  let added = 0;
  for (;;) {
    const { bytesRead } = await file.read(piece, 0, PIECE, taker.bytes);
    if (bytesRead === 0) return added;
    taker.push(piece.subarray(0, bytesRead));
    added += bytesRead;
  }
}

async function readAt(file: FileHandle, position: number, length: number): Promise<Uint8Array> {
  if (length === 0) return new Uint8Array(0);
  const bytes = new Uint8Array(length);
  const { bytesRead } = await file.read(bytes, 0, length, position);
  return bytes.subarray(0, bytesRead);
}

/** What a program writes into our input, as it comes. */
function standardInput(): FollowedFile {
  const waiting: Uint8Array[] = [];
  let ended = false,
    begun = false,
    failed: unknown = null;
  const begin = (): void => {
    begun = true;
    process.stdin.on('data', (piece: Buffer) => waiting.push(piece));
    process.stdin.on('end', () => (ended = true));
    process.stdin.on('error', (error) => (failed = error));
  };
  return {
    // Not async: nothing is waited for, what has come is there.
    look(taker) {
      if (!begun) begin();
      // Ended is asked first, so that what came before the end is never left behind.
      const over = ended;
      let added = 0;
      for (const piece of waiting.splice(0)) {
        taker.push(piece);
        added += piece.length;
      }
      if (failed === null) return Promise.resolve({ added, anew: false, ended: over, problem: null });
      const code = systemCode(failed);
      if (code === null)
        return Promise.reject(failed instanceof Error ? failed : new Error('standard input'));
      const problem: Problem = {
        code: 'file-not-readable',
        file: shownName(STANDARD),
        reason: systemReason(code),
      };
      return Promise.resolve({ added, anew: false, ended: true, problem });
    },
    close: () => void process.stdin.destroy(),
  };
}
