import type { LeavableSection } from '#formats/record-data.ts';

/** What only the making of the pages knows. */
export interface SectionExtras {
  /** Lines that found no room on sheet 1. */
  howToRead: string[];
  missingLetters: readonly string[];
  attached: boolean;
  /** Page on which a section begins. */
  pageOf: (key: string) => number;
  assessmentSha256: string | null;
  code: string | null;
  /** Sections that the shop leaves out. */
  leaveOut: readonly LeavableSection[];
}
