import { inspect } from '#assessment/inspect.ts';
import { readRig } from '#formats/check.ts';
import { writeJson } from '#formats/number.ts';
import { exitCode } from './exit-code.ts';
import type { Command } from './command.ts';
import { readSettings } from './input-file.ts';
import { inspectionText } from './inspection-text.ts';
import { jsonOption, rigOption } from './judging-options.ts';
import { readLogFile } from './read-log-file.ts';
import { checkFiles, giveOut } from './give-out.ts';

export const inspectCommand: Command = {
  name: 'inspect',
  summary: 'Says what is in a log: columns, roles, units, time, and what would be set aside. Judges nothing.',
  forms: ['inspect LOG [--rig FILE] [--json FILE|-]'],
  options: { rig: rigOption, json: jsonOption },
  notes: ['LOG is a file, or - for standard input.'],
  async run(given, terminal) {
    const [name, ...more] = given.operands;
    if (name === undefined) return { usage: 'name the log to look at' };
    if (more.length > 0) return { usage: 'one log at a time' };
    const rigName = given.option('rig');
    const json = given.option('json');
    const checked = checkFiles({ inputs: [name, rigName], json, records: [] });
    if (checked) return checked;
    const rig = await readSettings(rigName, readRig);
    if (!rig.ok) return rig;
    const read = await readLogFile(name, rig.value, false, terminal);
    if (!read.ok) return read;
    const inspection = inspect(read.value.log, rig.value);
    const problem = await giveOut(
      { json, data: writeJson(inspection), text: () => inspectionText(inspection, terminal) },
      [],
      terminal,
    );
    return problem ?? { exit: exitCode.done };
  },
};
