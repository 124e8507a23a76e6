import type { Quantities } from '#formats/assessment.ts';
import { median } from '#statistics/median.ts';
import type { Engagement } from './engagements.ts';
import { applyLine, pressureLine } from './judged-pressure.ts';
import type { Situation } from './situation.ts';
import { at, rowFrom, without, type Rows } from './timeline.ts';

/** The falling edge after a release is no released pressure. */
const AFTER_RELEASE_s = 5;
/** Fewer readings tell no level. */
const READINGS_NEEDED = 5;

/** Rows in which nothing is engaged, the first seconds after each release left out. */
function releasedRows({ timeline, reading, leftOut }: Situation): Rows[] {
  const { time_s, part } = timeline;
  const engaged = reading.pressured.map(({ rows }: Engagement): Rows => {
    const last = Math.min(rows.to, time_s.length - 1);
    return { from: rows.from, to: Math.max(rows.to, rowFrom(time_s, at(time_s, last) + AFTER_RELEASE_s)) };
  });
  const taken = [...engaged, ...leftOut].sort((a, b) => a.from - b.from);
  return without([part], taken);
}

/**
 * Released pressure: median while the shaft turns and nothing is engaged; without a speed channel, of the idle stretches after the
 * first engagement.
 */
export function releasedPressure(situation: Situation): Quantities['releasedPressure'] {
  const { reading, shaft, unit, held } = situation;
  const none = (reason: string): Quantities['releasedPressure'] => ({ value: null, unit, reason });
  const [first] = reading.pressured;
  if (held) return none('a unit that stays charged has no released pressure');
  if (!first && !shaft) return none('there is no engagement in this log, and no shaft speed');
  const readings: number[] = [];
  for (const { from, to } of releasedRows(situation))
    for (let i = from; i < to; i++)
      if (shaft ? shaft.turning[i] === 1 : i >= (first?.rows.to ?? 0)) {
        const value = at(reading.kept, i);
        if (!Number.isNaN(value)) readings.push(value);
      }
  if (readings.length < READINGS_NEEDED)
    return none(
      shaft
        ? 'the shaft did not turn for long enough with nothing engaged'
        : 'too few readings after the first release',
    );
  return { value: median(readings), unit };
}

/** Zero at rest: median before the first rise with the shaft standing still, as read, nothing subtracted. */
export function zeroAtRest(situation: Situation): Quantities['zeroAtRest'] {
  const { reading, shaft, unit } = situation;
  if (reading.restReading === null) {
    const [first] = reading.pressured;
    return {
      value: null,
      unit,
      reason: !first
        ? 'there is no engagement in this log'
        : first.beganBefore
          ? 'the log begins with pressure: there is no rest before it'
          : shaft?.turning[0] === 1
            ? 'the shaft turns from the first reading: there is no rest'
            : 'too few readings at rest before the first rise',
    };
  }
  const line = pressureLine(reading.channel, reading.rigChannel, unit);
  return { value: applyLine(Float64Array.of(reading.restReading), line)[0] ?? null, unit };
}
