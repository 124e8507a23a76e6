import type { Terminal } from './terminal.ts';
import { paragraphLines } from './text-table.ts';

/** Sentences under each other, each with a dash. */
export const listLines = (texts: readonly string[], terminal: Terminal): string[] =>
  texts.flatMap((text) => paragraphLines(text, terminal, '  ', '– '));

/** A part of a result: its heading after an empty line, and its lines; nothing where there are none. */
export const part = (heading: string, lines: readonly string[], terminal: Terminal): string[] =>
  lines.length === 0 ? [] : ['', terminal.ink('strong', heading), ...lines];
