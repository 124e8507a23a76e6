import type { Quantities } from '#formats/assessment.ts';
import { levelsOf, shareLevels } from '#signal/levels.ts';
import { alongSmoothed } from '#signal/smooth.ts';
import { statedText, withUnit } from '#units/number-text.ts';
import { upToTheEnd } from './channel-reading.ts';
import { rowsOnly, WeightedMean } from './pieces.ts';
import type { Situation } from './situation.ts';
import { splitAtBreaks, type Rows } from './timeline.ts';

/** Mean and maximum of the smoothed current while engaged; smoothed over engaged rows alone, so that its edges do not count. */
export function solenoidCurrent(situation: Situation): Quantities['solenoidCurrent'] {
  const { current, timeline, reading, smoothing, solenoid } = situation;
  const none = (reason: string): Quantities['solenoidCurrent'] => ({
    mean: null,
    max: null,
    unit: 'A',
    reason,
  });
  if (!current) return none('the log has no solenoid current');
  const unit = current.channel.unit;
  if (unit !== 'A' && unit !== 'mA') return none('the solenoid current has no unit of current');
  const engaged: Rows[] = reading.engagements.flatMap(({ rows }) => splitAtBreaks(timeline, rows));
  if (engaged.length === 0) return { ...none('there is no engagement in this log'), unit };
  // What stood at the end of the range was at least that: left out, a coil that draws too much would pass by the rest.
  const { kept, end } = upToTheEnd(current);
  const values = rowsOnly(kept, engaged);
  const on = solenoid && values === kept ? values.slice() : values;
  if (solenoid) for (let i = 0; i < on.length; i++) if (solenoid.on[i] === 0) on[i] = NaN;
  // The column's grid will be asked for again where it is listed.
  if (kept === current.channel.values && on !== kept) {
    levelsOf(kept);
    shareLevels(on, kept);
  }
  const mean = new WeightedMean(timeline);
  alongSmoothed(timeline.time_s, on, smoothing, timeline.gaps, (from, to, smoothed) => {
    // A window reaches into neighbouring rows: only rows with a reading of their own count, and those are the engaged ones.
    for (let i = from; i < to; i++) if (Number.isNaN(on[i])) smoothed[i - from] = NaN;
    mean.add(from, to, smoothed);
  });
  const found = mean.found();
  if (found && found.max >= end)
    return {
      ...none(
        `the solenoid current stood at the end of its range (${withUnit(statedText(end), unit)}): how high it went is not known`,
      ),
      atLeast: end,
      unit,
    };
  return found
    ? { mean: found.mean, max: found.max, unit }
    : { ...none('the solenoid current has no valid reading while engaged'), unit };
}
