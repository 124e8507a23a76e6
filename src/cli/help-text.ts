import type { Command } from './command.ts';
import { programName } from './program.ts';
import { wrapped } from './wrapped.ts';

const INDENT = 2;

/** Two columns: what is typed, and what it does. */
function rows(pairs: readonly (readonly [string, string])[], width: number): string[] {
  const left = Math.max(...pairs.map(([typed]) => typed.length)) + INDENT;
  return pairs.flatMap(([typed, help]) =>
    wrapped(help, width - left - INDENT).map(
      (line, index) => `${' '.repeat(INDENT)}${(index === 0 ? typed : '').padEnd(left)}${line}`,
    ),
  );
}

/** The help of one command. A form that begins with an option goes on from the one before. */
export function commandHelp(command: Command, width: number): string {
  const options: [string, string][] = Object.entries(command.options).map(
    ([name, { value, help, repeatable }]) => [
      `--${name}${value === null ? '' : ` ${value}`}${repeatable === true ? ' …' : ''}`,
      help,
    ],
  );
  return [
    ...wrapped(command.summary, width),
    '',
    ...command.forms.map((form) => (form.startsWith('[') ? `    ${form}` : `${programName} ${form}`)),
    '',
    ...rows([...options, ['--help', 'this text']], width),
    ...command.notes.flatMap((note) => ['', ...wrapped(note, width)]),
    '',
  ].join('\n');
}

/** The help of the program: its commands and its exit codes. */
export function programHelp(commands: readonly Command[], width: number): string {
  return [
    ...wrapped(
      'Judges the bench run of a rebuilt hydraulic overdrive unit from its log: pressure against its band, drift, settling, and the record that goes out with the unit.',
      width,
    ),
    '',
    `${programName} COMMAND …`,
    '',
    ...rows(
      commands.map(({ name, summary }) => [name, summary] as const),
      width,
    ),
    '',
    ...rows(
      [
        ['COMMAND --help', 'what a command takes'],
        ['--version', 'the version of this program'],
      ],
      width,
    ),
    '',
    'Exit codes',
    ...rows(
      [
        ['0', 'done; assess: there is a limit and every one is met'],
        ['1', 'assess: at least one limit is not met; verify: something does not agree'],
        ['2', 'assess: none fails, but one is undecided or not assessed, or no limit was given'],
        [
          '3',
          'an input cannot be used, or an output cannot be written; standard error says which and what would mend it',
        ],
        ['4', 'called wrongly'],
        ['70', 'a mistake of the program'],
        ['130', 'stopped'],
      ],
      width,
    ),
    '',
  ].join('\n');
}
