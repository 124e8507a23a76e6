import type { Asked, WorkerClient } from '#worker/client.ts';
import type { CopySource, Progress } from '#worker/messages.ts';
import type { BookPage, BookState, Bringing } from './book-desk.ts';
import { bookTrouble, broughtBackSentence, copyName, sizeText, takenBackSentence } from './book-words.ts';
import { goingBy } from './going.ts';
import type { StepOutcome, UndoSteps } from './undo-steps.ts';

export const LAST_COPY = 'overdrive-bench-copy';

/** Copies of the book: put aside, looked at, brought back, and the book as it was before. */
export function createCopyDesk(side: {
  client: WorkerClient;
  page: BookPage;
  state: () => BookState;
  set: (patch: Partial<BookState>) => void;
  tell: (text: string, wrong?: boolean) => void;
  /** The book was changed. */
  changed: () => Promise<void>;
  undo: UndoSteps;
  folderAhead: () => { source: CopySource; name: string } | null;
}) {
  const { client, page, state, set, tell, changed, undo } = side;
  const at = (): string => page.now().toISOString();
  let copying: Asked<'copy'> | null = null;
  let bringing: { stop: () => void } | null = null;

  async function putCopyAside(): Promise<void> {
    if (copying !== null) return;
    const file = copyName(page.now());
    const to = await page.choosePlace(file, 'Copy of a bench book');
    if (to === 'refused') return;
    const going = goingBy(page.now);
    set({ copying: { stage: 'copying', done: 0, total: 0, left_s: null }, told: null });
    copying = client.ask({ kind: 'copy', to }, (progress) => set({ copying: going(progress) }));
    const outcome = await copying.outcome;
    copying = null;
    set({ copying: null });
    if (outcome.kind === 'refused') tell('Stopped. No copy was put aside.');
    else if (outcome.kind === 'failed') tell(`No copy was put aside: ${outcome.message}.`, true);
    else if ('problem' in outcome.answer) tell(bookTrouble(outcome.answer.problem), true);
    else if (outcome.answer.stopped) tell('Stopped. No copy was put aside.');
    else {
      const { blob, bytes } = outcome.answer;
      if (blob !== null) page.putDown(file, blob);
      const now = at();
      page.remember(LAST_COPY, now);
      set({ lastCopy: now });
      tell(`Copy put aside, ${sizeText(bytes)}: ${file}. Keep it on another disk than this computer’s.`);
    }
  }

  /** Asks about a copy, and says meanwhile how far it is. */
  async function ofCopy<K extends 'look-at-copy' | 'bring-back' | 'take-back'>(
    what: Bringing['what'],
    name: string,
    ask: (onProgress: (progress: Progress) => void) => Asked<K>,
  ): Promise<Awaited<Asked<K>['outcome']> | null> {
    bringing?.stop();
    const going = goingBy(page.now);
    const asked = ask((progress) => {
      if (bringing === asked) set({ bringing: { name, what, going: going(progress) } });
    });
    bringing = asked;
    set({ bringing: { name, what, going: null }, told: null });
    const outcome = await asked.outcome;
    if (bringing !== asked) return null;
    bringing = null;
    set({ bringing: null });
    return outcome;
  }
  /** Whether the book is being written: only a look at a copy gives way to something else. */
  const writing = (): boolean => (state().bringing?.what ?? 'look') !== 'look';

  async function lookAtCopy(copy: CopySource, name: string): Promise<void> {
    if (writing()) return;
    set({ look: null });
    const outcome = await ofCopy('look', name, (onProgress) =>
      client.ask({ kind: 'look-at-copy', copy }, onProgress),
    );
    if (outcome === null) return;
    if (outcome.kind === 'failed') tell(`${name} could not be looked at: ${outcome.message}.`, true);
    else if (outcome.kind === 'refused') tell(`Stopped. Nothing of ${name} was brought back.`);
    else if ('problem' in outcome.answer) tell(bookTrouble(outcome.answer.problem), true);
    else if (!outcome.answer.empty) set({ look: { copy, name, plan: outcome.answer } });
    else tell(`${name} is not a copy of a bench book, or nothing in it is whole. Choose another file.`, true);
  }

  /** @returns what is to be said, and by when the book knows it; `since` is null where nothing of it is in the book */
  async function bring(
    copy: CopySource,
    name: string,
  ): Promise<{ said: string; wrong: boolean; since: string | null }> {
    const since = at();
    const outcome = await ofCopy('bring', name, (onProgress) =>
      client.ask({ kind: 'bring-back', copy, name, at: since }, onProgress),
    );
    await changed();
    if (outcome?.kind === 'failed')
      return { said: `The copy could not be brought back: ${outcome.message}.`, wrong: true, since: null };
    if (outcome?.kind !== 'answer')
      return { said: `Stopped. Nothing of ${name} was brought back.`, wrong: false, since: null };
    return {
      said: broughtBackSentence(name, outcome.answer),
      wrong: outcome.answer.problem !== null,
      since: state().broughtBack?.at === since ? since : null,
    };
  }

  async function bringCopyBack(): Promise<void> {
    const { look } = state();
    if (look === null || state().bringing !== null) return;
    const { copy, name } = look;
    const brought = await bring(copy, name);
    set({ look: null });
    let { since } = brought;
    if (since === null) return tell(brought.said, brought.wrong);
    undo.did(
      {
        said: brought.said,
        async back() {
          if (state().broughtBack?.at === since) return takeCopyBack();
          // Only the copy that came last can be taken back as a whole.
          tell(
            `${name} can no longer be put back as a whole: another copy came after it, or it was put back.`,
          );
          return 'gone';
        },
        async again() {
          if (writing()) return 'stays';
          const anew = await bring(copy, name);
          if (anew.since !== null) ({ since } = anew);
          else tell(anew.said, anew.wrong);
          return anew.since === null ? 'stays' : { said: anew.said, wrong: anew.wrong };
        },
      },
      brought.wrong,
    );
  }

  /** Makes the book as it was before the last copy was brought back. */
  async function takeCopyBack(): Promise<StepOutcome> {
    if (writing()) return 'stays';
    const file = state().broughtBack?.name ?? 'the copy';
    const outcome = await ofCopy('back', file, (onProgress) =>
      client.ask({ kind: 'take-back', at: at() }, onProgress),
    );
    await changed();
    if (outcome?.kind === 'answer' && !('problem' in outcome.answer))
      return { said: takenBackSentence(file, outcome.answer) };
    if (outcome?.kind === 'answer' && 'problem' in outcome.answer)
      tell(bookTrouble(outcome.answer.problem), true);
    else if (outcome?.kind === 'refused') tell('Stopped. Nothing was put back.');
    else tell('The copy could not be taken back. Try again.', true);
    return 'stays';
  }

  /** … asked for by name, also after a reload: the steps before it are no longer of this book. */
  async function putBackBeforeCopy(): Promise<void> {
    const outcome = await takeCopyBack();
    if (typeof outcome === 'string') return;
    undo.forget();
    tell(outcome.said);
  }

  return {
    putCopyAside,
    stopCopy: () => copying?.stop(),
    lookAtCopy: (copy: File) => lookAtCopy(copy, copy.name),
    /** What a linked folder has and the book has not. */
    async lookAtFolder(): Promise<void> {
      const ahead = side.folderAhead();
      if (ahead !== null) await lookAtCopy(ahead.source, ahead.name);
    },
    bringCopyBack,
    stopBringing: () => bringing?.stop(),
    putBackBeforeCopy,
    leaveCopy: () => set({ look: null }),
  };
}
