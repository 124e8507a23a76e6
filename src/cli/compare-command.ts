import { compare, type ComparedRun } from '#comparison/compare.ts';
import { writeJson } from '#formats/number.ts';
import type { Command } from './command.ts';
import { comparisonText } from './comparison-text.ts';
import { exitCode } from './exit-code.ts';
import { checkFiles, giveOut } from './give-out.ts';
import { judgeRun } from './judge-run.ts';
import { bandOption, jsonOption, readJudging, rigOption, specOption } from './judging-options.ts';
import { recordEnding } from './record-endings.ts';
import { askedLook, recordOptions } from './record-options.ts';
import type { Output } from './write-outputs.ts';

/** What a comparison can be written as. */
const endings: readonly string[] = ['.csv', '.svg', '.png', '.pdf'];

export const compareCommand: Command = {
  name: 'compare',
  summary: 'Puts runs side by side, in the order given: verdicts, control limits, capability.',
  forms: [
    'compare LOG LOG… --spec FILE | --band BAND [--rig FILE] [--json FILE|-]',
    '[--record FILE]… [--picture screen|print]',
  ],
  options: {
    spec: specOption,
    band: bandOption,
    rig: rigOption,
    json: jsonOption,
    record: {
      value: 'FILE',
      repeatable: true,
      help: 'writes the rows as a table (.csv), or the chart of the pressures with their limits (.svg .png .pdf)',
    },
    picture: recordOptions.picture,
  },
  notes: [
    'Each LOG is a run of its own, all judged by the same limits. Control limits are over one value a run; capability is given from ten runs on.',
  ],
  async run(given, terminal) {
    const { operands } = given;
    if (operands.length < 2) return { usage: 'name two logs or more' };
    const spec = given.option('spec');
    if ((spec === null) === (given.option('band') === null))
      return { usage: 'runs are compared against one set of limits: give --spec or --band' };
    const json = given.option('json');
    const records = given.options('record');
    const odd = records.find((name) => !endings.includes(recordEnding(name) ?? ''));
    if (odd !== undefined)
      return { usage: `--record ${odd}: a comparison is written as ${endings.join(' ')}` };
    const asked = askedLook(given);
    if ('usage' in asked) return asked;
    const refused = checkFiles({ inputs: [...operands, spec, given.option('rig')], json, records });
    if (refused) return refused;
    const judging = await readJudging(given);
    if (!judging.ok) return judging;
    const runs: ComparedRun[] = [];
    for (const name of operands) {
      const judged = await judgeRun({ logs: [name], ...judging.value, judge: null, keep: false }, terminal);
      if (!judged.ok) return judged;
      runs.push({ assessment: judged.value.assessment });
    }
    const compared = compare(runs);
    if (!compared.ok) return compared;
    const outputs: Output[] = [];
    const band = judging.value.spec?.pressureBand;
    if (records.length > 0 && band !== undefined) {
      const { comparisonOutputs } = await import('./comparison-files.ts');
      outputs.push(...(await comparisonOutputs(records, compared.value, band, asked.picture)));
    }
    const stopped = await giveOut(
      { json, data: writeJson(compared.value), text: () => comparisonText(compared.value, terminal) },
      outputs,
      terminal,
    );
    return stopped ?? { exit: exitCode.done };
  },
};
