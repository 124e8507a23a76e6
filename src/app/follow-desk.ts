import type { Problem } from '#formats/problem.ts';
import type { Asked, WorkerClient } from '#worker/client.ts';
import type { Judging, LogFile, LookAnswer, Reading } from '#worker/messages.ts';

/** A file that the browser lets the page look at again (File System Access). */
export interface FileAgain {
  name: string;
  getFile: () => Promise<File>;
}

/** A run that is being followed, or was until a moment ago. */
export interface Followed {
  /** Of the log that was asked about when it began. */
  key: string;
  name: string;
  going: boolean;
  run: LookAnswer['run'];
  /** Why it cannot be judged yet, or the file not be read. */
  problems: Problem[];
  /** The file was begun anew while it was followed. */
  anew: boolean;
  /** Seconds since rows last came. */
  quiet_s: number;
}

export interface FollowState {
  followed: Followed | null;
  /** Why this browser, or this file, cannot be followed. */
  refused: string | null;
}

/** What is followed, and how it is read and judged. */
export interface FollowRequest {
  file: LogFile;
  reading: Reading;
  judging: Judging;
}

/** Milliseconds between two looks; longer where a look takes more than a fifth of it. */
const EVERY_ms = 5000;
const LOOKING_SHARE = 0.2;

/** Said where the browser has no way of looking at a file again. */
export const cannotFollow =
  'This browser does not let a page look at a file again (it lacks File System Access; Chrome and Edge on a computer have it). The command line can: overdrive-bench assess --follow LOG.';
const notThisTime =
  'The browser did not give this page the file to look at again. Choose it once more, and allow it to be viewed.';

/** Files that came with a way to look at them again, as a drop gives it. */
const again = new WeakMap<Blob, Promise<FileAgain | null>>();
/** Keeps how a dropped file can be looked at again. */
export const rememberAgain = (file: File, way: Promise<FileAgain | null>): void => void again.set(file, way);

export type FollowDesk = ReturnType<typeof createFollowDesk>;

/** Looks at a growing file every few seconds and judges it as far as it has come, until it is stopped. */
export function createFollowDesk(
  client: WorkerClient,
  page: {
    /** Milliseconds that only go forwards. */
    now: () => number;
    /** Asks for the file; null where the browser cannot. */
    choose: (() => Promise<FileAgain | null>) | null;
    say: (said: string) => void;
  },
) {
  let state: FollowState = { followed: null, refused: null };
  const listeners = new Set<() => void>();
  let asked: Asked<'follow'> | null = null;
  let timer: ReturnType<typeof setTimeout> | undefined;
  let current: { way: FileAgain; request: FollowRequest; cameAt: number; rows: number } | null = null;

  const set = (next: FollowState): void => {
    state = next;
    for (const listener of listeners) listener();
  };
  const setFollowed = (patch: Partial<Followed>): void => {
    if (state.followed !== null) set({ ...state, followed: { ...state.followed, ...patch } });
  };

  async function wayTo(file: LogFile): Promise<FileAgain | null> {
    const known = (await again.get(file.blob)) ?? null;
    if (known !== null) return known;
    if (page.choose === null) {
      set({ followed: null, refused: cannotFollow });
      return null;
    }
    try {
      return await page.choose();
    } catch (error) {
      // Who closes the chooser has changed his mind.
      const aborted = error instanceof DOMException && error.name === 'AbortError';
      set({ followed: null, refused: aborted ? null : notThisTime });
      return null;
    }
  }

  async function begin(request: FollowRequest): Promise<void> {
    stop();
    set({ followed: null, refused: null });
    const way = await wayTo(request.file);
    if (way === null) return;
    current = { way, request, cameAt: page.now(), rows: 0 };
    set({
      followed: {
        key: request.file.key,
        name: way.name,
        going: true,
        run: null,
        problems: [],
        anew: false,
        quiet_s: 0,
      },
      refused: null,
    });
    page.say(`Following ${way.name}.`);
    await look();
  }

  async function look(): Promise<void> {
    const mine = current;
    if (mine === null) return;
    const began = page.now();
    const { way, request } = mine;
    let blob: Blob | null = null;
    try {
      blob = await way.getFile();
    } catch {
      setFollowed({
        problems: [
          {
            code: 'file-not-readable',
            file: way.name,
            reason: 'it is not there, or the browser may no longer look at it',
          },
        ],
      });
    }
    if (blob !== null && current === mine) {
      const file = { ...request.file, blob, name: way.name };
      asked = client.ask({ kind: 'follow', file, reading: request.reading, judging: request.judging });
      const outcome = await asked.outcome;
      asked = null;
      if (current !== mine) return;
      if (outcome.kind === 'answer') {
        const { run, problems, anew } = outcome.answer;
        const rows = run?.assessment.log.rows ?? 0;
        if (rows !== mine.rows) mine.cameAt = page.now();
        mine.rows = rows;
        setFollowed({ problems, ...(run === null ? {} : { run }), ...(anew ? { anew, run } : {}) });
      } else if (outcome.kind === 'failed') {
        stop();
        set({ followed: state.followed, refused: `Following stopped: ${outcome.message}.` });
        return;
      }
    }
    if (current !== mine) return;
    setFollowed({ quiet_s: (page.now() - mine.cameAt) / 1000 });
    timer = setTimeout(() => void look(), Math.max(EVERY_ms, (page.now() - began) / LOOKING_SHARE));
  }

  /** Ends the looking; what was seen last stays. */
  function stop(): void {
    clearTimeout(timer);
    asked?.stop();
    asked = null;
    if (current === null) return;
    setFollowed({ going: false });
    page.say(`Stopped following ${current.way.name}. This is its last state.`);
    current = null;
  }

  let last: FileAgain | null = null;
  return {
    state: () => state,
    subscribe: (listener: () => void): (() => void) => {
      listeners.add(listener);
      return () => void listeners.delete(listener);
    },
    async begin(request: FollowRequest): Promise<void> {
      await begin(request);
      last = current?.way ?? last;
    },
    stop,
    /** Back to what was understood of the file. */
    leave(): void {
      if (state.followed === null && state.refused === null) return;
      stop();
      set({ followed: null, refused: null });
    },
    /** The whole file as it is now, with its way to be looked at again; null where it cannot be had. */
    async wholeFile(): Promise<File | null> {
      const way = last;
      if (way === null) return null;
      try {
        const file = await way.getFile();
        rememberAgain(file, Promise.resolve(way));
        return file;
      } catch {
        return null;
      }
    },
  };
}

type Chooser = (options: object) => Promise<FileAgain[]>;

/** The browser's chooser of files that a page may look at again; null where it has none. */
export function fileChooser(window: object): (() => Promise<FileAgain | null>) | null {
  const choose: unknown = Reflect.get(window, 'showOpenFilePicker');
  if (typeof choose !== 'function') return null;
  return async () => {
    const picked = await (choose as Chooser).call(window, { multiple: false });
    return picked[0] ?? null;
  };
}
