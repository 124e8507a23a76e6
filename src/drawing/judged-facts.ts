import type { Assessment } from '#formats/assessment.ts';

/** Whether the operating pressure has a verdict; without limits there is none to have. */
export function pressureWasJudged({ criteria }: Pick<Assessment, 'criteria'>): boolean {
  return criteria.every(({ id, verdict }) => id !== 'operating-pressure' || verdict !== 'not-assessed');
}

/** Whether the rig says what the pressure gauge is good for; scatter and resolution alone say nothing of it. */
export function gaugeIsStated(assessment: Assessment): boolean {
  const column = assessment.log.channels.find((channel) => channel.role === 'pressure')?.column;
  const channel = assessment.rig?.channels?.find(
    (entry) => entry.column === column || entry.role === 'pressure',
  );
  return channel?.uncertainty !== undefined;
}

/** Settling may be told from one reading, the hold from the next. */
const SAME_INSTANT_s = 60;

/** Whether the pressure had come to rest for good when its judged part began. */
export function steadyFromHoldOn({ quantities, judged, phases }: Assessment): boolean {
  const settled_s = quantities.settling.time_s;
  const hold = phases.find(({ kind }) => kind === 'hold');
  if (settled_s === null || judged.start_s === null || !hold) return false;
  return judged.start_s + settled_s <= hold.start_s + SAME_INSTANT_s;
}

/** Whether the oil is known to have been at its operating temperature from there on: it was logged, and what counts as warm was said. */
export function warmFromHoldOn({ quantities, spec }: Assessment): boolean {
  const low = spec?.operatingTemperature?.low;
  return quantities.holdTemperature.mean !== null && low !== null && low !== undefined;
}
