import type { Progress } from '#worker/messages.ts';
import { fixedText } from './shown-numbers.ts';

/** Work that lasts, as the page shows it. */
export interface Going {
  stage: Progress['stage'];
  done: number;
  total: number;
  /** null: nobody can tell yet. */
  left_s: number | null;
}

/** Shorter than this says nothing of what is still to come. */
const SEEN_MS = 1000;

/**
 * Tells from how long the work took until now how long it still takes. Each stage is told by itself: reading and writing differ.
 * @param now clock of the page
 */
export function goingBy(now: () => Date): (progress: Omit<Progress, 'rows'>) => Going {
  let begun: { stage: Progress['stage']; at: number; done: number } | null = null;
  return ({ stage, bytesDone: done, bytesTotal: total }) => {
    const at = now().getTime();
    begun = begun?.stage === stage ? begun : { stage, at, done };
    const took = at - begun.at;
    const did = done - begun.done;
    const left_s = took < SEEN_MS || did <= 0 ? null : ((total - done) / did) * (took / 1000);
    return { stage, done, total, left_s };
  };
}

/** ", about 20 s left"; nothing where it cannot be told or is over at once. */
export function leftText({ left_s }: Pick<Going, 'left_s'>): string {
  if (left_s === null || left_s < 1) return '';
  if (left_s > 90) return `, about ${fixedText(Math.ceil(left_s / 60), 0)} min left`;
  return `, about ${fixedText(left_s > 10 ? Math.ceil(left_s / 5) * 5 : Math.ceil(left_s), 0)} s left`;
}

/** "42 %" */
export const shareText = ({ done, total }: Going): string =>
  `${total === 0 ? 0 : Math.floor((done / total) * 100)} %`;
