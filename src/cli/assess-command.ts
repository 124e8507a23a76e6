import { createHash } from 'node:crypto';
import type { Verdict } from '#formats/assessment.ts';
import { readJudge, readUnitRecord } from '#formats/check.ts';
import { beforeIssue } from '#formats/before-issue.ts';
import { writeJson } from '#formats/number.ts';
import type { Result } from '#formats/problem.ts';
import type { RecordedTest } from '#record/record-input.ts';
import { withShop } from '#record/with-shop.ts';
import { assessmentText } from './assessment-text.ts';
import type { Command, Given } from './command.ts';
import { exitCode, type ExitCode } from './exit-code.ts';
import { followToEnd } from './follow.ts';
import { checkFiles, giveOut } from './give-out.ts';
import { readSettings } from './input-file.ts';
import { judgeRun, type RunRequest } from './judge-run.ts';
import { bandOption, jsonOption, readJudging, rigOption, specOption } from './judging-options.ts';
import { beforeIssueText } from './record-text.ts';
import { recordEnding, recordEndings } from './record-endings.ts';
import { askedLook, readLook, recordOptions, type AskedLook } from './record-options.ts';
import type { Terminal } from './terminal.ts';
import type { Output } from './write-outputs.ts';

const exitOf: Readonly<Record<Verdict, ExitCode>> = {
  pass: exitCode.done,
  fail: exitCode.fails,
  undecided: exitCode.open,
  'not-assessed': exitCode.open,
};

export const assessCommand: Command = {
  name: 'assess',
  summary: 'Judges a run: pressure against its band, drift, settling and every other limit that is given.',
  forms: [
    'assess LOG… [--rig FILE] [--spec FILE | --band BAND] [--judge FILE] [--unit-record FILE]',
    '[--first-test LOG] [--json FILE|-] [--record FILE]… [--shop FILE] [--date YYYY-MM-DD]',
    '[--paper a4|letter] [--language TAG] [--shown-in UNIT[,UNIT]] [--picture screen|print]',
    '[--follow [--every SECONDS]]',
  ],
  options: {
    rig: rigOption,
    spec: specOption,
    band: bandOption,
    judge: { value: 'FILE', help: 'choices made by hand, each with who and why (JSON; schema judge)' },
    'unit-record': {
      value: 'FILE',
      help: 'what the shop knows of the unit, for the record (JSON; schema unit-record)',
    },
    'first-test': {
      value: 'LOG',
      help: 'the test before an adjustment, judged by the same limits: drawn beside this one in the record, and counted',
    },
    follow: {
      value: null,
      help: 'reads a log that is still being written, again and again, and shows the run as it comes, until Ctrl C; no alarm and no safety device',
    },
    every: { value: 'SECONDS', help: 'with --follow: how often to look; 5 unless said' },
    json: jsonOption,
    record: {
      value: 'FILE',
      repeatable: true,
      help: `writes the delivery record, the chart or the readings, by the ending: ${recordEndings.join(' ')}`,
    },
    ...recordOptions,
  },
  notes: [
    'LOG is a file, or - for standard input; several are the parts of one run. Without --spec and --band the run is described and nothing is judged (exit 2).',
    'With --follow the last LOG may grow; a half-written last line waits. What time can still change is not assessed. --json FILE is written anew at each look, --json - and the records at the end.',
    'The program ships no limits as truth: they come from the workshop manual of the unit or from the shop.',
  ],
  async run(given, terminal) {
    const asked = readChoices(given);
    if ('usage' in asked) return asked;
    const { records, json, every_s } = asked;
    const settings = ['rig', 'spec', 'judge', 'unit-record', 'first-test', 'shop'].map((option) =>
      given.option(option),
    );
    const refused = checkFiles({ inputs: [...given.operands, ...settings], json, records });
    if (refused) return refused;

    const judging = await readJudging(given);
    if (!judging.ok) return judging;
    const judge = await readSettings(given.option('judge'), readJudge);
    if (!judge.ok) return judge;
    const unitRecord = await readSettings(given.option('unit-record'), readUnitRecord);
    if (!unitRecord.ok) return unitRecord;

    const look = await readLook(given.option('shop'), asked);
    if (!look.ok) return look;

    const keep = records.some((name) => recordEnding(name) === '.pdf');
    const request = { logs: given.operands, ...judging.value, judge: judge.value, keep };
    const judged =
      every_s === null
        ? await judgeRun(request, terminal)
        : await followToEnd(request, { every_s, json }, terminal);
    if (!judged.ok) return judged;
    const { assessment, series, files } = judged.value;
    const earlier = await readFirstTest(given.option('first-test'), request, terminal);
    if (!earlier.ok) return earlier;
    const data = writeJson(assessment);
    const outputs: Output[] = [];
    if (records.length > 0) {
      terminal.progress('Writing the record');
      const { recordOutputs } = await import('./record-files.ts');
      const assessmentSha256 = createHash('sha256').update(data).digest('hex');
      const { shop, ...looks } = look.value;
      const record = {
        ...looks,
        logs: files,
        earlier: earlier.value,
        unitRecord: withShop(unitRecord.value, shop),
        date: asked.date,
        assessmentSha256,
      };
      outputs.push(...(await recordOutputs(records, { assessment, series, ...record }, asked.picture)));
      terminal.progress(null);
    }
    const stopped = await giveOut(
      {
        json,
        data,
        text: () =>
          assessmentText(assessment, terminal) +
          (records.some(isDeliveryRecord)
            ? beforeIssueText(
                beforeIssue(assessment, withShop(unitRecord.value, look.value.shop), asked.date),
                terminal,
              )
            : ''),
      },
      outputs,
      terminal,
    );
    return stopped ?? { exit: exitOf[assessment.verdict] };
  },
};

