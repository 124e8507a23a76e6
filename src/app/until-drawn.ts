import { useRef } from 'react';
import { flushSync } from 'react-dom';

/**
 * What is asked of something that is still being built waits until it stands, then is done in order: a key that is pressed as soon as
 * the verdict can be read must not be lost because the strip under it is not drawn yet.
 */
export function useUntilDrawn(): {
  /** Does it now, or once it stands. */
  ask: (does: () => void) => void;
  stands: () => void;
} {
  const waiting = useRef<(() => void)[] | null>([]);
  return {
    ask(does) {
      if (waiting.current === null) does();
      else waiting.current.push(does);
    },
    stands() {
      const early = waiting.current ?? [];
      waiting.current = null;
      // Each on what the one before it left: two steps closer are two.
      if (early.length > 0) setTimeout(() => early.forEach((does) => flushSync(does)));
    },
  };
}
