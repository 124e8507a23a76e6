import { createContext, useContext } from 'react';
import type { BookDesk, BookState } from './book-desk.ts';
import type { Desk } from './desk.ts';
import type { FollowDesk } from './follow-desk.ts';
import type { Remembered } from './remembered.ts';
import type { State } from './state.ts';

/** What every part of the page may use. */
export interface Around {
  desk: Desk;
  state: State;
  habits: Remembered;
  changeHabits: (change: Partial<Remembered>) => void;
  /** Opens the file chooser for logs. */
  chooseLogs: () => void;
  /** Looks at a log that is still being written. */
  follow: FollowDesk;
  book: BookDesk;
  bookState: BookState;
  /** A newer program is kept in the browser: it comes once every page of the app was closed. */
  newerProgram: boolean;
  /** Lays a run of the book on its sheet. */
  openRun: (id: string) => void;
}

const AroundContext = createContext<Around | null>(null);
export const AroundProvider = AroundContext.Provider;

export function useAround(): Around {
  const around = useContext(AroundContext);
  if (around === null) throw new Error('outside of the app');
  return around;
}
