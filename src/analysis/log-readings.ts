import type { LoggedRun } from '#formats/assessment.ts';
import type { Channel, Log } from '#formats/log.ts';
import type { Rig } from '#formats/rig.ts';
import { readChannel, type ChannelReading } from './channel-reading.ts';
import { rigChannelOf } from './judged-pressure.ts';
import { loggedChannelOf } from './logged-channel.ts';
import { readPressure, type PressureInput, type PressureReading } from './pressure-reading.ts';
import { timelineOf, type Timeline } from './timeline.ts';

/** How a pressure column is looked at; all else of it follows from the log and the rig. */
export type PressureLook = Pick<PressureInput, 'unit' | 'low' | 'held'>;

/**
 * What is read out of one log with one rig, whatever it is judged by: worked out when it is first asked for, and kept. A log that is
 * looked at, judged, and judged again with a border moved is gone through for spikes once.
 */
export interface LogReadings {
  log: Log;
  rig: Rig | null;
  timeline: Timeline;
  /** A channel by itself, other than the judged pressure. */
  channel(channel: Channel): ChannelReading;
  /** The judged pressure; that of the look before stays at hand. @param others what solenoid and shaft are found from: the same for the same log */
  pressure(
    channel: Channel,
    look: PressureLook,
    others: () => Pick<PressureInput, 'solenoid' | 'shaft'>,
  ): PressureReading;
  /** The channel as it is listed, with these readings set aside. */
  listed(channel: Channel, flags: Uint8Array): LoggedRun['channels'][number];
}

/** @param rig as used when the log was read */
export function readingsOf(log: Log, rig: Rig | null): LogReadings {
  const timeline = timelineOf(log);
  const channels = new Map<Channel, ChannelReading>();
  const lists = new Map<Channel, { flags: Uint8Array; listed: LoggedRun['channels'][number] }>();
  let last: { channel: Channel; look: PressureLook; reading: PressureReading } | null = null;
  return {
    log,
    rig,
    timeline,
    channel(channel) {
      const known = channels.get(channel);
      if (known !== undefined) return known;
      const reading = readChannel(timeline, channel, rigChannelOf(rig, channel.column));
      channels.set(channel, reading);
      return reading;
    },
    pressure(channel, look, others) {
      if (
        last?.channel !== channel ||
        last.look.unit !== look.unit ||
        last.look.low !== look.low ||
        last.look.held !== look.held
      ) {
        // The one before goes first: of a long log two would not be wanted in memory.
        last = null;
        const reading = readPressure({
          timeline,
          channel,
          rigChannel: rigChannelOf(rig, channel.column),
          ...look,
          ...others(),
        });
        last = { channel, look, reading };
      }
      return last.reading;
    },
    listed(channel, flags) {
      const known = lists.get(channel);
      if (known?.flags === flags) return known.listed;
      const listed = loggedChannelOf(channel, flags);
      lists.set(channel, { flags, listed });
      return listed;
    },
  };
}
