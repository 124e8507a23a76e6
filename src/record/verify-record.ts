import type { Assessment } from '#formats/assessment.ts';
import { readAssessment, readRecordData } from '#formats/check.ts';
import type { Judge } from '#formats/judge.ts';
import { writeJson } from '#formats/number.ts';
import { problemSentence, type Problem, type Result } from '#formats/problem.ts';
import type { RecordData } from '#formats/record-data.ts';
import type { Role } from '#formats/log.ts';
import type { Rig } from '#formats/rig.ts';
import type { Spec } from '#formats/spec.ts';
import type { RecordCheck, RecordCheckId, RecordDifference, Verification } from '#formats/verification.ts';
import type { UnitName } from '#units/unit.ts';
import { attachedFiles, DATA_FILE } from './attached-files.ts';
import type { RecordFonts } from './fonts.ts';
import { jsonDifferences } from './json-differences.ts';
import { cleanedLogo } from './logo.ts';
import { pdfAttachments, type PdfAttachment } from './pdf-attachments.ts';
import { PdfFile } from './pdf-file.ts';
import { PdfFault } from './pdf-value.ts';
import { printedCheck } from './printed-check.ts';
import { languageFor } from './phrases.ts';
import type { AttachedFile, Logo, RecordedTest, RecordInput } from './record-input.ts';
import { recordPdf } from './record-pdf.ts';

/** A run to be read and judged again, with what it was read with and judged by. */
export interface RunAgain {
  /** The logs under the names that they were read by. */
  logs: readonly { fileName: string | null; sha256: string; bytes: Uint8Array }[];
  rig: Rig | null;
  spec: Spec | null;
  judge: Judge | null;
  columns: readonly { column: string; role?: Role; unit?: UnitName }[];
  programVersion: string;
  complete: boolean;
}

/** What the checking needs from outside. */
export interface VerifyTools {
  programVersion: string;
  fonts: RecordFonts;
  /** Hex digest of bytes; the room has no hash of its own. */
  sha256: (bytes: Uint8Array) => string | Promise<string>;
  /** Reads and judges a run as the program does. */
  judge: (run: RunAgain) => Promise<Result<Omit<RecordedTest, 'logs'>>>;
}

/** Differences that are listed of one check. */
const MOST_LISTED = 20;

/**
 * Holds a record against its own log: takes log, assessment and all else out of it, judges the log again, makes the record again, and
 * compares bytes, numbers and pages. It tells whether they still agree, not who made them: a forger who judges another log makes a record
 * that agrees with itself, and shows by its hash alone that it is another.
 * @param named logs that lie beside the record
 * @returns no-record where the file cannot be taken apart
 */
