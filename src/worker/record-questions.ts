import { assess } from '#assessment/assess.ts';
import type { Log } from '#formats/log.ts';
import type { Result } from '#formats/problem.ts';
import type { Verification } from '#formats/verification.ts';
import { joinLogs } from '#log/join-logs.ts';
import { readLog } from '#log/read-log.ts';
import { isPacked } from '#log/sheet-rows.ts';
import type { RecordFonts } from '#record/fonts.ts';
import type { RunAgain, VerifyTools } from '#record/verify-record.ts';
import { readWorkbook } from './read-workbook.ts';
import type { RecordAnswers, RecordRequest } from './record-messages.ts';
import { sha256Of } from './sha256.ts';

/** Holds a record against the log in it, as the command line does. */
export async function checkRecord(
  { record, logs }: Pick<RecordRequest & { kind: 'check-record' }, 'record' | 'logs'>,
  programVersion: string,
  fonts: () => Promise<RecordFonts>,
): Promise<Result<Verification>> {
  const { verifyRecord } = await import('#record/verify-record.ts');
  const bytesOf = async (file: File): Promise<{ fileName: string; bytes: Uint8Array }> => ({
    fileName: file.name,
    bytes: new Uint8Array(await file.arrayBuffer()),
  });
  const tools = { programVersion, fonts: await fonts(), sha256: sha256Of, judge: judgeAgain };
  return verifyRecord(await bytesOf(record), await Promise.all(logs.map(bytesOf)), tools);
}

/** Reads and judges the log of a record as it was when the record was made. */
async function judgeAgain(run: RunAgain): ReturnType<VerifyTools['judge']> {
  const logs: Log[] = [];
  for (const { fileName, bytes, sha256 } of run.logs) {
    const options = { fileName, rig: run.rig, overrides: run.columns, part: run.logs.length > 1 };
    const read: Result<Log> = isPacked(bytes)
      ? await logOfWorkbook(bytes, options, sha256)
      : readLog(bytes, { ...options, sha256 });
    if (!read.ok) return read;
    logs.push(read.value);
  }
  const joined = joinLogs(logs);
  return joined.ok ? assess({ ...run, log: joined.value }) : joined;
}
async function logOfWorkbook(
  bytes: Uint8Array,
  options: Parameters<typeof readWorkbook>[1],
  sha256: string,
): Promise<Result<Log>> {
  const read = await readWorkbook(new Blob([bytes.slice()]), options, sha256);
  return read.ok ? { ok: true, value: read.value.log } : read;
}

/** A shop's logo without anything but its picture. */
export async function cleanLogo(file: File): Promise<Result<RecordAnswers['clean-logo']>> {
  const { wholeLogo } = await import('#record/whole-picture.ts');
  return wholeLogo(new Uint8Array(await file.arrayBuffer()), file.name);
}
