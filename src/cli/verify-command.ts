import { createHash } from 'node:crypto';
import path from 'node:path';
import { assess } from '#assessment/assess.ts';
import type { Log } from '#formats/log.ts';
import { writeJson } from '#formats/number.ts';
import type { Result } from '#formats/problem.ts';
import { joinLogs } from '#log/join-logs.ts';
import { readLog } from '#log/read-log.ts';
import { isPacked } from '#log/sheet-rows.ts';
import type { AttachedFile } from '#record/record-input.ts';
import type { RunAgain, VerifyTools } from '#record/verify-record.ts';
import type { Command } from './command.ts';
import { exitCode } from './exit-code.ts';
import { checkFiles, giveOut } from './give-out.ts';
import { readBytes, STANDARD } from './input-file.ts';
import { UNNAMED_LOG } from './judge-run.ts';
import { jsonOption } from './judging-options.ts';
import { programVersion } from './program.ts';
import { readWorkbook } from './read-workbook.ts';
import { verificationText } from './verify-text.ts';

const sha256 = (bytes: Uint8Array): string => createHash('sha256').update(bytes).digest('hex');

export const verifyCommand: Command = {
  name: 'verify',
  summary:
    'Holds a delivery record against the log in it: judges and prints it again, and says what no longer agrees.',
  forms: ['verify RECORD.pdf [LOG…] [--json FILE|-]'],
  options: { json: jsonOption },
  notes: [
    'LOG is a copy of the log that lies beside the record: it is held against the hash in the record, and judged where the record holds no log.',
    'It tells whether record, log and numbers agree with each other, not who made them: a record made anew from an altered log agrees with itself, but not with the hash on the sheet that the customer has.',
  ],
  async run(given, terminal) {
    const [name, ...logs] = given.operands;
    if (name === undefined) return { usage: 'name the record to check' };
    const json = given.option('json');
    const refused = checkFiles({ inputs: given.operands, json, records: [] });
    if (refused) return refused;
    const files: AttachedFile[] = [];
    for (const each of [name, ...logs]) {
      const read = await readBytes(each);
      if (!read.ok) return read;
      files.push({ fileName: each === STANDARD ? UNNAMED_LOG : path.basename(each), bytes: read.value });
    }
    const [record, ...named] = files;
    if (record === undefined) return { usage: 'name the record to check' };
    terminal.progress('Judging and printing it again');
    const { verifyRecord } = await import('#record/verify-record.ts');
    const { recordFonts } = await import('./record-fonts.ts');
    const tools: VerifyTools = { programVersion, fonts: recordFonts(), sha256, judge: judgeAgain };
    const verified = await verifyRecord(record, named, tools);
    terminal.progress(null);
    if (!verified.ok) return verified;
    const verification = verified.value;
    const stopped = await giveOut(
      { json, data: writeJson(verification), text: () => verificationText(verification, terminal) },
      [],
      terminal,
    );
    const { agrees } = verification;
    return stopped ?? { exit: agrees === null ? exitCode.open : agrees ? exitCode.done : exitCode.fails };
  },
};

/** Reads and judges the log of a record as it was when the record was made. */
async function judgeAgain(run: RunAgain): ReturnType<VerifyTools['judge']> {
  const { rig, spec, judge, programVersion: version, complete } = run;
  const logs: Log[] = [];
  for (const { fileName, bytes, sha256: hash } of run.logs) {
    const options = { fileName, rig, overrides: run.columns, part: run.logs.length > 1 };
    const read: Result<Log> = isPacked(bytes)
      ? await readWorkbook(Buffer.from(bytes), options, hash)
      : readLog(bytes, { ...options, sha256: hash });
    if (!read.ok) return read;
    logs.push(read.value);
  }
  const joined = joinLogs(logs);
  if (!joined.ok) return joined;
  return assess({ log: joined.value, rig, spec, judge, programVersion: version, complete });
}
