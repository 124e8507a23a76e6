import { problemSentence } from '#formats/problem.ts';
import type { Command, Outcome } from './command.ts';
import { commands } from './commands.ts';
import { exitCode } from './exit-code.ts';
import { commandHelp, programHelp } from './help-text.ts';
import { removeUnfinished, stopOnSignals } from './interruption.ts';
import { programName, programVersion } from './program.ts';
import { readArguments } from './read-arguments.ts';
import { systemCode, systemReason } from './system-error.ts';
import { processTerminal, type Terminal } from './terminal.ts';

/** Set to anything, a mistake of the program shows where it happened. */
const STACK_VARIABLE = 'OVERDRIVE_BENCH_STACK';

/**
 * The command line: finds the command, runs it, turns its outcome into words and an exit code. A person never sees a stack.
 * @param argv what was typed behind the program's name
 */
export async function main(argv: readonly string[]): Promise<number> {
  const terminal = processTerminal();
  stopOnSignals(terminal);
  try {
    return await dispatch(argv, terminal);
  } catch (error) {
    removeUnfinished();
    return fault(error, terminal);
  }
}

async function dispatch(argv: readonly string[], terminal: Terminal): Promise<number> {
  const [name, ...rest] = argv;
  if (name === undefined) {
    terminal.complain(programHelp(commands, terminal.width).trimEnd());
    return exitCode.usage;
  }
  if (name === '--help' || name === '-h' || name === 'help') {
    const asked = commands.find((each) => each.name === rest[0]);
    await terminal.write(asked ? commandHelp(asked, terminal.width) : programHelp(commands, terminal.width));
    return exitCode.done;
  }
  if (name === '--version') {
    await terminal.write(`${programVersion}\n`);
    return exitCode.done;
  }
  const command = commands.find((each) => each.name === name);
  if (!command) {
    terminal.complain(
      `${programName}: there is no command "${name}"; there are ${commands.map((each) => each.name).join(', ')}.`,
    );
    terminal.complain(`Try: ${programName} --help`);
    return exitCode.usage;
  }
  const read = readArguments(command, rest);
  if ('help' in read) {
    await terminal.write(commandHelp(command, terminal.width));
    return exitCode.done;
  }
  return finish(command, 'usage' in read ? read : await command.run(read.given, terminal), terminal);
}

function finish(command: Command, outcome: Outcome, terminal: Terminal): number {
  if ('usage' in outcome) {
    terminal.complain(`${programName} ${command.name}: ${outcome.usage}.`);
    terminal.complain(`Try: ${programName} ${command.name} --help`);
    return exitCode.usage;
  }
  if ('problems' in outcome) {
    for (const problem of outcome.problems) terminal.complain(`${programName}: ${problemSentence(problem)}`);
    return exitCode.unusable;
  }
  return outcome.exit;
}

/** What should not have happened: standard output that can't take more, or a mistake of ours. */
function fault(error: unknown, terminal: Terminal): number {
  const code = systemCode(error);
  // A reader that has read enough ("… | head") needs no sentence.
  if (code === 'EPIPE') return exitCode.unusable;
  if (code !== null) {
    terminal.complain(
      `${programName}: ${problemSentence({ code: 'output-not-writable', file: 'standard output', reason: systemReason(code) })}`,
    );
    return exitCode.unusable;
  }
  const message = error instanceof Error ? `${error.name}: ${error.message}` : String(error);
  terminal.complain(
    `${programName} ${programVersion}: a mistake of the program (${message.split('\n')[0]}). Nothing was judged. Please report it with the command and, if you may, the log; ${STACK_VARIABLE}=1 shows where it happened.`,
  );
  if (process.env[STACK_VARIABLE] !== undefined && error instanceof Error)
    terminal.complain(error.stack ?? '');
  return exitCode.fault;
}
