import { formatNames, isFormatName, jsonSchemaOf } from '#formats/json-schema.ts';
import { exitCode } from './exit-code.ts';
import type { Command } from './command.ts';

export const schemaCommand: Command = {
  name: 'schema',
  summary: 'Prints the JSON Schema of a file that this program reads or writes.',
  forms: [`schema ${formatNames.join('|')}`],
  options: {},
  notes: [
    'The schema (draft 2020-12) comes from the same shapes that check the files. Rules between two fields, such as low below high, are checked on reading and not in it.',
  ],
  async run({ operands }, terminal) {
    const [name, ...more] = operands;
    if (name === undefined || more.length > 0) return { usage: `name one format: ${formatNames.join(', ')}` };
    if (!isFormatName(name))
      return { usage: `there is no format "${name}"; there are ${formatNames.join(', ')}` };
    await terminal.write(`${JSON.stringify(jsonSchemaOf(name), null, 2)}\n`);
    return { exit: exitCode.done };
  },
};
