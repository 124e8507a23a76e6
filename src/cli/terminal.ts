import { styleText } from 'node:util';

/** Inks of the text on a terminal; words always say the same, so that nothing hangs on them. */
export type Ink = 'strong' | 'pass' | 'fail' | 'open' | 'quiet';
const inks = { strong: 'bold', pass: 'green', fail: 'red', open: 'yellow', quiet: 'dim' } as const;

/** Where the words go: results to standard output, everything else to standard error. */
export interface Terminal {
  /** Columns for running text. */
  readonly width: number;
  /** Writes to standard output as it is. @throws an errno exception when it can't be written */
  write(content: string | Uint8Array): Promise<void>;
  /** A line to standard error. */
  complain(line: string): void;
  /** Replaces the line of progress; nothing where standard error is no terminal. null takes it away. */
  progress(text: string | null): void;
  ink(ink: Ink, text: string): string;
}

/** Narrower text is no longer readable, wider lines are no longer followed by the eye. */
const NARROWEST = 40,
  WIDEST = 110,
  /** For a file or a pipe, which have no width. */
  USUAL = 100;
/** Milliseconds between two lines of progress. */
const PROGRESS_EVERY_ms = 100;

/** The terminal that the process was started in. */
export function processTerminal(): Terminal {
  const { stdout, stderr, env } = process;
  const plain = (env['NO_COLOR'] ?? '') !== '' || env['TERM'] === 'dumb';
  const coloured = stdout.isTTY && !plain;
  // A terminal that does not know its width says 0.
  const columns = (stdout.isTTY ? stdout.columns : 0) || USUAL;
  let shown = 0;
  let lastProgress = 0;
  const clear = (): void => {
    if (shown > 0) stderr.write(`\r${' '.repeat(shown)}\r`);
    shown = 0;
  };
  return {
    width: Math.max(NARROWEST, Math.min(WIDEST, columns)),
    write: (content) => {
      clear();
      return new Promise((resolve, reject) => {
        // A broken pipe is told to the callback and once more as an event, which would end the process with a stack.
        stdout.once('error', reject);
        stdout.write(content, (error) => {
          if (error) return reject(error);
          stdout.removeListener('error', reject);
          resolve();
        });
      });
    },
    complain: (line) => {
      clear();
      stderr.write(`${line}\n`);
    },
    progress: (text) => {
      if (!stderr.isTTY) return;
      if (text === null) return clear();
      const now = performance.now();
      if (now - lastProgress < PROGRESS_EVERY_ms) return;
      lastProgress = now;
      const line = text.slice(0, (stderr.columns || USUAL) - 1);
      stderr.write(`\r${line.padEnd(shown)}`);
      shown = line.length;
    },
    ink: (ink, text) => (coloured ? styleText(inks[ink], text) : text),
  };
}
