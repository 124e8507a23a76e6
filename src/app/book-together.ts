import { entryPath } from '#book/place.ts';
import type { BookAdjustment, BookUnit } from '#formats/book.ts';
import type { WorkerClient } from '#worker/client.ts';
import type { BookEdit, BookProblem } from '#worker/messages.ts';
import type { BookState } from './book-desk.ts';
import { bookTrouble, runsText } from './book-words.ts';
import type { UndoSteps } from './undo-steps.ts';

type Change = Extract<BookEdit, { change: unknown }>;

/** Two units of one serial, as when two books were put together, become one. */
export function createTogether(side: {
  client: WorkerClient;
  state: () => BookState;
  at: () => string;
  tell: (text: string, wrong?: boolean) => void;
  /** The revision of an entry that the book's list has. */
  revision: (path: string) => number;
  write: (edits: BookEdit[]) => Promise<boolean>;
  undo: UndoSteps;
}) {
  /** Every change of a unit's setting, those that were taken out of its trail too; it is asked for by one of its runs. */
  async function changesOf(unit: BookUnit, run: string): Promise<BookAdjustment[] | BookProblem> {
    const outcome = await side.client.ask({ kind: 'trail', run, at: side.at() }).outcome;
    if (outcome.kind !== 'answer')
      return {
        code: 'not-kept',
        reason: outcome.kind === 'failed' ? outcome.message : 'it was stopped',
      };
    if ('problem' in outcome.answer) return outcome.answer.problem;
    const { steps, takenOut } = outcome.answer;
    return [...steps.map(({ adjustment }) => adjustment), ...takenOut].filter(
      ({ unitId }) => unitId === unit.id,
    );
  }

  /** All runs of one unit to another, and with them what was set on it: its trail belongs to its runs. One step. */
  async function giveAllTo(from: BookUnit, to: BookUnit): Promise<void> {
    const runs = side
      .state()
      .runs.filter(({ unitId, removedAt }) => unitId === from.id && removedAt === null);
    const [first] = runs;
    if (first === undefined) return;
    const changes = await changesOf(from, first.id);
    if (!Array.isArray(changes)) return side.tell(bookTrouble(changes), true);
    const own = new Map(changes.map((change) => [entryPath(change), change.revision]));
    const moved = [...runs, ...changes].map((entry) => entryPath(entry));
    const write = async (unitId: string, relief: BookUnit['relief']): Promise<boolean> => {
      const edits: Change[] = moved.map((path) => ({
        path,
        revision: own.get(path) ?? side.revision(path),
        change: { unitId },
      }));
      // What is fitted is known of the other as well from now on; where both say it, what that one says stays.
      const path = entryPath(to);
      if (to.relief === undefined && from.relief !== undefined)
        edits.push({ path, revision: side.revision(path), change: { relief } });
      if (!(await side.write(edits))) return false;
      for (const [each, revision] of own) own.set(each, revision + 1);
      return true;
    };
    const serial = to.record.unit?.serial ?? 'the other unit';
    const said = `${runsText(runs.length)} given to the other ${serial}${changes.length === 0 ? '' : ', with what was set on it'}.`;
    if (!(await write(to.id, from.relief))) return;
    side.undo.did({
      said,
      back: async () => ((await write(from.id, undefined)) ? { said: `Put back: ${said}` } : 'stays'),
      again: async () => ((await write(to.id, from.relief)) ? { said } : 'stays'),
    });
  }

  return { giveAllTo };
}
