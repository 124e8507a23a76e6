import { problemSentence } from '#formats/problem.ts';
import {
  beganAnew,
  notAnAlarm,
  quietText,
  soFarLine,
  soFarSentences,
  stillOpenText,
} from '#formats/so-far.ts';
import { durationText, NO_BREAK_SPACE } from '#units/number-text.ts';
import type { Look } from './follow-run.ts';
import { positionText } from './log-words.ts';
import type { Terminal } from './terminal.ts';
import { paragraphLines } from './text-table.ts';

/** Where a followed run is shown: a block that is drawn anew on a terminal, a line for each change elsewhere. */
export interface FollowScreen {
  open(): Promise<void>;
  show(look: Look): Promise<void>;
  /** Takes the block away, for what comes behind it. */
  close(): Promise<void>;
}

/**
 * @param name of what is followed, for the first line
 * @param silent standard output is for data alone: what must be said goes to standard error
 */
export function followScreen(name: string, terminal: Terminal, silent: boolean): FollowScreen {
  const head = [`Following ${name}; Ctrl C ends it and gives the last state.`, notAnAlarm, stillOpenText];
  if (silent) return quietScreen(head, terminal);
  return process.stdout.isTTY ? blockScreen(head, terminal) : lineScreen(head, terminal);
}

/** What a look gives to say beside the run itself. */
function notices({ grown, run, problems, quiet_s }: Look): string[] {
  const quiet = quietText(quiet_s, run?.assessment.log.medianInterval_s ?? 0);
  return [
    ...(grown.anew ? [beganAnew] : []),
    ...(grown.problem === null ? [] : [problemSentence(grown.problem)]),
    ...(run === null ? problems.slice(0, 1).map((problem) => `Not yet: ${problemSentence(problem)}`) : []),
    ...(quiet === null ? [] : [quiet]),
  ];
}
/** The same notice again, but for how long it has been so. */
const kindOf = (notice: string): string => (notice.startsWith('No new row') ? 'quiet' : notice);
const plain = (text: string): string => text.replaceAll(NO_BREAK_SPACE, ' ');

function lineScreen(head: readonly string[], terminal: Terminal): FollowScreen {
  let before: string[] = [];
  return {
    open: () => terminal.write(`${head.join('\n')}\n`),
    async show(look) {
      const found = notices(look);
      const lines = found.filter((notice) => look.grown.anew || !before.includes(kindOf(notice)));
      before = found.map(kindOf);
      if (look.run !== null && (look.grown.added > 0 || look.grown.anew))
        lines.push(`${positionText(look.run.soFar.at_s)}  ${soFarLine(look.run.soFar)}`);
      if (lines.length > 0) await terminal.write(`${lines.map(plain).join('\n')}\n`);
    },
    close: () => Promise.resolve(),
  };
}

/** With data alone on standard output: what must be said to standard error, the run on the line of progress there. */
function quietScreen(head: readonly string[], terminal: Terminal): FollowScreen {
  let before: string[] = [];
  return {
    open() {
      for (const line of head) terminal.complain(line);
      return Promise.resolve();
    },
    show(look) {
      const found = notices(look);
      for (const notice of found) if (!before.includes(kindOf(notice))) terminal.complain(plain(notice));
      before = found.map(kindOf);
      if (look.run !== null) terminal.progress(plain(soFarLine(look.run.soFar)));
      return Promise.resolve();
    },
    close() {
      terminal.progress(null);
      return Promise.resolve();
    },
  };
}

/** Seconds for which the age of the last row is shown; from then on it is said as a notice. */
const SHOWN_AGE_s = 30;

function blockScreen(head: readonly string[], terminal: Terminal): FollowScreen {
  let drawn = 0;
  // Up to the block's first line, and everything from there down cleared (ECMA-48: CUU and ED).
  const back = (): string => (drawn === 0 ? '' : `\u001B[${drawn}A\u001B[0J`);
  return {
    open: () => terminal.write(`${head.flatMap((line) => paragraphLines(line, terminal)).join('\n')}\n\n`),
    async show(look) {
      const lines = [
        ...(look.run === null
          ? []
          : [
              terminal.ink('strong', `At ${positionText(look.run.soFar.at_s)} of the log`),
              ...soFarSentences(look.run.soFar).flatMap((text) => paragraphLines(plain(text), terminal)),
            ]),
        ...notices(look).flatMap((text) => paragraphLines(text, terminal)),
        ...(look.quiet_s < SHOWN_AGE_s
          ? [terminal.ink('quiet', `Last row came ${durationText(Math.round(look.quiet_s))} ago.`)]
          : []),
      ];
      await terminal.write(`${back()}${lines.join('\n')}\n`);
      drawn = lines.length;
    },
    async close() {
      await terminal.write(back());
      drawn = 0;
    },
  };
}
