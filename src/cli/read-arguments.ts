import { parseArgs } from 'node:util';
import type { Command, Given } from './command.ts';

/** Arguments as asked for, a call for help, or what is wrong with them. */
export type ReadArguments = { given: Given } | { help: true } | { usage: string };

/** Holds what was typed against a command's options. */
export function readArguments(command: Command, argv: readonly string[]): ReadArguments {
  const { options } = command;
  // Not strict, since parseArgs' own sentences speak of its options object: each token is looked at here.
  const { tokens } = parseArgs({
    args: [...argv],
    options: {
      ...Object.fromEntries(
        Object.entries(options).map(([name, option]) => [
          name,
          { type: option.value === null ? ('boolean' as const) : ('string' as const), multiple: true },
        ]),
      ),
      help: { type: 'boolean', short: 'h' },
    },
    strict: false,
    allowPositionals: true,
    tokens: true,
  });
  const operands: string[] = [];
  const values = new Map<string, string[]>();
  for (const token of tokens) {
    if (token.kind === 'option-terminator') continue;
    if (token.kind === 'positional') {
      operands.push(token.value);
      continue;
    }
    if (token.name === 'help') return { help: true };
    const option = Object.hasOwn(options, token.name) ? options[token.name] : undefined;
    if (!option) return { usage: `there is no option ${token.rawName}` };
    if (option.value === null) {
      if (token.value !== undefined) return { usage: `${token.rawName} takes no value` };
    } else if (token.value === undefined || token.value === '' || looksLikeOption(token))
      return { usage: `${token.rawName} needs its ${option.value} behind it` };
    const before = values.get(token.name) ?? [];
    if (before.length > 0 && option.repeatable !== true) return { usage: `${token.rawName} is given twice` };
    values.set(token.name, [...before, token.value ?? '']);
  }
  return {
    given: {
      operands,
      option: (name) => values.get(name)?.[0] ?? null,
      options: (name) => values.get(name) ?? [],
      has: (name) => values.has(name),
    },
  };
}

/** "--spec --json" was not meant as a file called "--json"; "--spec=--json" would be. A negative number is no option. */
const looksLikeOption = (token: { value?: string | undefined; inlineValue?: boolean | undefined }): boolean =>
  token.inlineValue !== true &&
  token.value !== undefined &&
  token.value.length > 1 &&
  token.value.startsWith('-') &&
  !/^-\.?\d/.test(token.value);
