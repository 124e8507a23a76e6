import type { LoggedRun, Quantities } from '#formats/assessment.ts';
import { loggedChannelOf } from './logged-channel.ts';
import { rippleOf, type RippleFound, type RippleInput } from './ripple.ts';
import { warmUpQuantity, type WarmUpSource } from './run-quantities.ts';
import type { Situation } from './situation.ts';
import { solenoidCurrent, type CurrentInput } from './solenoid-current.ts';

/** What some quantities are worked out from once it is known what is judged. Can be sent; its columns are shared where those of the log are. */
export type ApartQuestion = RippleInput & CurrentInput & WarmUpSource;

/** Quantities that are worked out apart from the others, on a thread of its own. */
export interface QuantitiesApart {
  ripple: RippleFound;
  solenoidCurrent: Quantities['solenoidCurrent'];
  warmUp: Quantities['warmUp'];
  /** The channel of the current as it is listed; null without one. */
  currentListed: LoggedRun['channels'][number] | null;
}

/** Of a situation what is needed, and nothing that can't be sent. */
export function apartQuestion({
  input,
  timeline,
  unit,
  smoothing,
  run,
  hold,
  unjudged,
  oil,
  reading,
  speed,
  current,
  solenoid,
}: Situation): ApartQuestion {
  return {
    timeline,
    unit,
    smoothing,
    run,
    hold,
    unjudged,
    oil: oil && {
      kept: oil.kept,
      smoothed: oil.smoothed,
      values: oil.values,
      flags: oil.flags,
      unit: oil.unit,
      operating: oil.operating,
      step: oil.step,
    },
    input: { spec: input.spec },
    reading: { kept: reading.kept, engagements: reading.engagements },
    speed: speed && { channel: { unit: speed.channel.unit }, kept: speed.kept },
    current,
    solenoid,
  };
}

/** Works them out. They take nearly half of the time that all quantities take. */
export function quantitiesApart(question: ApartQuestion): QuantitiesApart {
  const { current } = question;
  return {
    solenoidCurrent: solenoidCurrent(question),
    ripple: rippleOf(question),
    warmUp: warmUpQuantity(question),
    currentListed: current && loggedChannelOf(current.channel, current.flags),
  };
}
