import { writeJson } from '#formats/number.ts';
import type { Result } from '#formats/problem.ts';
import { followRun } from './follow-run.ts';
import { followScreen } from './follow-screen.ts';
import { shownName, STANDARD } from './input-file.ts';
import { endOnSignal } from './interruption.ts';
import type { JudgedRun, RunRequest } from './judge-run.ts';
import type { Terminal } from './terminal.ts';
import { writeOutputs } from './write-outputs.ts';

/**
 * Follows a log until Ctrl C, or until standard input ends, and shows the run as it comes; a JSON file is written anew at each look
 * that found something new.
 */
export async function followToEnd(
  request: RunRequest,
  { every_s, json }: { every_s: number; json: string | null },
  terminal: Terminal,
): Promise<Result<JudgedRun>> {
  const screen = followScreen(shownName(request.logs.at(-1) ?? STANDARD), terminal, json === STANDARD);
  await screen.open();
  const judged = await followRun(
    request,
    every_s,
    async (look) => {
      // Written before it is shown: who hears of a look finds it in the file.
      const fault =
        json === null || json === STANDARD || look.run === null || look.grown.added === 0
          ? null
          : await writeOutputs([{ name: json, content: [writeJson(look.run.assessment)] }]);
      await screen.show(look);
      return fault;
    },
    endOnSignal(),
    terminal,
  );
  await screen.close();
  return judged;
}
