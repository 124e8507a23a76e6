import { compare, type ComparedRun } from '#comparison/compare.ts';
import { writeJson } from '#formats/number.ts';
import type { Command } from './command.ts';
import { comparisonText } from './comparison-text.ts';
import { exitCode } from './exit-code.ts';
import { checkFiles, giveOut } from './give-out.ts';
import { judgeRun } from './judge-run.ts';
import { bandOption, jsonOption, readJudging, rigOption, specOption } from './judging-options.ts';

export const compareCommand: Command = {
  name: 'compare',
  summary: 'Puts runs side by side, in the order given: verdicts, control limits, capability.',
  forms: ['compare LOG LOG… --spec FILE | --band BAND [--rig FILE] [--json FILE|-]'],
  options: { spec: specOption, band: bandOption, rig: rigOption, json: jsonOption },
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
    const refused = checkFiles({ inputs: [...operands, spec, given.option('rig')], json, records: [] });
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
    const stopped = await giveOut(
      { json, data: writeJson(compared.value), text: () => comparisonText(compared.value, terminal) },
      [],
      terminal,
    );
    return stopped ?? { exit: exitCode.done };
  },
};
