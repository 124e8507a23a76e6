import type { Draft } from './draft.ts';

/**
 * A criterion of a run that is still going on: what further readings can no longer change keeps its verdict, everything else is not
 * assessed yet, its value so far beside it. Settled are a run that is long enough, a peak or a solenoid current beyond its limit, and
 * an engagement beyond its limit that another one followed; all else is taken from the hold or the whole run and moves with it, or may
 * still come.
 */
export function stillOpen(draft: Draft): Draft {
  if (isSettled(draft) || draft.verdict === 'not-assessed') return draft;
  return {
    ...draft,
    verdict: 'not-assessed',
    probabilityOfConformity: null,
    because: { kind: 'so-far', stands: draft.because, verdict: draft.verdict },
  };
}

function isSettled(draft: Draft): boolean {
  const { id, verdict, because } = draft;
  switch (id) {
    case 'run-length':
      return verdict === 'pass';
    case 'peak-pressure':
    case 'solenoid-current':
      return verdict === 'fail';
    case 'engagement-rise':
    case 'engagement-dip':
    case 'engagement-recovery':
    case 'fall-after-release': {
      const worst =
        because.kind === 'compared' || because.kind === 'not-by-then' ? (because.engagement ?? null) : null;
      return verdict === 'fail' && worst !== null && worst.number < worst.of + worst.unmeasured;
    }
    case 'operating-pressure':
    case 'time-in-band':
    case 'drift':
    case 'settling':
    case 'hold-temperature':
    case 'ripple':
    case 'released-pressure':
    case 'leak-down':
    case 'plateau-spread':
    case 'record-coverage':
      return false;
  }
}
