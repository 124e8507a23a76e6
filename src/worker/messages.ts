import type { Assessment, Inspection } from '#formats/assessment.ts';
import type { BookAdjustment, BookRun, BookShop, BookUnit, KeptRig, KeptSpec } from '#formats/book.ts';
import type { Judge } from '#formats/judge.ts';
import type { Role } from '#formats/log.ts';
import type { Problem } from '#formats/problem.ts';
import type { Rig } from '#formats/rig.ts';
import type { DrawnSeries } from '#drawing/drawn-series.ts';
import type { Spec } from '#formats/spec.ts';
import type { UnitRecord } from '#formats/unit-record.ts';
import type { UnitName } from '#units/unit.ts';
import type { ColumnOverride } from '#log/read-log.ts';
import type { BookProblem } from '#book/store.ts';
import type { Merged, MergeStep } from '#book/merge.ts';
import type { BroughtBackHead } from '#book/take-back.ts';
import type { BookAnswers, BookRequest } from './book-messages.ts';
import type { Excerpt } from './excerpt.ts';
import type { ReadRow } from './first-rows.ts';
import type { LookAnswer } from './follow-file.ts';
import type { Remembering } from './kept-rigs.ts';
import type { Outline } from './outline.ts';
import type { RecordAnswers, RecordChoices, RecordRequest } from './record-messages.ts';
import type { ReliefAnswers, ReliefRequest } from './relief-messages.ts';

export type { ColumnOverride } from '#log/read-log.ts';
export type { BookProblem } from '#book/store.ts';
export type { Excerpt, ExcerptLine } from './excerpt.ts';
export type { LookAnswer } from './follow-file.ts';
export type { Outline } from './outline.ts';
export type { RecordChoices } from './record-messages.ts';
export type { LaidOver, LaidRun, Trail, TrailStep } from './relief-messages.ts';

/**
 * What a log is read from. The page hands the file itself over, not its bytes: a browser passes files by reference, so six hours at
 * a hundred readings a second cost nothing to post.
 */
export interface LogPart {
  /** Made by the page when the file came in; a posted file is a new object each time, this tells that it is the same. */
  key: string;
  blob: Blob;
  name: string | null;
}
/** The log of one run. Where a logger wrote several files for it, the first of them with `more`; the key is that of all together. */
export interface LogFile extends LogPart {
  more?: readonly LogPart[];
}
/** Every file of a run's log, in the order in which they were put together. */
export const partsOf = ({ key, blob, name, more = [] }: LogFile): LogPart[] => [{ key, blob, name }, ...more];

/** How the log is to be read: everything that changes what the columns mean. */
export interface Reading {
  rig: Rig | null;
  overrides: ColumnOverride[];
}

/** What it is judged by. */
export interface Judging {
  spec: Spec | null;
  judge: Judge | null;
}

/** Files that a judged run can be saved as. `json` holds the same bytes as the command line's `--json`. */
export const savedKinds = ['pdf', 'html', 'svg', 'png', 'print-png', 'csv', 'results-csv', 'json'] as const;
export type SavedKind = (typeof savedKinds)[number];

/** What is brought back: a copy, or some entries of a folder with their files. */
export type CopySource = Blob | { folder: FileSystemDirectoryHandle; entries: string[] };

/**
 * One question to the worker. Each names all that it needs, so a worker that was stopped can be replaced by a new one and asked again.
 * `id` comes back with every reply.
 */
export type Request = { id: number } & (
  | { kind: 'inspect'; file: LogFile; reading: Reading }
  | { kind: 'assess'; file: LogFile; reading: Reading; judging: Judging }
  /** The remembered logger whose files have this one's heading. */
  | { kind: 'recognise'; file: LogFile }
  /** Keeps a rig in the book, to be recognised by this file's heading. */
  | { kind: 'remember'; file: LogFile; rig: Rig; at: string }
  /** One look at a file that is still being written; the same `key` reads on from the look before. */
  | { kind: 'follow'; file: LogFile; reading: Reading; judging: Judging }
  | {
      kind: 'save';
      file: LogFile;
      reading: Reading;
      judging: Judging;
      choices: RecordChoices;
      as: SavedKind;
    }
  | {
      kind: 'keep';
      file: LogFile;
      reading: Reading;
      judging: Judging;
      unitRecord: UnitRecord | null;
      at: string;
      seen: SeenRun | null;
      /** Of the sample shop: taken out again with it. */
      sample?: boolean;
    }
  /** A run of the book for its sheet; without `run` the one that was changed last. */
  | { kind: 'restore'; run?: string | undefined }
  | { kind: 'book' }
  | { kind: 'edit'; edits: BookEdit[]; at: string }
  | { kind: 'empty-bin'; removedBefore: string }
  | { kind: 'copy'; to: FileSystemFileHandle | null }
  | { kind: 'look-at-copy'; copy: CopySource }
  /** `name` of the copy, for taking it back. */
  | { kind: 'bring-back'; copy: CopySource; name: string; at: string }
  /** Makes the book as it was before the last copy was brought back. */
  | { kind: 'take-back'; at: string }
  | ReliefRequest
  | BookRequest
  | RecordRequest
  /** Stops the question of this id. */
  | { kind: 'cancel' }
);
export type RequestKind = Request['kind'];

