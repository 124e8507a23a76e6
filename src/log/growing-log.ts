import type { Log } from '#formats/log.ts';
import type { Result } from '#formats/problem.ts';
import { createLogReader, type LogReader, type ReadOptions } from './read-log.ts';
import { isPacked } from './sheet-rows.ts';

/** So many of the last bytes read tell whether a file goes on where it was, or is another one of the same name. */
const REMEMBERED = 256;

/**
 * A log that a logger is still writing, read as it comes: only what was added is pushed. App and command line both look at a file by
 * this, so that they say the same.
 */
export class GrowingLog {
  private readonly options: ReadOptions;
  private reader: LogReader;
  /** It is no text that could be followed. */
  isPacked = false;
  /** Bytes read so far. */
  bytes = 0;
  /** The last of them, at most 256. */
  tail: Uint8Array<ArrayBuffer> = new Uint8Array(0);

  constructor(options: ReadOptions) {
    this.options = options;
    this.reader = createLogReader(options);
  }

  /** Whether a file goes on from what was read: it is not shorter, and the bytes before the new ones are those that were read last. */
  goesOn(size: number, before: Uint8Array): boolean {
    return (
      size >= this.bytes &&
      before.length === this.tail.length &&
      before.every((byte, i) => byte === this.tail[i])
    );
  }

  /** The file was begun anew: everything read so far is of another run. */
  begin(): void {
    this.reader = createLogReader(this.options);
    this.isPacked = false;
    this.bytes = 0;
    this.tail = new Uint8Array(0);
  }

  /** The next bytes; they are not kept. */
  push(chunk: Uint8Array): void {
    if (this.bytes === 0) this.isPacked = isPacked(chunk);
    if (!this.isPacked) this.reader.push(chunk);
    this.bytes += chunk.length;
    const last = new Uint8Array(Math.min(REMEMBERED, this.tail.length + chunk.length));
    const own = chunk.subarray(Math.max(0, chunk.length - last.length));
    last.set(own, last.length - own.length);
    if (own.length < last.length)
      last.set(this.tail.subarray(this.tail.length - (last.length - own.length)), 0);
    this.tail = last;
  }

  /**
   * The log as far as it has come; a half-written last line waits.
   * @param sha256 of the bytes read so far
   */
  soFar(sha256: string | null): Result<Log> {
    if (this.isPacked)
      return {
        ok: false,
        problems: [
          {
            code: 'no-table',
            file: this.options.fileName,
            reason:
              'it is a spreadsheet or another packed file, which is written as a whole and cannot be followed',
          },
        ],
      };
    return this.reader.soFar({ bytes: this.bytes, sha256 });
  }
}
