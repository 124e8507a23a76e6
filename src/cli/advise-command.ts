import { offersSomething } from '#formats/advice-words.ts';
import { readAdjustments, readRelief } from '#formats/check.ts';
import { writeJson } from '#formats/number.ts';
import { advise } from '#relief/advise.ts';
import { adviceText } from './advice-text.ts';
import type { Command } from './command.ts';
import { exitCode } from './exit-code.ts';
import { checkFiles, giveOut } from './give-out.ts';
import { readSettings, shownName } from './input-file.ts';
import { judgeRun } from './judge-run.ts';
import { jsonOption, readJudging, rigOption, specOption } from './judging-options.ts';

export const adviseCommand: Command = {
  name: 'advise',
  summary:
    'Says what to change at the relief before the re-test, how it should come out, and how sure that is.',
  forms: ['advise LOG --spec FILE --relief FILE [--rig FILE] [--history FILE] [--json FILE|-]'],
  options: {
    spec: specOption,
    relief: {
      value: 'FILE',
      help: 'the relief: what a millimetre does, shims fitted and in stock (JSON; schema relief)',
    },
    rig: rigOption,
    history: {
      value: 'FILE',
      help: 'earlier changes and what they did, to learn from (JSON; schema adjustments)',
    },
    json: jsonOption,
  },
  notes: [
    'Held back, or nothing reaches the band: exit 2.',
    'Advice for a stopped bench with the pressure let off. The workshop manual of the unit and the local rules come first.',
  ],
  async run(given, terminal) {
    const [name, ...more] = given.operands;
    if (name === undefined) return { usage: 'name the log of the run' };
    if (more.length > 0) return { usage: 'one log at a time' };
    for (const needed of ['spec', 'relief'])
      if (given.option(needed) === null) return { usage: `--${needed} FILE is needed` };
    const json = given.option('json');
    const reliefName = given.option('relief');
    const settings = [given.option('rig'), given.option('spec'), reliefName, given.option('history')];
    const refused = checkFiles({ inputs: [name, ...settings], json, records: [] });
    if (refused) return refused;
    const judging = await readJudging(given);
    if (!judging.ok) return judging;
    const relief = await readSettings(reliefName, readRelief);
    if (!relief.ok) return relief;
    const history = await readSettings(given.option('history'), readAdjustments);
    if (!history.ok) return history;
    if (relief.value === null) return { usage: '--relief FILE is needed' };

    const judged = await judgeRun({ logs: [name], ...judging.value, judge: null, keep: false }, terminal);
    if (!judged.ok) return judged;
    const { assessment } = judged.value;
    const advised = advise({ assessment, relief: relief.value, history: history.value });
    if (!advised.ok)
      return {
        problems: advised.problems.map((problem) =>
          problem.code === 'bad-field'
            ? { ...problem, file: problem.file ?? shownName(reliefName ?? '') }
            : problem,
        ),
      };
    const advice = advised.value;
    const { fitted_mm } = relief.value;
    const stopped = await giveOut(
      {
        json,
        data: writeJson(advice),
        text: () => adviceText(advice, fitted_mm ?? null, assessment, terminal),
      },
      [],
      terminal,
    );
    return stopped ?? { exit: offersSomething(advice) ? exitCode.done : exitCode.open };
  },
};
