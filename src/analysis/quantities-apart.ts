import type { LoggedRun, Quantities } from '#formats/assessment.ts';
import { loggedChannelOf } from './logged-channel.ts';
import { rippleOf, type RippleFound, type RippleSource } from './ripple.ts';
import { warmUpQuantity, type WarmUpSource } from './run-quantities.ts';
import type { Situation } from './situation.ts';
import { solenoidCurrent, type CurrentSource } from './solenoid-current.ts';

// Quantities that are worked out apart from the others, on a thread of its own. What is asked and answered can be sent; columns are shared
// where those of the log are.

/** What is asked of the solenoid's current, once it is known when the unit was engaged. */
export type CurrentQuestion = CurrentSource & { about: 'current' };
/** What is asked once it is known what is judged. */
export type HoldQuestion = RippleSource & WarmUpSource & { about: 'hold' };

/** The current, and its channel as it is listed; null without one. */
export interface CurrentApart {
  about: 'current';
  solenoidCurrent: Quantities['solenoidCurrent'];
  listed: LoggedRun['channels'][number] | null;
}
/** What takes longest of run and hold. */
export interface HoldApart {
  about: 'hold';
  ripple: RippleFound;
  warmUp: Quantities['warmUp'];
}

/** Of a situation that has a hold what is needed, and nothing that can't be sent. */
export function holdQuestion(situation: Situation): HoldQuestion {
  const { timeline, unit, run, hold, unjudged, input, oil, reading, speed } = situation;
  return {
    about: 'hold',
    timeline,
    unit,
    run,
    hold,
    unjudged,
    input: { spec: input.spec },
    oil: oil && {
      kept: oil.kept,
      smoothed: oil.smoothed,
      values: oil.values,
      flags: oil.flags,
      unit: oil.unit,
      operating: oil.operating,
      step: oil.step,
    },
    reading: { kept: reading.kept },
    speed: speed && { channel: { unit: speed.channel.unit }, kept: speed.kept },
  };
}

/** Works out what is asked. */
export function answerApart(question: CurrentQuestion | HoldQuestion): CurrentApart | HoldApart {
  if (question.about === 'hold')
    return {
      about: 'hold',
      ripple: rippleOf(question),
      warmUp: warmUpQuantity(question),
    };
  const { current } = question;
  return {
    about: 'current',
    solenoidCurrent: solenoidCurrent(question),
    listed: current && loggedChannelOf(current.channel, current.flags),
  };
}
