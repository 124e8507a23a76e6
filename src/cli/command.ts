import type { Problem } from '#formats/problem.ts';
import type { ExitCode } from './exit-code.ts';
import type { Terminal } from './terminal.ts';

/** One option of a command. */
export interface Option {
  /** What stands for its value in the help, "FILE"; null for a switch. */
  value: string | null;
  /** May be given more than once. */
  repeatable?: boolean;
  help: string;
}

/** One command: what it is called, what it takes, what it does. The table of all is in commands.ts. */
export interface Command {
  name: string;
  /** One line for the list of commands. */
  summary: string;
  /** How it is called, without the program's name. */
  forms: readonly string[];
  options: Readonly<Record<string, Option>>;
  /** Paragraphs under the options. */
  notes: readonly string[];
  run(given: Given, terminal: Terminal): Promise<Outcome>;
}

/** What was typed, checked against the command's options. */
export interface Given {
  /** Arguments that are no options, in order. */
  operands: readonly string[];
  /** The value of an option, null when it was not given. */
  option(name: string): string | null;
  options(name: string): readonly string[];
  /** Whether a switch was given. */
  has(name: string): boolean;
}

/** How a command ended: with an exit code, called wrongly, or stopped by problems that a person can mend. */
export type Outcome = { exit: ExitCode } | { usage: string } | { problems: readonly Problem[] };
