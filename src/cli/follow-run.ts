import { createHash, type Hash } from 'node:crypto';
import path from 'node:path';
import { assess, type Assessed } from '#assessment/assess.ts';
import { soFarOf } from '#assessment/so-far.ts';
import type { Log } from '#formats/log.ts';
import type { Problem, Result } from '#formats/problem.ts';
import type { SoFar } from '#formats/so-far.ts';
import { GrowingLog } from '#log/growing-log.ts';
import { joinLogs } from '#log/join-logs.ts';
import type { AttachedFile } from '#record/record-input.ts';
import { followedFile, type Grown } from './follow-file.ts';
import { STANDARD } from './input-file.ts';
import type { JudgedRun, RunRequest } from './judge-run.ts';
import { programVersion } from './program.ts';
import { readLogFile } from './read-log-file.ts';
import type { Terminal } from './terminal.ts';

/** A run as one look found it. */
export interface Look {
  grown: Grown;
  /** The run so far; null as long as the log cannot be judged. */
  run: (Assessed & { soFar: SoFar }) | null;
  /** Why it cannot. */
  problems: readonly Problem[];
  /** Seconds since rows last came. */
  quiet_s: number;
}

/** For an attachment that came from standard input. */
const UNNAMED_LOG = 'log.csv';
/** A log that is only just begun: what these say mends itself. */
const early: readonly Problem['code'][] = ['empty-file', 'no-readings', 'no-table'];
/** Looking takes at most so large a share of the time, however long the log. */
const LOOKING_SHARE = 0.2;

/**
 * Reads the last of the logs again and again, only what was added, and judges the run as far as it has come. The parts before it are
 * read once.
 * @param every_s seconds between two looks
 * @param show says what a look found
 * @param stop resolves when it is to end; one more look is taken then
 * @returns the run at the last look, or why it never came to one
 */
export async function followRun(
  request: RunRequest,
  every_s: number,
  show: (look: Look) => Promise<Problem | null>,
  stop: Promise<void>,
  terminal: Terminal,
): Promise<Result<JudgedRun>> {
  const { rig, spec, judge, keep } = request;
  const name = request.logs.at(-1) ?? STANDARD;
  const before: Log[] = [];
  const files: AttachedFile[] = [];
  for (const part of request.logs.slice(0, -1)) {
    const read = await readLogFile(part, rig, keep, terminal);
    if (!read.ok) return read;
    before.push(read.value.log);
    if (read.value.bytes !== null)
      files.push({ fileName: read.value.log.source.fileName ?? UNNAMED_LOG, bytes: read.value.bytes });
  }

  const fileName = name === STANDARD ? null : path.basename(name);
  const log = new HashedLog(fileName, rig, keep);
  const file = followedFile(name);
  const judged = (): Result<Assessed & { soFar: SoFar }> => {
    const read = log.soFar(log.digest());
    if (!read.ok) return read;
    const joined = joinLogs([...before, read.value]);
    if (!joined.ok) return joined;
    const assessed = assess({ log: joined.value, rig, spec, judge, programVersion, complete: false });
    if (!assessed.ok) return assessed;
    return { ok: true, value: { ...assessed.value, soFar: soFarOf(assessed.value) } };
  };

  let stopped = false;
  const stopping = stop.then(() => void (stopped = true));
  let result: Result<Assessed & { soFar: SoFar }> = { ok: false, problems: [] };
  let first = true;
  let repeated: Problem['code'] | null = null;
  let rows = 0,
    cameAt = performance.now();
  for (;;) {
    const last = stopped;
    const began = performance.now();
    const grown = await file.look(log);
    if (grown.problem !== null && first) return { ok: false, problems: [grown.problem] };
    const changed = first || grown.added > 0 || grown.anew;
    first = false;
    if (changed) {
      result = judged();
      const now = result.ok ? result.value.assessment.log.rows : 0;
      if (now !== rows) cameAt = performance.now();
      rows = now;
      // A heading that lacks what is asked for does not get it by more rows: said twice over new ones, it is meant.
      const code = result.ok ? null : (result.problems[0]?.code ?? null);
      if (!result.ok && code !== null && !early.includes(code) && code === repeated) return result;
      if (log.isPacked && !result.ok) return result;
      if (grown.added > 0) repeated = code;
    }
    const refused = await show({
      grown,
      run: result.ok ? result.value : null,
      problems: result.ok ? [] : result.problems,
      quiet_s: (performance.now() - cameAt) / 1000,
    });
    if (refused !== null) return { ok: false, problems: [refused] };
    if (last || grown.ended) break;
    const took = performance.now() - began;
    await pauseUntil(stopping, Math.max(every_s * 1000, took / LOOKING_SHARE));
  }
  file.close();
  if (!result.ok) return result;
  if (keep) files.push({ fileName: fileName ?? UNNAMED_LOG, bytes: log.kept() });
  return { ok: true, value: { ...result.value, files } };
}

/** A pause that an end cuts short. */
function pauseUntil(end: Promise<void>, milliseconds: number): Promise<void> {
  return new Promise((resolve) => {
    const timer = setTimeout(resolve, milliseconds);
    void end.then(() => {
      clearTimeout(timer);
      resolve();
    });
  });
}

/** A growing log with the hash of what was read, and its bytes where a record wants them. */
class HashedLog extends GrowingLog {
  private hash: Hash = createHash('sha256');
  private readonly keep: boolean;
  private pieces: Uint8Array[] = [];

  constructor(fileName: string | null, rig: RunRequest['rig'], keep: boolean) {
    super({ fileName, rig });
    this.keep = keep;
  }
  override begin(): void {
    super.begin();
    this.hash = createHash('sha256');
    this.pieces = [];
  }
  override push(chunk: Uint8Array): void {
    super.push(chunk);
    this.hash.update(chunk);
    if (this.keep) this.pieces.push(chunk.slice());
  }
  digest(): string {
    return this.hash.copy().digest('hex');
  }
  kept(): Uint8Array {
    return Buffer.concat(this.pieces);
  }
}
