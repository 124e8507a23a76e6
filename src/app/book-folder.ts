import type { WorkerClient } from '#worker/client.ts';
import type { CopySource } from '#worker/messages.ts';
import { goingBy, type Going } from './going.ts';

/** The folder that the book is kept up to date in. */
export interface FolderState {
  name: string;
  /** 'asks': the browser wants to be asked again before it lets the page write there. */
  at: 'asks' | 'writing' | 'up-to-date' | { problem: string };
  /** ISO 8601 instant of the last time that it was up to date. */
  upTo: string | null;
  progress: Going | null;
  /** Entries that are newer in the folder than here, by path. */
  newer: string[];
  /** Entries of which the folder holds verdicts or versions that are not here. */
  joined: string[];
}

/** What linking needs of the page. */
export interface FolderPage {
  now: () => Date;
  /** A folder that somebody chose; null where it was broken off. Left out where the browser has none to choose. */
  chooseFolder?: (() => Promise<FileSystemDirectoryHandle | null>) | undefined;
}

const permissionOf = async (folder: FileSystemDirectoryHandle, ask: boolean): Promise<boolean> => {
  const wanted = { mode: 'readwrite' as const };
  try {
    if ((await folder.queryPermission(wanted)) === 'granted') return true;
    return ask && (await folder.requestPermission(wanted)) === 'granted';
  } catch {
    return false;
  }
};

/** Keeps a folder up to date with the book: after every change, where the browser lets it. */
export function createFolderKeeping(side: {
  client: WorkerClient;
  page: FolderPage;
  folder: () => FolderState | null;
  set: (folder: FolderState | null) => void;
}): {
  open: () => Promise<void>;
  link: () => Promise<void>;
  goOn: () => Promise<void>;
  unlink: () => Promise<void>;
  sync: () => Promise<void>;
  /** What the folder has and the book has not, to be brought back as a copy is; null: there is no such thing. */
  ahead: () => { source: CopySource; name: string } | null;
} {
  const { client, page } = side;
  let handle: FileSystemDirectoryHandle | null = null;
  let writing: Promise<void> | null = null;
  let again = false;
  const patch = (change: Partial<FolderState>): void => {
    const folder = side.folder();
    if (folder !== null) side.set({ ...folder, ...change });
  };

  async function writeOnce(): Promise<void> {
    patch({ at: 'writing', progress: null });
    const going = goingBy(page.now);
    const outcome = await client.ask({ kind: 'sync-folder', at: page.now().toISOString() }, (progress) =>
      patch({ progress: going(progress) }),
    ).outcome;
    if (outcome.kind !== 'answer') {
      const problem = outcome.kind === 'failed' ? outcome.message : 'it was stopped';
      return patch({ at: { problem }, progress: null });
    }
    if ('problem' in outcome.answer)
      return patch({ at: { problem: outcome.answer.problem }, progress: null });
    const { upTo, newer, joined } = outcome.answer;
    patch({ at: 'up-to-date', upTo, newer, joined, progress: null });
  }

  /** One writing at a time; what changed meanwhile is written right after. */
  async function sync(): Promise<void> {
    if (handle === null || side.folder()?.at === 'asks') return;
    if (writing !== null) {
      again = true;
      return writing;
    }
    do {
      again = false;
      writing = writeOnce();
      await writing;
      writing = null;
      // Set by a change that came while the folder was written.
    } while (again as boolean);
  }

  return {
    async open() {
      const outcome = await client.ask({ kind: 'linked-folder' }).outcome;
      const link = outcome.kind === 'answer' ? outcome.answer : null;
      if (link === null) return;
      handle = link.folder;
      const granted = await permissionOf(link.folder, false);
      side.set({
        name: link.folder.name,
        at: granted ? 'writing' : 'asks',
        upTo: link.upTo,
        progress: null,
        newer: [],
        joined: [],
      });
      if (granted) await sync();
    },
    async link() {
      const folder = (await page.chooseFolder?.()) ?? null;
      if (folder === null || !(await permissionOf(folder, true))) return;
      handle = folder;
      await client.ask({ kind: 'link-folder', folder }).outcome;
      side.set({ name: folder.name, at: 'writing', upTo: null, progress: null, newer: [], joined: [] });
      await sync();
    },
    async goOn() {
      if (handle === null || !(await permissionOf(handle, true))) return;
      patch({ at: 'writing' });
      await sync();
    },
    async unlink() {
      handle = null;
      await client.ask({ kind: 'link-folder', folder: null }).outcome;
      side.set(null);
    },
    sync,
    ahead() {
      const folder = side.folder();
      const entries = [...(folder?.newer ?? []), ...(folder?.joined ?? [])];
      return handle === null || folder === null || entries.length === 0
        ? null
        : { source: { folder: handle, entries }, name: `the folder “${folder.name}”` };
    },
  };
}
