import type { HeldMove } from './border-move.ts';
import type { Desk } from './desk.ts';
import { hasTexts } from './has-texts.ts';
import { logKey } from './run-words.ts';
import type { Trial } from './state.ts';

const PREFIX = 'overdrive-bench-move ';
const moves: readonly string[] = [
  'hold-start',
  'hold-end',
  'leave-out',
  'join-engagements',
] satisfies readonly Trial['what'][];

function recalled(storage: Storage | null, key: string): HeldMove | null {
  try {
    const data: unknown = JSON.parse(storage?.getItem(PREFIX + key) ?? 'null');
    return isHeld(data) ? data : null;
  } catch {
    return null;
  }
}
function isHeld(data: unknown): data is HeldMove {
  if (!hasTexts(data, ['what', 'why'])) return false;
  const { from_s, to_s } = data as Partial<HeldMove>;
  return moves.includes(data.what) && Number.isFinite(from_s) && Number.isFinite(to_s);
}

/**
 * A border in the hand, or a span that is to be left out, outlasts a reload and a look at another run, with what was typed of its reason,
 * until it is kept or put back.
 */
export function keepMoves(desk: Desk, storage: Storage | null): void {
  let key: string | null = null;
  let written: string | null = null;
  desk.subscribe(() => {
    const { run } = desk.state();
    if (run === null) return;
    const now = logKey(run);
    if (now !== key) {
      key = now;
      const held = run.trial === null ? recalled(storage, now) : null;
      written = held === null ? null : textOf(held);
      if (held !== null) return desk.takeUp(held);
    }
    const text = run.trial === null ? null : textOf(run.trial);
    if (text === written) return;
    written = text;
    try {
      if (text === null) storage?.removeItem(PREFIX + now);
      else storage?.setItem(PREFIX + now, text);
    } catch {
      // Without a storage it lasts as long as the page.
    }
  });
}

const textOf = ({ what, from_s, to_s, why }: HeldMove): string => JSON.stringify({ what, from_s, to_s, why });