export async function verifyRecord(
  record: AttachedFile,
  named: readonly AttachedFile[],
  tools: VerifyTools,
): Promise<Result<Verification>> {
  const refused = (reason: string): { ok: false; problems: Problem[] } => ({
    ok: false,
    problems: [{ code: 'no-record', file: record.fileName, reason }],
  });
  let file: PdfFile, attachments: PdfAttachment[];
  try {
    file = new PdfFile(record.bytes);
    attachments = pdfAttachments(file);
  } catch (error) {
    if (error instanceof PdfFault) return refused(error.message);
    throw error;
  }
  const opened = openRecord(attachments);
  if (typeof opened === 'string') return refused(opened);
  const { data, own, first } = opened;

  const checks: RecordCheck[] = [];
  const namedHashes = await hashed(named, tools);
  const judged = await checkTest(own, data.columns, 'log', 'assessment');
  const earlier = first
    ? await checkTest(first, data.firstTest?.columns ?? [], 'first-test-log', 'first-test-assessment')
    : null;
  if (named.length > 0) checks.splice(1, 0, checkNamed());
  const madeBy = own.assessment.program.version;
  if (judged === null || (first && earlier === null)) {
    const reason = 'without the log nothing can be judged and printed again';
    checks.push(check('limits-and-bench', [], reason), check('printed', [], reason));
  } else {
    const remade: RecordInput = {
      ...judged,
      ...(earlier ? { earlier } : {}),
      unitRecord: data.unitRecord,
      date: data.date,
      paper: data.paper,
      language: languageFor(data.language),
      fonts: tools.fonts,
      assessmentSha256: await tools.sha256(new TextEncoder().encode(writeJson(judged.assessment))),
      leaveOut: data.leaveOut,
      logo: logoOf(data.logo),
      ...(data.units ? { units: data.units } : {}),
    };
    checks.push(await checkOthers(remade));
    const bytes = await recordPdf(remade);
    const sameVersion = madeBy === tools.programVersion;
    const printed = printedCheck(file, new PdfFile(bytes), sameVersion ? null : madeBy, remade);
    checks.push(check('printed', printed.differences, printed.reason));
    if (!checks.some(({ result }) => result === 'differs'))
      checks.push(fileCheck(bytes, sameVersion, madeBy));
  }
  return {
    ok: true,
    value: {
      format: 'overdrive-bench/verification',
      version: 1,
      program: { version: tools.programVersion },
      record: {
        fileName: record.fileName,
        recordNumber: data.unitRecord?.recordNumber ?? null,
        issuedOn: data.date ?? data.unitRecord?.issuedOn ?? null,
        serial: data.unitRecord?.unit?.serial ?? null,
        verdict: own.assessment.verdict,
        madeBy,
      },
      agrees: checks.some(({ result }) => result === 'differs')
        ? false
        : checks.some(({ result }) => result === 'not-checked')
          ? null
          : true,
      checks,
    },
  };

  /** A test's log and numbers. @returns the test as judged again, null where its log is not at hand */
  async function checkTest(
    test: OpenedTest,
    columns: RecordData['columns'],
    logCheck: RecordCheckId,
    assessmentCheck: RecordCheckId,
  ): Promise<RecordedTest | null> {
    const { assessment } = test;
    const recorded = recordedHashes(assessment);
    const found: { file: AttachedFile; sha256: string }[] = [];
    const differences: RecordDifference[] = [];
    for (const { name, attachment } of test.logs) {
      if (attachment?.bytes == null) {
        differences.push({
          where: name,
          recorded: recorded.length === 1 ? (recorded[0] ?? null) : null,
          found: attachment?.fault ?? null,
        });
        continue;
      }
      const sha256 = await tools.sha256(attachment.bytes);
      if (recorded.includes(sha256))
        found.push({ file: { fileName: name, bytes: attachment.bytes }, sha256 });
      else
        differences.push({
          where: name,
          recorded: recorded.length === 1 ? `SHA-256 ${recorded[0] ?? ''}` : 'SHA-256 of no part',
          found: `SHA-256 ${sha256}`,
        });
    }
    // A log that lies beside the record, and has the recorded hash, stands for one that the record lacks.
    for (const hash of recorded)
      if (!found.some(({ sha256 }) => sha256 === hash)) {
        const beside = namedHashes.find(({ sha256 }) => sha256 === hash);
        if (beside)
          found.push({
            file: { ...beside.file, fileName: test.logs[0]?.name ?? beside.file.fileName },
            sha256: hash,
          });
      }
    const whole =
      recorded.length > 0 && recorded.every((hash) => found.some(({ sha256 }) => sha256 === hash));
    checks.push(
      check(
        logCheck,
        differences,
        test.logs.length === 0 && !whole ? 'it holds no log: name the log too' : undefined,
      ),
    );
    if (!whole) {
      checks.push(check(assessmentCheck, [], 'the log that it was made from is not at hand'));
      return null;
    }
    const logs = found.map((each) => each.file);
    const again = await tools.judge({
      logs: found.map(({ file: { bytes }, sha256 }) => ({
        fileName: nameOfHash(assessment, sha256),
        sha256,
        bytes,
      })),
      rig: assessment.rig,
      spec: assessment.spec,
      judge:
        assessment.judged.choices.length === 0
          ? null
          : { format: 'overdrive-bench/judge', version: 1, choices: assessment.judged.choices },
      columns: columns.map(({ column, role, unit }) => ({
        column,
        ...(role === undefined ? {} : { role }),
        ...(unit === undefined ? {} : { unit }),
      })),
      programVersion: assessment.program.version,
      complete: assessment.complete,
    });
    if (!again.ok) {
      checks.push(
        check(assessmentCheck, [
          {
            where: test.name,
            recorded: assessment.verdict,
            found: again.problems.map(problemSentence).join(' '),
          },
        ]),
      );
      return null;
    }
    const text = writeJson(again.value.assessment);
    const numbers =
      text === test.text ? [] : jsonDifferences(JSON.parse(test.text), JSON.parse(text), test.name);
    if (text !== test.text && numbers.length === 0)
      numbers.push({
        where: test.name,
        recorded: 'the same numbers, written in other bytes than this program writes',
        found: null,
      });
    checks.push(check(assessmentCheck, numbers));
    // The files of the record in their order, as they were given.
    const inOrder = test.logs.length === found.length ? logs : [];
    return { ...again.value, logs: inOrder, columns };
  }

  function checkNamed(): RecordCheck {
    const recorded = [own, ...(first ? [first] : [])].flatMap(({ assessment }) => recordedHashes(assessment));
    const within = own.logs[0]?.attachment?.bytes ?? null;
    return check(
      'named-log',
      namedHashes
        .filter(({ sha256 }) => !recorded.includes(sha256))
        .map(({ file: { fileName, bytes }, sha256 }) => ({
          where: `${fileName}${within === null ? '' : lineOfDifference(within, bytes)}`,
          recorded: `SHA-256 ${recorded.join(', ')}`,
          found: `SHA-256 ${sha256}`,
        })),
    );
  }

  /** Limits, bench, logo and what else is attached: each must be the file that the record would be made with. */
  async function checkOthers(remade: RecordInput): Promise<RecordCheck> {
    const expected = attachedFiles(remade);
    const told = new Set(
      [data.files, data.firstTest].flatMap((files) => (files ? [files.assessment, ...files.logs] : [])),
    );
    const differences: RecordDifference[] = [];
    for (const { name, bytes } of expected) {
      if (told.has(name)) continue;
      const attachment = attachments.find((each) => each.name === name);
      if (attachment?.bytes == null)
        differences.push({ where: name, recorded: attachment?.fault ?? null, found: 'a file of the record' });
      else if ((await tools.sha256(attachment.bytes)) !== (await tools.sha256(bytes)))
        differences.push(...fileDifferences(name, attachment.bytes, bytes));
    }
    const known = new Set(expected.map(({ name }) => name));
    for (const { name } of attachments)
      if (!known.has(name) && !told.has(name))
        differences.push({ where: name, recorded: 'a file that was added', found: null });
    return check('limits-and-bench', differences);
  }

  function logoOf(name: string | null): Logo | null {
    const bytes = attachments.find((each) => each.name === name)?.bytes;
    if (name === null || !bytes) return null;
    const logo = cleanedLogo(bytes, name);
    return logo.ok ? logo.value : null;
  }

  function fileCheck(bytes: Uint8Array, sameVersion: boolean, madeBy: string): RecordCheck {
    const same =
      bytes.length === record.bytes.length && bytes.every((byte, index) => byte === record.bytes[index]);
    if (same) return check('file', []);
    if (!sameVersion)
      return check('file', [], `version ${madeBy} made it, and this one may write other bytes`);
    return check('file', [
      {
        where: record.fileName,
        recorded:
          'other bytes than this program wrote: another program has saved it again or added to it, and a reader may show something else',
        found: null,
      },
    ]);
  }
}

