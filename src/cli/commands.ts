import { adviseCommand } from './advise-command.ts';
import { assessCommand } from './assess-command.ts';
import { bookCommand } from './book-command.ts';
import type { Command } from './command.ts';
import { compareCommand } from './compare-command.ts';
import { gaugeCommand } from './gauge-command.ts';
import { inspectCommand } from './inspect-command.ts';
import { recordsCommand } from './records-command.ts';
import { schemaCommand } from './schema-command.ts';
import { verifyCommand } from './verify-command.ts';

/** Every command, in the order of the help. */
export const commands: readonly Command[] = [
  inspectCommand,
  assessCommand,
  adviseCommand,
  compareCommand,
  gaugeCommand,
  recordsCommand,
  verifyCommand,
  bookCommand,
  schemaCommand,
];
