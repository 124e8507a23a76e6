import type { LoggedRun } from '#formats/assessment.ts';
import type { Channel, Log, Role } from '#formats/log.ts';
import type { Rig, RigChannel } from '#formats/rig.ts';
import type { Smoothing } from '#formats/spec.ts';
import { smooth } from '#signal/smooth.ts';
import { emptyLike } from '#statistics/like.ts';
import { readChannel, type ChannelReading } from './channel-reading.ts';
import { rigChannelOf } from './judged-pressure.ts';
import { loggedChannelOf } from './logged-channel.ts';
import { shaftOf } from './shaft.ts';
import { timelineOf, type Timeline } from './timeline.ts';

/** What was read of a channel apart from the others, on a thread of its own; as {@link ChannelReading}, and smoothed for the oil. */
export interface ApartReading {
  /** Which channel of the log. */
  index: number;
  /** null: those of the log itself. */
  flags: Uint8Array | null;
  values: Float64Array | null;
  /** null: the values. */
  kept: Float64Array | null;
  putBack: ChannelReading['putBack'];
  step: number;
  /** Under the smoothing that was asked for; null where none was. */
  smoothed: { smoothing: Smoothing; values: Float64Array } | null;
  /** Of a shaft's speed, whether it turns, row by row; null where it never does, and of other channels. */
  turning: Uint8Array | null;
  /** The channel as it is listed. */
  listed: LoggedRun['channels'][number];
}

/** In this order they are needed. */
const roles: readonly (Role | null)[] = ['shaft-speed', 'oil-temperature', 'ambient-temperature'];

/** Channels of a log that take long to read and do not need the pressure: places in the log, in the order in which they are needed. */
export function readApart(log: Log): number[] {
  return roles.flatMap((role) =>
    log.channels.flatMap((channel, index) => (channel.role === role ? [index] : [])),
  );
}

/** Reads some channels of a log one after another. */
export function* readingsApart(log: Log, rig: Rig | null, smoothing: Smoothing): Generator<ApartReading> {
  const timeline = timelineOf(log);
  for (const index of readApart(log)) {
    const channel = log.channels[index];
    if (channel !== undefined) yield apart(timeline, channel, index, rig, smoothing);
  }
}

function apart(
  timeline: Timeline,
  channel: Channel,
  index: number,
  rig: Rig | null,
  smoothing: Smoothing,
): ApartReading {
  const { flags, values, kept, putBack, step } = readChannel(
    timeline,
    channel,
    rigChannelOf(rig, channel.column),
  );
  return {
    index,
    flags: flags === channel.flags ? null : flags,
    values: values === channel.values ? null : values,
    kept: kept === values ? null : kept,
    putBack,
    step,
    smoothed:
      channel.role === 'oil-temperature'
        ? {
            smoothing,
            // Asked for again by either thread.
            values: smooth(timeline.time_s, kept, smoothing, timeline.gaps, emptyLike(kept)),
          }
        : null,
    turning: channel.role === 'shaft-speed' ? (shaftOf(timeline, kept)?.turning ?? null) : null,
    listed: loggedChannelOf(channel, flags),
  };
}

/** Puts a reading together again, with the log's own arrays where it shares them. */
export function fromApart(
  { flags, values, kept, putBack, step }: ApartReading,
  channel: Channel,
  rigChannel: RigChannel | null,
): ChannelReading {
  const all = values ?? channel.values;
  return {
    channel,
    rigChannel,
    flags: flags ?? channel.flags,
    values: all,
    kept: kept ?? all,
    putBack,
    step,
  };
}
