import { readSync } from 'node:fs';
import type { FileHandle } from 'node:fs/promises';
import { performance } from 'node:perf_hooks';
import { behindLineFeed } from '#log/far-rows.ts';
import type { LogReader } from '#log/read-log.ts';
import type { ChannelReader } from './channel-reader.ts';

/** The share of a file that this thread reads itself. */
const NEAR = 0.5;
/** How much of the near part is looked at for how long its rows are. */
const SAMPLES = 8,
  SAMPLE = 8192;
const LF = 10;
/** Where the other thread has taken so many times as long as the near rows took here, it is stuck. */
export const MUCH_LONGER = 10;

/** Hands the pieces of a file to a reader, while another thread reads the rows from somewhere in it on. */
export class FarPart {
  private readonly thread: ChannelReader;
  private readonly reader: LogReader;
  private readonly file: FileHandle;
  /** Where the far rows are looked for from; their first one once this thread has come to it, -1 before. */
  private readonly from: number;
  private start = -1;
  private isBegun = false;
  /** The layout is settled with the first piece or not at all. */
  private isAsked = false;
  private bytes = 0;
  private readonly size: number;
  private readonly began_ms = performance.now();

  constructor(thread: ChannelReader, reader: LogReader, file: FileHandle, size: number) {
    this.thread = thread;
    this.reader = reader;
    this.file = file;
    this.size = size;
    this.from = Math.floor(NEAR * size);
  }

  /** The next piece of the file. */
  push(piece: Uint8Array): void {
    const at = this.bytes;
    this.bytes += piece.length;
    if (this.start >= 0) return;
    if (!this.isBegun || this.bytes <= this.from) {
      this.reader.push(piece);
      if (!this.isAsked) this.begin();
      return;
    }
    const before = Math.max(0, this.from - at),
      behind = behindLineFeed(piece.subarray(before));
    if (behind >= 0) this.start = at + before + behind;
    this.reader.push(behind >= 0 ? piece.subarray(0, before + behind) : piece);
  }

  private begin(): void {
    this.isAsked = true;
    const far = this.bytes < this.from ? this.reader.far(this.from, this.rowBytes()) : null;
    this.isBegun = far !== null;
    if (far !== null) this.thread.beginFar({ far, file: this.file.fd, from: this.from, size: this.size });
  }

  /** Bytes of a row, by a few samples of the near part; as in its head where there is no line end. */
  private rowBytes(): number | undefined {
    const piece = new Uint8Array(SAMPLE);
    let bytes = 0,
      ends = 0;
    for (let k = 1; k <= SAMPLES; k++) {
      const read = readSync(this.file.fd, piece, 0, SAMPLE, Math.floor((this.from * k) / SAMPLES) - SAMPLE);
      bytes += read;
      for (let p = 0; p < read; p++) if (piece[p] === LF) ends++;
    }
    return ends === 0 ? undefined : bytes / ends;
  }

  /** All near rows are read: what follows need not be pushed. */
  get isNearDone(): boolean {
    return this.start >= 0;
  }

  /**
   * Takes over what the thread has read, and reads what it has left.
   * @param most of the file's bytes, where all were pushed; else it is read to its end
   * @returns how many bytes the file has
   */
  async end(most = Infinity): Promise<number> {
    if (!this.isBegun) return this.bytes;
    const far = await this.thread.awaitFar(MUCH_LONGER * (performance.now() - this.began_ms));
    const isTaken = this.reader.takeFar(far?.start === this.start ? far : null);
    if (this.start < 0) return this.bytes;
    let position = isTaken && far !== null ? far.end : this.start;
    const piece = new Uint8Array(1024 * 1024);
    while (position < most) {
      const { bytesRead } = await this.file.read(piece, 0, Math.min(piece.length, most - position), position);
      if (bytesRead === 0) break;
      this.reader.push(piece.subarray(0, bytesRead));
      position += bytesRead;
    }
    return position;
  }
}
