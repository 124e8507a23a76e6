import type { CriterionId } from './assessment.ts';

/** A criterion by its two names: as the customer's sheet says it, and as an engineer calls it. */
export interface CriterionName {
  plain: string;
  engineer: string;
}

/** Names in the order in which criteria are listed. */
export const criterionNames: Readonly<Record<CriterionId, CriterionName>> = {
  'operating-pressure': { plain: 'pressure when warm', engineer: 'operating pressure' },
  'time-in-band': { plain: 'time within the limits', engineer: 'time in band over the hold' },
  drift: { plain: 'change while warm', engineer: 'drift over the hold' },
  settling: { plain: 'time until steady', engineer: 'settling duration' },
  'run-length': { plain: 'length of the run', engineer: 'run length' },
  'hold-temperature': { plain: 'oil temperature', engineer: 'mean oil temperature over the hold' },
  'peak-pressure': { plain: 'highest pressure', engineer: 'peak pressure' },
  ripple: { plain: 'trembling of the pressure', engineer: 'ripple, peak to peak' },
  'engagement-rise': { plain: 'time to engage', engineer: 'rise after engaging, 10 % to 90 %' },
  'engagement-dip': { plain: 'dip when engaging', engineer: 'dip on engaging' },
  'engagement-recovery': { plain: 'time to recover after engaging', engineer: 'recovery after engaging' },
  'fall-after-release': { plain: 'time to release', engineer: 'fall after release, 90 % to 10 %' },
  'released-pressure': { plain: 'pressure when released', engineer: 'released pressure' },
  'leak-down': { plain: 'pressure kept after stopping', engineer: 'leak-down, time to half' },
  'plateau-spread': { plain: 'spread between engagements', engineer: 'spread of plateaus' },
  'solenoid-current': { plain: 'solenoid current', engineer: 'solenoid current, highest' },
  'record-coverage': { plain: 'share of the run on record', engineer: 'record coverage' },
};
