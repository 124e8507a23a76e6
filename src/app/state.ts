import type { Problem } from '#formats/problem.ts';
import type { Rig } from '#formats/rig.ts';
import type { Spec } from '#formats/spec.ts';
import type { UnitRecord } from '#formats/unit-record.ts';
import type {
  BookProblem,
  ColumnOverride,
  Judged,
  Judging,
  LogFile,
  Progress,
  Reading,
  RunTrace,
  SavedKind,
  SeenRun,
  Understood,
} from '#worker/messages.ts';
import type { FileLayout } from './column-rig.ts';
import type { Going } from './going.ts';
import type { RunStep } from './run-steps.ts';
import type { SampleRun } from './sample-runs.ts';

export const places = ['book', 'unit', 'bring-in', 'run', 'relief', 'gauge', 'record'] as const;
export type Place = (typeof places)[number];

/** What went wrong, where it is to be shown, and what of it a person can mend. */
export type Trouble =
  | { kind: 'problems'; problems: Problem[] }
  /** A mistake of ours. */
  | { kind: 'failed'; message: string };

/** The limits that a run is judged by, and where they came from; `spec` null: looked at only, nothing is judged. */
export interface Limits {
  spec: Spec | null;
  from: 'typed' | 'file' | 'kept' | 'sample' | 'last' | 'none';
  fileName: string | null;
}

/** A log that is being brought in: what was understood of it, and what was answered. */
export interface Draft {
  file: LogFile;
  sample: SampleRun | null;
  /** The bench; a gauge that was only stated is a rig of its pressure channel alone. */
  rig: {
    rig: Rig;
    from: 'file' | 'sample' | 'stated' | 'last' | 'kept';
    /** The bench that a gauge was stated for: its columns hold, its gauge does not. */
    over?: Draft['rig'];
  } | null;
  /** How the file is laid out, where that was put right by hand. */
  layout: FileLayout;
  /** No column could be read as time: rows count as samples, and how far apart they are is asked. */
  timeMissing: boolean;
  /** Columns that were spoken of and are not in the table as it is laid out now. */
  absent: string[];
  /** What remembering its logger came to. */
  remembered: string | null;
  /** Roles and units set above a column. */
  corrections: ColumnOverride[];
  /** Choice by question. */
  answers: ReadonlyMap<string, string>;
  limits: Limits | null;
  unitRecord: UnitRecord | null;
  /** The record of the unit in the book that `unitRecord` began from; null: the unit is new, or none was named. */
  unitBefore: UnitRecord | null;
  /** As the file alone shows it; what a correction changes is told against it. */
  firstRead: Understood | null;
  /** As read with the rig alone: the questions come from it. */
  asRead: Understood | null;
  /** As read with answers and corrections. */
  understood: Understood | null;
  progress: (Progress & Pick<Going, 'left_s'>) | null;
  /** The run as the file has it, before anything is looked for in it. */
  trace: RunTrace | null;
  stage: 'reading' | 'ready' | 'judging';
  trouble: Trouble | null;
  /** A spec, rig or unit file that could not be used. */
  fileTrouble: Trouble | null;
}

/** A border of the hold that is being moved by hand, a span that is to be left out, engagements that are to be judged together: what would come of it, before it is kept or put back. */
export interface Trial {
  what: 'hold-start' | 'hold-end' | 'leave-out' | 'join-engagements';
  /** Where it was worked out, or where the span or the joined part begins; log position. */
  from_s: number;
  to_s: number;
  /** What was typed of the reason so far. */
  why: string;
  judging: boolean;
  judged: Judged | null;
  /** Why it cannot stand there. */
  trouble: Trouble | null;
}

/** A judged run, as it lies on the sheet. */
export interface Run {
  file: LogFile;
  reading: Reading;
  judging: Judging;
  unitRecord: UnitRecord | null;
  judged: Judged;
  trial: Trial | null;
  /** What takes each thing back that was done by hand, oldest first, and what makes it again. */
  undo: RunStep[];
  redo: RunStep[];
  /** Its id in the book; null until it was kept. */
  id: string | null;
  /** What this window knows of it in the book. */
  seen: SeenRun | null;
  /** Whether it would be there again after a reload. */
  kept: 'keeping' | 'kept' | BookProblem;
}

/** A log that was brought in with others and waits its turn. */
export interface Waiting {
  file: LogFile;
  state: 'waiting' | 'asked' | 'judged' | 'put-back';
  verdict: string | null;
}

export interface Saving {
  as: SavedKind;
  state: 'making' | 'done' | Trouble;
}

export interface State {
  place: Place;
  /** Id of the field that the keyboard is to go to in that place; null: to its heading. */
  field: string | null;
  /** Until the last run was looked for. */
  opening: boolean;
  draft: Draft | null;
  run: Run | null;
  /** Files brought in together, in order; empty for one alone. */
  batch: Waiting[];
  samples: SampleRun[] | Trouble | null;
  samplesShown: boolean;
  saving: Saving | null;
  /** A folder that was dropped and holds no log. */
  noLogIn: string | null;
  /** The last run was kept and cannot be read. */
  keptProblem: BookProblem | null;
  /** What was just done, for those who hear the page. */
  said: string;
}
