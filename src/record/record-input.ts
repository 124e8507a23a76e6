import type { Assessment } from '#formats/assessment.ts';
import type { LeavableSection, Paper, RecordData, RecordUnits } from '#formats/record-data.ts';
import type { Series } from '#formats/series.ts';
import type { UnitRecord } from '#formats/unit-record.ts';
import type { RecordFonts } from './fonts.ts';
import type { Language } from './phrases.ts';

export type { Paper } from '#formats/record-data.ts';

/** A log that goes into the record unchanged. */
export interface AttachedFile {
  fileName: string;
  bytes: Uint8Array;
}

/** One test: what came out, what is drawn, and the bytes it came from. */
export interface RecordedTest {
  assessment: Assessment;
  series: Series;
  /** The log's bytes as imported, one entry a part; empty: the log is named with its hash but not attached. */
  logs: readonly AttachedFile[];
  /** Columns whose role or unit was corrected by hand when the log was read. */
  columns?: RecordData['columns'];
}

/** Everything that a record is made from. Nothing else is read: no file, no clock, no locale of the machine. */
export interface RecordInput extends RecordedTest {
  /** What the shop knows of unit and customer; null: those lines are left out. */
  unitRecord: UnitRecord | null;
  /** Day of issue, "2026-03-06"; null: the unit record's, or none. */
  date: string | null;
  paper: Paper;
  language: Language;
  fonts: RecordFonts;
  /** SHA-256 of the assessment as written, where the caller has worked it out; printed beside the log's. */
  assessmentSha256?: string | null;
  /** The test before an adjustment, drawn beside the last one and counted. */
  earlier?: RecordedTest | null;
  /** Sections that the shop leaves out. */
  leaveOut?: readonly LeavableSection[];
  logo?: Logo | null;
  /** Units that the shop's records show; left out: those of the limits and the log. */
  units?: RecordUnits;
}

/** A shop's logo, cleaned of all but the picture. */
export interface Logo {
  /** An SVG drawing is of nothing but paths. */
  kind: 'png' | 'jpeg' | 'svg';
  bytes: Uint8Array;
  /** Pixels; of a drawing its own units. */
  width: number;
  height: number;
}
