import { stat } from 'node:fs/promises';
import { assess, readingsOf, smoothingOf, type Assessed } from '#assessment/assess.ts';
import type { Judge } from '#formats/judge.ts';
import type { Log } from '#formats/log.ts';
import type { Result } from '#formats/problem.ts';
import type { Rig } from '#formats/rig.ts';
import type { Spec } from '#formats/spec.ts';
import { joinLogs } from '#log/join-logs.ts';
import type { AttachedFile } from '#record/record-input.ts';
import { ChannelReader, WORTH_A_THREAD_bytes } from './channel-reader.ts';
import { programVersion } from './program.ts';
import { readLogFile } from './read-log-file.ts';
import type { Terminal } from './terminal.ts';

/** A run to be read and judged. */
export interface RunRequest {
  /** The files of the run, one or its parts. */
  logs: readonly string[];
  rig: Rig | null;
  spec: Spec | null;
  judge: Judge | null;
  /** Keep the bytes of the logs for a record. */
  keep: boolean;
}

/** A judged run, and the bytes of its logs where they were asked for. */
export interface JudgedRun extends Assessed {
  files: AttachedFile[];
}

/** For an attachment that came from standard input. */
export const UNNAMED_LOG = 'log.csv';

/** Reads the files of a run one after another, joins them and judges. */
export async function judgeRun(request: RunRequest, terminal: Terminal): Promise<Result<JudgedRun>> {
  // It starts while the log is read.
  const thread = (await isWorthAThread(request.logs)) ? ChannelReader.start() : null;
  try {
    return await judgedWith(thread, request, terminal);
  } finally {
    await thread?.end();
  }
}

async function judgedWith(
  thread: ChannelReader | null,
  request: RunRequest,
  terminal: Terminal,
): Promise<Result<JudgedRun>> {
  const { rig, spec, judge } = request;
  const logs: Log[] = [];
  const kept: { sha256: string | null; file: AttachedFile }[] = [];
  for (const name of request.logs) {
    const read = await readLogFile(name, rig, request.keep, terminal, thread);
    if (!read.ok) return read;
    const { log, bytes } = read.value;
    const { fileName, sha256 } = log.source;
    if (bytes !== null) kept.push({ sha256, file: { fileName: fileName ?? UNNAMED_LOG, bytes } });
    logs.push(log);
  }
  const joined = joinLogs(logs);
  if (!joined.ok) return joined;
  thread?.begin({ log: joined.value, rig, smoothing: smoothingOf(spec) });
  // As they stand in the log: by time, each once.
  const { parts, source } = joined.value;
  const files = (parts.length > 0 ? parts : [source]).flatMap(
    ({ sha256 }) => kept.find((each) => each.sha256 === sha256)?.file ?? [],
  );
  terminal.progress('Judging the run');
  const readings = thread === null ? undefined : readingsOf(joined.value, rig, thread);
  const assessed = assess({
    log: joined.value,
    rig,
    spec,
    judge,
    programVersion,
    ...(readings && { readings }),
  });
  terminal.progress(null);
  return assessed.ok ? { ok: true, value: { ...assessed.value, files } } : assessed;
}

/** One large file; a run of several files has its columns put together anew, where no other thread sees them. */
async function isWorthAThread(logs: readonly string[]): Promise<boolean> {
  const [only, ...more] = logs;
  if (only === undefined || more.length > 0) return false;
  const found = await stat(only).catch(() => null);
  return (found?.size ?? 0) > WORTH_A_THREAD_bytes;
}
