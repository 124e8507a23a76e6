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
  | { kind: 'clean-logo'; logo: File };

export interface RecordAnswers {
  /** The pages, an SVG text each. */
  preview: { pages: string[] };
  'check-record': Verification;
  'clean-logo': Logo;
}
