import { rmSync } from 'node:fs';
import { problemSentence } from '#formats/problem.ts';
import { exitCode } from './exit-code.ts';
import type { Terminal } from './terminal.ts';

/** Files being written, which must not outlive a stop. */
const unfinished = new Set<string>();

/** Names a file that is being written; the result says that it is whole or gone. */
export function whileUnfinished(file: string): () => void {
  unfinished.add(file);
  return () => void unfinished.delete(file);
}

/** Takes away what is half-written. */
export function removeUnfinished(): void {
  for (const file of unfinished) rmSync(file, { force: true });
  unfinished.clear();
}

/** What Ctrl C does instead of ending at once; a second one ends all the same. */
let instead: (() => void) | null = null;

/** Lets a command that goes on until it is stopped come to its own end at the first Ctrl C. */
export function endOnSignal(): Promise<void> {
  return new Promise((resolve) => (instead = resolve));
}

/** From here on Ctrl C (and an asked-for end) takes away what is half-written and ends with 130. */
export function stopOnSignals(terminal: Terminal): void {
  for (const signal of ['SIGINT', 'SIGTERM'] as const)
    process.on(signal, () => {
      if (instead !== null) {
        const end = instead;
        instead = null;
        end();
        return;
      }
      removeUnfinished();
      terminal.complain(problemSentence({ code: 'cancelled' }));
      process.exit(exitCode.cancelled);
    });
}
