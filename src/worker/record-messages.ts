import type { BookProblem } from '#book/store.ts';
import type { Verdict } from '#formats/assessment.ts';
import type { LeavableSection, RecordUnits } from '#formats/record-data.ts';
import type { UnitRecord } from '#formats/unit-record.ts';
import type { Verification } from '#formats/verification.ts';
import type { Logo } from '#record/record-input.ts';
import type { Judging, LogFile, Reading } from './messages.ts';

export type { Logo } from '#record/record-input.ts';

/** What the record holds beside the run, and how it looks. */
export interface RecordChoices {
  unitRecord: UnitRecord | null;
  /** Day of issue, "2026-03-06". */
  date: string | null;
  paper: 'a4' | 'letter';
  language?: 'en' | 'de';
  leaveOut?: LeavableSection[];
  logo?: Logo | null;
  units?: RecordUnits;
  /** Id of the run before the last change of the setting, drawn beside this one; null or left out: this one alone. */
  firstTest?: string | null;
}

/** Questions about records, beside saving one. */
export type RecordRequest =
  | { kind: 'preview'; file: LogFile; reading: Reading; judging: Judging; choices: RecordChoices }
  | { kind: 'check-record'; record: File; logs: File[] }
  | { kind: 'clean-logo'; logo: File }
  /** Records of runs of the book, in one zip. */
  | { kind: 'records'; runs: string[]; look: RecordsLook; to: FileSystemFileHandle | null };

/** How many records at once are to look; what each is made from, the book knows. */
export interface RecordsLook extends Omit<RecordChoices, 'unitRecord' | 'firstTest'> {
  /** What the shop says of itself; a unit's own record goes before. */
  shop: UnitRecord['shop'];
}

/** The records that were made, and the runs that were left out. */
export interface RecordsMade {
  stopped: false;
  records: { name: string; verdict: Verdict; /** Things missing before it goes out. */ lacks: number }[];
  left: { name: string; reason: string }[];
  bytes: number;
  /** null: written to the place that was chosen. */
  blob: Blob | null;
}

export interface RecordAnswers {
  /** The pages, an SVG text each. */
  preview: { pages: string[] };
  'check-record': Verification;
  'clean-logo': Logo;
  records: RecordsMade | { stopped: true } | { problem: BookProblem };
}
