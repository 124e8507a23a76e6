import { createSHA256, type IHasher } from 'hash-wasm';
import { assess, type Assessed } from '#assessment/assess.ts';
import { soFarOf } from '#assessment/so-far.ts';
import type { Problem } from '#formats/problem.ts';
import type { SoFar } from '#formats/so-far.ts';
import { GrowingLog } from '#log/growing-log.ts';
import type { Judging, LogFile, Reading } from './messages.ts';
import { notReadable } from './read-file.ts';

/** What one look at a file that grows is answered with. */
export interface LookAnswer {
  /** The run as far as it has come; null as long as it cannot be judged, `problems` says why. */
  run: (Assessed & { soFar: SoFar }) | null;
  problems: Problem[];
  /** The file was begun anew since the look before. */
  anew: boolean;
  /** Bytes that came since the look before. */
  added: number;
}

/** A file that is looked at again and again: only what was added is read. */
export interface FileLooks {
  look(file: LogFile, reading: Reading, judging: Judging): Promise<LookAnswer>;
}

/** Keeps the log that is followed at the moment; another file, or another reading of it, begins anew. */
export function createFileLooks(programVersion: string): FileLooks {
  let followed: { key: string; log: GrowingLog; hash: IHasher } | null = null;
  return {
    async look(file, reading, judging) {
      const key = JSON.stringify([file.key, reading]);
      if (followed?.key !== key) {
        const { rig, overrides } = reading;
        const log = new GrowingLog({ fileName: file.name, rig, overrides });
        followed = { key, log, hash: (await createSHA256()).init() };
      }
      const { log, hash } = followed;
      const nothing = (problems: Problem[], anew: boolean, added: number): LookAnswer => ({
        run: null,
        problems,
        anew,
        added,
      });
      let anew = false,
        added = 0;
      try {
        const before = await file.blob.slice(log.bytes - log.tail.length, log.bytes).arrayBuffer();
        anew = !log.goesOn(file.blob.size, new Uint8Array(before));
        if (anew) {
          log.begin();
          hash.init();
        }
        const stream = file.blob.slice(log.bytes).stream().getReader();
        for (;;) {
          const { done, value } = await stream.read();
          if (done) break;
          log.push(value);
          hash.update(value);
          added += value.length;
        }
      } catch (error) {
        // The logger wrote in this instant: what was read of this look may not be in the file, so the next one begins anew.
        followed = null;
        return nothing([notReadable(file.name, error)], anew, added);
      }
      const read = log.soFar(digestSoFar(hash));
      if (!read.ok) return nothing(read.problems, anew, added);
      const assessed = assess({
        log: read.value,
        rig: reading.rig,
        spec: judging.spec,
        judge: judging.judge,
        programVersion,
        complete: false,
      });
      if (!assessed.ok) return nothing(assessed.problems, anew, added);
      return { run: { ...assessed.value, soFar: soFarOf(assessed.value) }, problems: [], anew, added };
    },
  };
}

/** The hash of what was read so far, without ending it. */
function digestSoFar(hash: IHasher): string {
  const state = hash.save();
  const digest = hash.digest('hex');
  hash.load(state);
  return digest;
}
