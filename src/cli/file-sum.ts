import { createHash } from 'node:crypto';
import { readSync } from 'node:fs';

const PIECE = 1024 * 1024;

/** SHA-256 of the first bytes of an open file, some at a time, for a thread that has other things to do in between. */
export class FileSum {
  private readonly file: number;
  private readonly hash = createHash('sha256');
  private readonly piece = new Uint8Array(PIECE);
  private position = 0;

  /** @param file the open file */
  constructor(file: number) {
    this.file = file;
  }

  /** Takes up to a megabyte more. @param until no byte behind so many @returns whether there is more to take */
  take(until: number): boolean {
    const most = Math.min(PIECE, until - this.position);
    const bytes = most > 0 ? readSync(this.file, this.piece, 0, most, this.position) : 0;
    if (bytes > 0) this.hash.update(this.piece.subarray(0, bytes));
    this.position += bytes;
    return bytes > 0 && this.position < until;
  }

  /** The sum, once; null where other than so many bytes were taken. */
  digest(bytes: number): string | null {
    return this.position === bytes ? this.hash.digest('hex') : null;
  }
}

/** SHA-256 of the first bytes of an open file; null where it has fewer. */
export function sumOf(file: number, bytes: number): string | null {
  const sum = new FileSum(file);
  while (sum.take(bytes));
  return sum.digest(bytes);
}
