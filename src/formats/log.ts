import type { UnitName } from '#units/unit.ts';

/** What a column stands for. `ignored`: there, but of no use to the judgement. */
export const roles = [
  'pressure',
  'oil-temperature',
  'ambient-temperature',
  'shaft-speed',
  'solenoid-current',
  'solenoid-command',
  'flow',
  'ignored',
] as const;
export type Role = (typeof roles)[number];

export const timeForms = [
  'iso-8601',
  'date-time',
  'time-of-day',
  'elapsed-seconds',
  'elapsed-hms',
  'elapsed-minutes',
  'epoch-seconds',
  'epoch-milliseconds',
  'epoch-microseconds',
  'epoch-nanoseconds',
  'ticks-from-1601',
  'ticks-from-1',
  'julian-day',
  'modified-julian-day',
  'spreadsheet-serial',
  'sample-number',
] as const;
export type TimeForm = (typeof timeForms)[number];
export const encodings = ['utf-8', 'utf-16le', 'utf-16be', 'windows-1252'] as const;
export type Encoding = (typeof encodings)[number];
export const unitOrigins = ['header', 'unit-row', 'unit-column', 'cell', 'rig', 'user'] as const;
export type UnitOrigin = (typeof unitOrigins)[number];

/** Why a reading was set aside; one byte a sample. A reading counts under exactly one heading, in this order. */
export const SetAside = { kept: 0, missing: 1, faultToken: 2, outOfRange: 3, stuck: 4, spike: 5 } as const;
export type SetAsideKind = Exclude<keyof typeof SetAside, 'kept'>;

/** How a file is written, as it was found or as the rig says. */
export interface Dialect {
  encoding: Encoding;
  delimiter: string;
  decimal: '.' | ',';
  /** Lines from 1; null where there is none. */
  headerLine: number | null;
  unitLine: number | null;
}

/** One column of readings. Arrays have one entry for each row of the log, in file order. */
export interface Channel {
  /** Name as written; "P#2" for a second one of the same name, "column 3" for one without. */
  column: string;
  /** Place in the file's rows, from 0. */
  position: number;
  role: Role | null;
  unit: UnitName | null;
  unitFrom: UnitOrigin | null;
  /** In `unit` (after scaling a raw sensor signal, before the rig's correction); NaN for no reading. Never mutated after reading. */
  values: Float64Array;
  /** A {@link SetAside} byte a sample; the reader sets missing, faultToken and, for sentinels and signal faults, outOfRange. */
  flags: Uint8Array;
  /** Every text that was not a number, with how often it came; the first 20. */
  faultTokens: { token: string; count: number }[];
  /** Most digits after the decimal mark among the column's numbers; null where an exponent or a calculation makes it meaningless. */
  decimals: number | null;
}

/** The file that a log came from. */
export interface LogSource {
  fileName: string | null;
  bytes: number;
  /** Hex; null for a run in several parts, each of which has its own. */
  sha256: string | null;
}

/** A stretch without rows; seconds from the first row. */
export interface Gap {
  start_s: number;
  end_s: number;
}
/** A jump of the clock that was taken out (whole hours) or that cuts the log. `at_s`: last row before it. */
export interface ClockStep {
  at_s: number;
  step_s: number;
  cuts: boolean;
}

/** Where a log begins when its dates are read in an order. */
export interface DateReading {
  order: 'year-month-day' | 'day-month-year' | 'month-day-year';
  origin_s: number;
  start: string;
}

/** What the file says: the result of reading, before anything is judged. */
export interface Log {
  source: LogSource;
  /** The files of a run that came in parts, in order; empty for one file. */
  parts: LogSource[];
  dialect: Dialect;
  rows: number;
  skippedRowCount: number;
  /** The first 50. */
  skippedRows: { line: number; reason: string }[];
  timeForm: TimeForm;
  /** As logged ("2026-03-04T08:15:00", "08:15:00"); null for elapsed time. */
  start: string | null;
  /** The first row on the file's own scale: seconds since 1970 (UTC where the log gives an offset), since midnight, or of the count. */
  origin_s: number;
  /**
   * Orders in which the dates' numbers may stand, with where the log begins by each: one where the log decides, two where nothing
   * does; left out for a time without such dates. A run in several files is decided by all of them.
   */
  dateOrders?: DateReading[];
  duration_s: number;
  /** Of the positive intervals; 0 where there are none. */
  medianInterval_s: number;
  /** Seconds from the first row with a usable time; never goes back (clock steps taken out as definitions say). Length `rows`. */
  time_s: Float64Array;
  gaps: Gap[];
  clockSteps: ClockStep[];
  /** Readable columns in file order, the time columns left out. */
  channels: Channel[];
  /** The time column or columns as named in the file. */
  timeColumns: string[];
  /** Roles that several columns could have; none of them got it, and the user or the rig file must say. */
  roleCandidates: { role: Role; columns: string[] }[];
  /** Facts about the reading that a person should see, as problem-like data with sentences in formats/remark.ts. */
  remarks: import('./remark.ts').Remark[];
}