interface OpenedTest {
  assessment: Assessment;
  /** Name and text of the assessment's file. */
  name: string;
  text: string;
  logs: { name: string; attachment: PdfAttachment | undefined }[];
}

/** What the record says that it holds; or why it is none. */
function openRecord(
  attachments: readonly PdfAttachment[],
): { data: RecordData; own: OpenedTest; first: OpenedTest | null } | string {
  if (attachments.length === 0)
    return 'nothing is attached to it: another program made it, or it was printed or saved without its attachments';
  const textOf = (name: string): string | null => {
    const bytes = attachments.find((each) => each.name === name)?.bytes;
    return bytes ? new TextDecoder().decode(bytes) : null;
  };
  const json = textOf(DATA_FILE);
  if (json === null) {
    const fault = attachments.find(({ name }) => name === DATA_FILE)?.fault;
    return fault ? `${DATA_FILE} in it: ${fault}` : `${DATA_FILE} is not among what is attached to it`;
  }
  const data = readRecordData(json, DATA_FILE);
  if (!data.ok) return withoutEnd(data.problems.map(problemSentence).join(' '));
  const open = (files: RecordData['files']): OpenedTest | string => {
    const text = textOf(files.assessment);
    if (text === null) {
      const fault = attachments.find(({ name }) => name === files.assessment)?.fault;
      return `${files.assessment} in it: ${fault ?? 'it is missing'}`;
    }
    const assessment = readAssessment(text, files.assessment);
    if (!assessment.ok) return withoutEnd(assessment.problems.map(problemSentence).join(' '));
    return {
      assessment: assessment.value,
      name: files.assessment,
      text,
      logs: files.logs.map((log) => ({
        name: log,
        attachment: attachments.find(({ name }) => name === log),
      })),
    };
  };
  const own = open(data.value.files);
  if (typeof own === 'string') return own;
  const first = data.value.firstTest === null ? null : open(data.value.firstTest);
  return typeof first === 'string' ? first : { data: data.value, own, first };
}

