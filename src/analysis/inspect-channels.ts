import type { LoggedRun } from '#formats/assessment.ts';
import type { Log } from '#formats/log.ts';
import type { Rig } from '#formats/rig.ts';
import { isPressureUnit } from '#units/unit.ts';
import { readChannel } from './channel-reading.ts';
import { rigChannelOf } from './judged-pressure.ts';
import { loggedChannelOf } from './logged-channel.ts';
import { readPressure } from './pressure-reading.ts';
import { shaftOf } from './shaft.ts';
import { solenoidOf } from './solenoid.ts';
import { timelineOf } from './timeline.ts';

/**
 * Every channel's counts, without a spec: with one pressure column in a known unit what an assessment without a band would set
 * aside; else each column by itself.
 */
export function inspectChannels(log: Log, rig: Rig | null): LoggedRun['channels'] {
  const timeline = timelineOf(log);
  const pressures = log.channels.filter(({ role }) => role === 'pressure');
  const [only] = pressures;
  const readings = log.channels.map((channel) =>
    channel === only && pressures.length === 1 && isPressureUnit(channel.unit)
      ? null
      : readChannel(timeline, channel, rigChannelOf(rig, channel.column)),
  );
  const keptOf = (role: string): Float64Array | null =>
    readings.find((reading) => reading?.channel.role === role)?.kept ?? null;
  return log.channels.map((channel, index) => {
    const reading = readings[index];
    if (reading) return loggedChannelOf(channel, reading.flags);
    const command = keptOf('solenoid-command'),
      current = keptOf('solenoid-current'),
      speed = keptOf('shaft-speed');
    const { flags } = readPressure({
      timeline,
      channel,
      rigChannel: rigChannelOf(rig, channel.column),
      unit: isPressureUnit(channel.unit) ? channel.unit : 'psi',
      low: null,
      held: false,
      solenoid: (command && solenoidOf(timeline, command)) ?? (current && solenoidOf(timeline, current)),
      shaft: speed && shaftOf(timeline, speed),
    });
    return loggedChannelOf(channel, flags);
  });
}
