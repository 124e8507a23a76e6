import type { LoggedRun } from '#formats/assessment.ts';
import { isPressureUnit } from '#units/unit.ts';
import type { LogReadings } from './log-readings.ts';
import { shaftOf } from './shaft.ts';
import { solenoidOf } from './solenoid.ts';

/**
 * Every channel's counts, without a spec: with one pressure column in a known unit what an assessment without a band would set
 * aside; else each column by itself.
 */
export function inspectChannels(readings: LogReadings): LoggedRun['channels'] {
  const { log, timeline } = readings;
  const pressures = log.channels.filter(({ role }) => role === 'pressure');
  const [only] = pressures;
  const judged = pressures.length === 1 && only !== undefined && isPressureUnit(only.unit) ? only : null;
  const keptOf = (role: string): Float64Array | null => {
    const channel = log.channels.find((each) => each !== judged && each.role === role);
    return channel === undefined ? null : readings.channel(channel).kept;
  };
  return log.channels.map((channel) => {
    if (channel !== judged) return readings.listed(channel, readings.channel(channel).flags);
    const unit = isPressureUnit(channel.unit) ? channel.unit : 'psi';
    const reading = readings.pressure(channel, { unit, low: null, held: false }, () => {
      const command = keptOf('solenoid-command'),
        current = keptOf('solenoid-current'),
        speed = keptOf('shaft-speed');
      return {
        solenoid: (command && solenoidOf(timeline, command)) ?? (current && solenoidOf(timeline, current)),
        shaft: speed && shaftOf(timeline, speed),
      };
    });
    // The reading stays at hand; what nobody needs of it does not.
    reading.spare = null;
    return readings.listed(channel, reading.flags);
  });
}