const withoutEnd = (sentence: string): string => sentence.replace(/\.$/, '');

function check(id: RecordCheckId, differences: RecordDifference[], reason?: string): RecordCheck {
  return {
    id,
    result: differences.length > 0 ? 'differs' : reason === undefined ? 'agrees' : 'not-checked',
    differences: differences.slice(0, MOST_LISTED),
    more: Math.max(0, differences.length - MOST_LISTED),
    ...(reason !== undefined && differences.length === 0 ? { reason } : {}),
  };
}

async function hashed(
  files: readonly AttachedFile[],
  tools: VerifyTools,
): Promise<{ file: AttachedFile; sha256: string }[]> {
  const result: { file: AttachedFile; sha256: string }[] = [];
  for (const file of files) result.push({ file, sha256: await tools.sha256(file.bytes) });
  return result;
}

/** Every hash that the assessment names for its log: of each part, or of the one file. */
function recordedHashes({ log }: Assessment): string[] {
  const hashes = log.parts ? log.parts.map(({ sha256 }) => sha256) : [log.sha256];
  return hashes.filter((hash) => hash !== null);
}
const nameOfHash = ({ log }: Assessment, sha256: string): string | null =>
  log.parts ? (log.parts.find((part) => part.sha256 === sha256)?.fileName ?? null) : log.fileName;

/** ", line 812": where a log first differs from the one in the record. */
function lineOfDifference(recorded: Uint8Array, found: Uint8Array): string {
  let line = 1;
  const shorter = Math.min(recorded.length, found.length);
  for (let at = 0; at < shorter; at++) {
    if (recorded[at] !== found[at]) return `, from line ${line} on`;
    if (recorded[at] === 10) line++;
  }
  return recorded.length === found.length ? '' : `, from line ${line} on`;
}

/** Where two files of the record differ: place by place if both are JSON. */
function fileDifferences(name: string, recorded: Uint8Array, found: Uint8Array): RecordDifference[] {
  const other = [{ where: name, recorded: 'other bytes than the record was made with', found: null }];
  if (!name.endsWith('.json')) return other;
  try {
    const decoder = new TextDecoder();
    const differences = jsonDifferences(
      JSON.parse(decoder.decode(recorded)),
      JSON.parse(decoder.decode(found)),
      name,
    );
    return differences.length > 0 ? differences : other;
  } catch {
    return other;
  }
}