/** What was understood of a log, before anything is judged. */
export interface Understood {
  inspection: Inspection;
  excerpt: Excerpt;
  trace: RunTrace | null;
  /** The first rows as they were read, in the order of `inspection.log.channels`. */
  firstRows: ReadRow[];
  /** The whole run of each channel as a thin line, in the order of `inspection.log.channels`. */
  outlines: Outline[];
}

/** One channel's whole run as the file has it, nothing set aside or judged. */
export interface RunTrace extends Outline {
  column: string;
  role: Role | null;
  unit: UnitName | null;
  /** Time of the last reading, counted from the first row. */
  end_s: number;
}

export interface Judged {
  assessment: Assessment;
  series: DrawnSeries;
}

/** A change of the book by hand: a new entry, or fields of an entry as it was when somebody saw it. */
export type BookEdit =
  | { entry: BookUnit | BookAdjustment | BookShop | KeptSpec | KeptRig }
  | {
      path: string;
      revision: number;
      change: Partial<
        Pick<BookUnit, 'record' | 'goneOutOn' | 'removedAt' | 'relief'> &
          Pick<BookRun, 'unitId' | 'kind' | 'note'> &
          Pick<BookAdjustment, 'runAfter'> &
          Pick<BookShop, 'stock'> & { versions: KeptSpec['versions'] | KeptRig['versions'] }
      >;
    };

/** The run as a window knows it: what was kept since by another one is not written over. */
export interface SeenRun {
  /** SHA-256 of the last verdict that this window saw on it; null: the window speaks of no earlier one, its verdict is added. */
  verdict: string | null;
  /** The unit's record as this window saw it last. */
  unitRecord: UnitRecord | null;
}

/** A run of the book, as it was kept. */
export interface KeptRun {
  id: string;
  seen: SeenRun;
  /** Of the program that made the last verdict on it. */
  programVersion: string | null;
  file: LogFile;
  reading: Reading;
  judging: Judging;
  unitRecord: UnitRecord | null;
}

/** What each question is answered with. */
export interface Answers extends ReliefAnswers, BookAnswers, RecordAnswers {
  inspect: Understood;
  assess: Judged;
  follow: LookAnswer;
  recognise: { rig: Rig | null };
  remember: Remembering;
  save: { bytes: Uint8Array; type: string };
  /** Kept, as the book has it now; otherwise why not. */
  keep: { run: string; seen: SeenRun } | { problem: BookProblem };
  /** null: nothing was kept. `problem`: something was, and cannot be read. */
  restore: { run: KeptRun | null; problem: BookProblem | null };
  book: {
    units: BookUnit[];
    runs: BookRun[];
    specs: KeptSpec[];
    rigs: KeptRig[];
    damaged: BookProblem[];
    /** The copy that was brought back last and can be taken back. */
    broughtBack: BroughtBackHead | null;
    problem: BookProblem | null;
  };
  edit: BookProblem | null;
  'empty-bin': BookProblem | null;
  copy:
    | { stopped: true }
    | { stopped: false; files: number; bytes: number; blob: Blob | null }
    | { problem: BookProblem };
  'look-at-copy':
    | {
        steps: { what: MergeStep['what']; name: string }[];
        left: string[];
        /** Serials that would stand on several units. */
        twice: string[];
        empty: boolean;
      }
    | { problem: BookProblem };
  'bring-back': Merged & { twice: string[] };
  /** `left`: what stays, because it was changed since. */
  'take-back': { out: number; back: number; left: string[] } | { problem: BookProblem };
  cancel: null;
}

export interface Progress {
  stage: 'reading' | 'judging' | 'writing' | 'checking' | 'comparing' | 'copying';
  bytesDone: number;
  bytesTotal: number;
  rows: number;
  /** With the last one of a reading: the run at a first look. */
  trace?: RunTrace | null;
}

export type Reply = { id: number } & (
  | { kind: 'progress'; progress: Progress }
  | { kind: 'answer'; answer: Answers[RequestKind] }
  /** Something a person can mend. */
  | { kind: 'refused'; problems: Problem[] }
  /** A mistake of ours; never silence. */
  | { kind: 'failed'; message: string }
);
