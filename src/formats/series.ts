import type { UnitName } from '#units/unit.ts';
import type { PressureUnit } from '#units/pressure.ts';
import type { Role } from './log.ts';

/** One channel as drawn and written to CSV. Arrays have one entry a row of the log; NaN for no reading. */
export interface SeriesChannel {
  column: string;
  role: Role | null;
  unit: UnitName | null;
  /** After the rig's correction, in `unit`; set-aside readings stay here, `flags` says why they do not count. */
  values: Float64Array;
  flags: Uint8Array;
}

/** The run as judged: what is drawn and written as CSV. Shares arrays with the Log where nothing changed. */
export interface Series {
  time_s: Float64Array;
  /** Start as logged, or null. */
  start: string | null;
  medianInterval_s: number;
  gaps: { start_s: number; end_s: number }[];
  /** The line of the drift at the hold's end, in the judged unit; its slope is the assessment's. Left out where there is none. */
  driftLine?: { end_s: number; value: number };
  /** In the judged unit (the spec's, else the log's). */
  pressure: (SeriesChannel & { unit: PressureUnit; smoothed: Float64Array }) | null;
  /** Smoothed oil temperature in the unit of its channel, null without one. */
  oil: (SeriesChannel & { smoothed: Float64Array }) | null;
  /** Every other channel that is not ignored. */
  others: SeriesChannel[];
}
