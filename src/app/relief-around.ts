import { createContext, useContext, useSyncExternalStore } from 'react';
import type { ReliefDesk, ReliefState } from './relief-desk.ts';

const ReliefContext = createContext<ReliefDesk | null>(null);
export const ReliefProvider = ReliefContext.Provider;

/** The desk of the relief card, and what it holds just now. */
export function useRelief(): { relief: ReliefDesk; card: ReliefState } {
  const relief = useContext(ReliefContext);
  if (relief === null) throw new Error('outside of the app');
  return { relief, card: useSyncExternalStore(relief.subscribe, relief.state) };
}
