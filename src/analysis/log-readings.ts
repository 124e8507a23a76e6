import type { LoggedRun } from '#formats/assessment.ts';
import type { Channel, Log } from '#formats/log.ts';
import type { Rig } from '#formats/rig.ts';
import type { Smoothing } from '#formats/spec.ts';
import { smooth } from '#signal/smooth.ts';
import { readChannel, type ChannelReading } from './channel-reading.ts';
import { rigChannelOf } from './judged-pressure.ts';
import { loggedChannelOf } from './logged-channel.ts';
import type { CurrentApart, CurrentQuestion, HoldApart, HoldQuestion } from './quantities-apart.ts';
import { fromApart, type ApartReading } from './read-apart.ts';
import { readPressure, type PressureInput, type PressureReading } from './pressure-reading.ts';
import { shaftOf, type Shaft } from './shaft.ts';
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
  /** A channel's readings that count, smoothed. */
  smoothed(reading: ChannelReading, smoothing: Smoothing): Float64Array;
  /** The shaft from its speed; null where it never turned. */
  shaft(reading: ChannelReading): Shaft | null;
  /** The judged pressure; that of the look before stays at hand. @param others what solenoid and shaft are found from: the same for the same log */
  pressure(channel: Channel, look: PressureLook, others: PressureInput['others']): PressureReading;
  /** Begins with what another thread may work out of the current, and of the hold; what it returns waits for it, and gives null where nothing comes of it. */
  beginCurrent(question: CurrentQuestion): () => CurrentApart | null;
  beginHold(question: HoldQuestion): () => HoldApart | null;
  /** The channel as it is listed, with these readings set aside. */
  listed(channel: Channel, flags: Uint8Array): LoggedRun['channels'][number];
}

/** A thread of its own, at work on the same log. */
export interface Apart {
  /** Waits for the reading of a channel that is being read there; null for one that is not. @param index its place in the log */
  awaitChannel(index: number): ApartReading | null;
  /** Begins with quantities there; what it returns waits for them, and gives null where nothing comes of it. */
  beginCurrent(question: CurrentQuestion): () => CurrentApart | null;
  beginHold(question: HoldQuestion): () => HoldApart | null;
}
const nothing = (): null => null;
const nowhere: Apart = { awaitChannel: nothing, beginCurrent: () => nothing, beginHold: () => nothing };

/**
 * @param rig as used when the log was read
 * @param apart where some of it is done at the same time
 */
export function readingsOf(log: Log, rig: Rig | null, apart: Apart = nowhere): LogReadings {
  const timeline = timelineOf(log);
  const readElsewhere = new Map<ChannelReading, ApartReading>();
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
      const rigChannel = rigChannelOf(rig, channel.column);
      const read = apart.awaitChannel(log.channels.indexOf(channel));
      const reading =
        read === null ? readChannel(timeline, channel, rigChannel) : fromApart(read, channel, rigChannel);
      channels.set(channel, reading);
      if (read !== null) {
        readElsewhere.set(reading, read);
        lists.set(channel, { flags: reading.flags, listed: read.listed });
      }
      return reading;
    },
    smoothed(reading, smoothing) {
      const known = readElsewhere.get(reading)?.smoothed ?? null;
      return known !== null && sameSmoothing(known.smoothing, smoothing)
        ? known.values
        : smooth(timeline.time_s, reading.kept, smoothing, timeline.gaps);
    },
    shaft(reading) {
      const read = readElsewhere.get(reading);
      if (read === undefined) return shaftOf(timeline, reading.kept);
      return read.turning && { turning: read.turning, speed: reading.kept };
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
          others,
        });
        last = { channel, look, reading };
      }
      return last.reading;
    },
    beginCurrent(question) {
      const awaitCurrent = apart.beginCurrent(question);
      return () => {
        const { current } = question,
          found = awaitCurrent();
        if (current && found?.listed)
          lists.set(current.channel, { flags: current.flags, listed: found.listed });
        return found;
      };
    },
    beginHold: (question) => apart.beginHold(question),
    listed(channel, flags) {
      const known = lists.get(channel);
      if (known?.flags === flags) return known.listed;
      const listed = loggedChannelOf(channel, flags);
      lists.set(channel, { flags, listed });
      return listed;
    },
  };
}

function sameSmoothing(one: Smoothing, other: Smoothing): boolean {
  return JSON.stringify(one) === JSON.stringify(other);
}
