import type { Channel, Role } from '#formats/log.ts';
import type { RigChannel } from '#formats/rig.ts';
import { copyOf } from '#statistics/like.ts';
import { flagSpikes, type PutBack } from './flag-spikes.ts';
import { applyLine, correctionLine, rangeOf, resolutionOf } from './judged-pressure.ts';
import { sameMarks } from './marked-rows.ts';
import { flagOutOfRange, keptValues, spikeFloor, withRangeEnd } from './set-aside.ts';
import type { Timeline } from './timeline.ts';

/** A channel other than the judged pressure, with what is set aside. */
export interface ChannelReading {
  channel: Channel;
  rigChannel: RigChannel | null;
  flags: Uint8Array;
  /** After the rig's correction, every reading. */
  values: Float64Array;
  /** After the rig's correction, NaN where set aside. */
  kept: Float64Array;
  /** What looked like spikes and counts; null where none are looked for. */
  putBack: PutBack | null;
  /** Step of the indication after the correction; 0 where none is known or looked for. */
  step: number;
}

/**
 * Channels that move slowly, so that a reading far from its neighbours is a spike. A solenoid's current jumps by its nature, and of
 * a column without a role nothing is known.
 */
const smoothRoles: readonly (Role | null)[] = [
  'pressure',
  'oil-temperature',
  'ambient-temperature',
  'shaft-speed',
];

/** Reads a channel: range and spikes. */
export function readChannel(
  timeline: Timeline,
  channel: Channel,
  rigChannel: RigChannel | null,
): ChannelReading {
  const range = rangeOf(rigChannel),
    isSmooth = smoothRoles.includes(channel.role);
  const own = range || isSmooth ? copyOf(channel.flags) : channel.flags;
  if (range) flagOutOfRange(channel, own, range, null);
  const resolution = isSmooth ? resolutionOf(channel, rigChannel) : null;
  const putBack = isSmooth
    ? flagSpikes(
        {
          timeline,
          values: channel.values,
          floor: spikeFloor(channel.values, own, resolution),
          pieces: [{ from: 0, to: own.length }],
        },
        own,
      )
    : null;
  // Where nothing more was set aside than the log has, a copy of its flags is not worth keeping.
  const flags = sameMarks(own, channel.flags) ? channel.flags : own;
  const line = correctionLine(rigChannel);
  const values = applyLine(channel.values, line),
    keptReading = keptValues(channel.values, flags);
  return {
    channel,
    rigChannel,
    flags,
    values,
    kept: keptReading === channel.values ? values : applyLine(keptReading, line),
    putBack,
    step: (resolution ?? 0) * Math.abs(line.slope),
  };
}

/**
 * What a channel read, with readings that stood at the upper end of its range put back as that end (Infinity without a range): it was
 * at least so much.
 */
export function upToTheEnd(reading: ChannelReading): { kept: Float64Array; end: number } {
  const range = rangeOf(reading.rigChannel);
  if (!range) return { kept: reading.kept, end: Infinity };
  const line = correctionLine(reading.rigChannel),
    end = range.high * line.slope + line.offset;
  return { kept: withRangeEnd(reading, range, reading.kept, end), end };
}
