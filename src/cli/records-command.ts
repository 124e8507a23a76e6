import { createHash } from 'node:crypto';
import { existsSync, statSync } from 'node:fs';
import path from 'node:path';
import { beforeIssue } from '#formats/before-issue.ts';
import type { Verdict } from '#formats/assessment.ts';
import { readUnitRecord } from '#formats/check.ts';
import { writeJson } from '#formats/number.ts';
import { problemSentence, type Problem } from '#formats/problem.ts';
import { withShop } from '#record/with-shop.ts';
import type { Command, Outcome } from './command.ts';
import { exitCode, type ExitCode } from './exit-code.ts';
import { checkFiles } from './give-out.ts';
import { readSettings } from './input-file.ts';
import { judgeRun } from './judge-run.ts';
import { bandOption, readJudging, rigOption, specOption } from './judging-options.ts';
import { askedLook, readLook, recordOptions } from './record-options.ts';
import { writeOutputs } from './write-outputs.ts';

const { picture: _, ...lookOptions } = recordOptions;

export const recordsCommand: Command = {
  name: 'records',
  summary: 'Writes the delivery records of many runs in one go, each LOG a run of its own.',
  forms: [
    'records LOG… --into FOLDER [--units FOLDER] [--rig FILE] [--spec FILE | --band BAND]',
    '[--shop FILE] [--date YYYY-MM-DD] [--paper a4|letter] [--language TAG] [--shown-in UNIT[,UNIT]]',
  ],
  options: {
    into: { value: 'FOLDER', help: 'where the records go; it has to be there' },
    units: {
      value: 'FOLDER',
      help: 'unit records by the names of the logs: b-0411.json for b-0411.csv; a run without one has a record without a unit',
    },
    rig: rigOption,
    spec: specOption,
    band: bandOption,
    ...lookOptions,
  },
  notes: [
    'Each record is b-0411.pdf for b-0411.csv, and replaces one of that name. A log that cannot be judged is named and left out (exit 3); the others are written.',
  ],
  async run(given, terminal): Promise<Outcome> {
    const logs = given.operands;
    const into = given.option('into');
    if (logs.length === 0) return { usage: 'name the logs' };
    if (into === null) return { usage: 'say with --into where the records go' };
    if (given.option('spec') !== null && given.option('band') !== null)
      return { usage: 'give --spec or --band, not both; a spec has its own band' };
    const asked = askedLook(given);
    if ('usage' in asked) return asked;
    const names = logs.map((log) => path.join(into, `${path.parse(log).name}.pdf`));
    // Loggers like to call every run the same: say which two logs, and what would help.
    const second = names.findIndex((name, index) => names.indexOf(name) < index);
    const twice = names[second];
    if (twice !== undefined)
      return {
        usage: `${logs[names.indexOf(twice)] ?? ''} and ${logs[second] ?? ''} would both be ${twice}; rename one of the logs, or write them into two folders`,
      };
    const units = given.option('units');
    const settings = ['rig', 'spec', 'shop'].map((option) => given.option(option));
    const refused = checkFiles({ inputs: [...logs, ...settings], json: null, records: names });
    if (refused) return refused;
    if (units !== null && !statSync(units, { throwIfNoEntry: false })?.isDirectory())
      return { problems: [{ code: 'file-not-readable', file: units, reason: 'there is no such folder' }] };
    const judging = await readJudging(given);
    if (!judging.ok) return judging;
    const look = await readLook(given.option('shop'), asked);
    if (!look.ok) return look;
    const { shop, ...looks } = look.value;
    const { recordOutputs } = await import('./record-files.ts');

    const verdicts: Verdict[] = [];
    let refusedLogs = 0;
    for (const [index, log] of logs.entries()) {
      const name = names[index] ?? '';
      terminal.progress(`Record ${index + 1} of ${logs.length}`);
      const file = units === null ? null : path.join(units, `${path.parse(log).name}.json`);
      const unitRecord = await readSettings(file !== null && existsSync(file) ? file : null, readUnitRecord);
      const judged = unitRecord.ok
        ? await judgeRun({ logs: [log], ...judging.value, judge: null, keep: true }, terminal)
        : unitRecord;
      const problems: Problem[] = [];
      if (judged.ok && unitRecord.ok) {
        const { assessment, series, files } = judged.value;
        const record = withShop(unitRecord.value, shop);
        const assessmentSha256 = createHash('sha256').update(writeJson(assessment)).digest('hex');
        const run = {
          assessment,
          series,
          logs: files,
          unitRecord: record,
          date: asked.date,
          assessmentSha256,
        };
        const problem = await writeOutputs(await recordOutputs([name], { ...looks, ...run }, asked.picture));
        if (problem) return { problems: [problem] };
        verdicts.push(assessment.verdict);
        const lacks = beforeIssue(assessment, record, asked.date).length;
        terminal.progress(null);
        await terminal.write(
          `${name}: ${assessment.verdict.replace('-', ' ')}${lacks === 0 ? '' : `; ${lacks} ${lacks === 1 ? 'thing is' : 'things are'} missing before it goes out`}\n`,
        );
      } else if (!judged.ok) problems.push(...judged.problems);
      terminal.progress(null);
      for (const problem of problems) terminal.complain(problemSentence(problem));
      if (problems.length > 0) refusedLogs++;
    }
    return { exit: refusedLogs > 0 ? exitCode.unusable : exitOf(verdicts) };
  },
};

/** As of one run: 1 if one fails, else 2 if one is open. */
function exitOf(verdicts: readonly Verdict[]): ExitCode {
  if (verdicts.includes('fail')) return exitCode.fails;
  return verdicts.every((verdict) => verdict === 'pass') ? exitCode.done : exitCode.open;
}