const isDeliveryRecord = (name: string): boolean => ['.pdf', '.html'].includes(recordEnding(name) ?? '');

/** The test before an adjustment: another log, read and judged as this one. */
async function readFirstTest(
  name: string | null,
  request: RunRequest,
  terminal: Terminal,
): Promise<Result<RecordedTest | null>> {
  if (name === null) return { ok: true, value: null };
  const judged = await judgeRun({ ...request, logs: [name], judge: null }, terminal);
  if (!judged.ok) return judged;
  const { assessment, series, files } = judged.value;
  return { ok: true, value: { assessment, series, logs: files } };
}

interface Choices extends AskedLook {
  json: string | null;
  records: readonly string[];
  /** Seconds between two looks at a log that is followed; null: it is read once. */
  every_s: number | null;
}

const USUAL_EVERY_s = 5;
/** Seconds of `--every`; an hour is the longest pause that still counts as following. */
const everyAllowed = { low: 0.1, high: 3600 };

/** What was asked for, or what is wrong with it. */
function readChoices(given: Given): Choices | { usage: string } {
  if (given.operands.length === 0) return { usage: 'name the log to judge' };
  if (given.option('spec') !== null && given.option('band') !== null)
    return { usage: 'give --spec or --band, not both; a spec has its own band' };
  const records = given.options('record');
  const unknown = records.find((name) => recordEnding(name) === null);
  if (unknown !== undefined)
    return { usage: `--record ${unknown}: the ending says what to write, one of ${recordEndings.join(' ')}` };
  const look = askedLook(given);
  if ('usage' in look) return look;
  const every = given.option('every');
  const every_s = every === null ? USUAL_EVERY_s : Number(every);
  if (every !== null && !given.has('follow')) return { usage: '--every goes with --follow' };
  if (!(every_s >= everyAllowed.low && every_s <= everyAllowed.high))
    return { usage: `--every ${every ?? ''}: seconds from ${everyAllowed.low} to ${everyAllowed.high}` };
  return {
    json: given.option('json'),
    records,
    ...look,
    every_s: given.has('follow') ? every_s : null,
  };
}
