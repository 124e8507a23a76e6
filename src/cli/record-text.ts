import type { BeforeIssue } from '#formats/before-issue.ts';
import { listLines, part } from './list-lines.ts';
import type { Terminal } from './terminal.ts';

/** What a record lacks, under the words for people; empty where it lacks nothing. */
export function beforeIssueText(found: readonly BeforeIssue[], terminal: Terminal): string {
  if (found.length === 0) return '';
  const lines = listLines(
    found.map(({ text }) => text),
    terminal,
  );
  return `${part('Before the record goes out', lines, terminal).join('\n')}\n`;
}
