import type { WorkerClient } from '#worker/client.ts';
import { createBookDesk, type BookDesk } from './book-desk.ts';
import type { Desk } from './desk.ts';

/** Windows of one browser tell each other here that the book was changed. */
const CHANNEL = 'overdrive-bench-book';
/** The run that lies on this window's sheet, for a reload; another window may have another. */
const RUN_HERE = 'overdrive-bench-run';
/** Time in which a browser has surely begun to write a file that it was offered. */
const HELD_MS = 60_000;

/** The storage of this window alone; reading the name can be refused. */
function windowStorage(): Storage | null {
  try {
    return window.sessionStorage;
  } catch {
    return null;
  }
}

/** The run that this window had on its sheet before it was reloaded. */
export const runHere = (): string | null => windowStorage()?.getItem(RUN_HERE) ?? null;

/** Names it. */
export function rememberRunHere(id: string): void {
  try {
    windowStorage()?.setItem(RUN_HERE, id);
  } catch {
    // Without it a reload shows the run that was changed last.
  }
}

/** The unit that an address names: "#/unit/ID". */
export const unitOf = (hash: string): string | null => /^#\/unit\/([\w-]+)$/u.exec(hash)?.[1] ?? null;

/** The book of this browser, tied to the desk: what is kept there shows here, in this window and in the others. */
export function bookInBrowser(client: WorkerClient, desk: () => Desk, storage: Storage | null): BookDesk {
  const channel = 'BroadcastChannel' in window ? new BroadcastChannel(CHANNEL) : null;
  const book = createBookDesk(client, {
    now: () => new Date(),
    newId: () => crypto.randomUUID(),
    async persist() {
      try {
        return await navigator.storage.persist();
      } catch {
        return null;
      }
    },
    async persisted() {
      try {
        return await navigator.storage.persisted();
      } catch {
        return null;
      }
    },
    async choosePlace(name, what) {
      if (!('showSaveFilePicker' in window)) return null;
      try {
        return await window.showSaveFilePicker({
          suggestedName: name,
          types: [{ description: what, accept: { 'application/zip': ['.zip'] } }],
        });
      } catch (error) {
        return error instanceof DOMException && error.name === 'AbortError' ? 'refused' : null;
      }
    },
    chooseFolder:
      'showDirectoryPicker' in window
        ? async () => {
            try {
              return await window.showDirectoryPicker({ id: 'bench-book', mode: 'readwrite' });
            } catch {
              return null;
            }
          }
        : undefined,
    putDown(name, blob) {
      const address = URL.createObjectURL(blob);
      const link = document.createElement('a');
      link.href = address;
      link.download = name;
      link.click();
      setTimeout(() => URL.revokeObjectURL(address), HELD_MS);
    },
    recall(key) {
      try {
        return storage?.getItem(key) ?? null;
      } catch {
        return null;
      }
    },
    remember(key, value) {
      try {
        storage?.setItem(key, value);
      } catch {
        // Then it is asked again sooner.
      }
    },
    tellOthers: () => channel?.postMessage('changed'),
    showUnit(id) {
      const address = `#/unit/${id}`;
      if (window.location.hash !== address) window.history.pushState(null, '', address);
      desk().goTo('unit');
    },
  });
  channel?.addEventListener('message', () => void book.refresh());
  return book;
}

/** After a run was kept, the book shows it. */
export function followKeeping(desk: Desk, book: BookDesk): void {
  let before: string | null = null;
  desk.subscribe(() => {
    const { run } = desk.state();
    // Every verdict that is kept is news, also the second on the same run.
    const verdict = run?.kept === 'kept' ? (run.seen?.verdict ?? null) : null;
    if (run === null || verdict === null || verdict === before) return;
    before = verdict;
    if (run.id !== null) rememberRunHere(run.id);
    void book.changed();
  });
  book.subscribe(() => {
    const { run } = desk.state();
    const { loading, runs, units } = book.state();
    const entry = loading ? undefined : runs.find(({ id }) => id === run?.id);
    if (entry !== undefined) desk.followUnit(units.find(({ id }) => id === entry.unitId)?.record ?? null);
  });
}
