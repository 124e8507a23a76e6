import type { Channel, Log } from '#formats/log.ts';
import type { Choice } from '#formats/judge.ts';
import type { Rig } from '#formats/rig.ts';
import type { Smoothing, Spec } from '#formats/spec.ts';
import type { PressureUnit } from '#units/pressure.ts';
import type { TemperatureUnit } from '#units/temperature.ts';
import type { ChannelReading } from './channel-reading.ts';
import type { Hold, NoHold } from './hold.ts';
import type { LostPressure } from './lost-pressure.ts';
import type { PressureReading } from './pressure-reading.ts';
import type { CurrentApart } from './quantities-apart.ts';
import type { Run } from './run.ts';
import type { Settling } from './settling.ts';
import type { Shaft } from './shaft.ts';
import type { Solenoid } from './solenoid.ts';
import type { Band } from './time-in-band.ts';
import type { Rows, Timeline } from './timeline.ts';

/** What an analysis starts from. Roles and units were checked before. */
export interface AnalysisInput {
  log: Log;
  /** The one column with the role `pressure`, its unit a pressure unit. */
  pressure: Channel;
  rig: Rig | null;
  spec: Spec | null;
  choices: readonly Choice[];
}

/** Oil temperature as read and smoothed. */
export interface Oil extends ChannelReading {
  smoothed: Float64Array;
  unit: TemperatureUnit;
  /** Operating temperature's limits in `unit`; null for an open side or none stated. */
  operating: Band;
}

/** Why nothing, or no hold, is judged. */
export type Unjudged = 'no-readings' | 'no-engagement' | 'no-run' | NoHold;

/** Everything that was found before quantities are worked out. */
export interface Situation {
  input: AnalysisInput;
  timeline: Timeline;
  unit: PressureUnit;
  held: boolean;
  smoothing: Smoothing;
  /** In the judged unit; null without a spec. */
  band: Band | null;
  reading: PressureReading;
  /** Smoothed judged pressure. */
  smoothed: Float64Array;
  oil: Oil | null;
  ambient: (ChannelReading & { unit: TemperatureUnit }) | null;
  speed: ChannelReading | null;
  shaft: Shaft | null;
  current: ChannelReading | null;
  /** Waits for what is worked out of the current elsewhere; gives null for nothing. */
  awaitCurrent: () => CurrentApart | null;
  solenoid: Solenoid | null;
  /** Every channel's flags, in the order of the log's channels. */
  flags: readonly Uint8Array[];
  readings: readonly ChannelReading[];
  run: Run | null;
  tolerance: number | null;
  settling: Settling | null;
  hold: Hold | null;
  unjudged: Unjudged | null;
  /** A loss of pressure that is no release as far as the log shows. */
  lost: LostPressure | null;
  leftOut: readonly Rows[];
}
