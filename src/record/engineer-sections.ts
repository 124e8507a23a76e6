import type { LeavableSection } from '#formats/record-data.ts';
import type { Section, Unnumbered } from './content.ts';
import { type Telling } from './sheet-one.ts';
import { criteriaSection } from './criteria-section.ts';
import { setAsideSection } from './readings-section.ts';
import { remarksSection } from './remarks-section.ts';
import { methodSection } from './method-section.ts';
import { reliefSection } from './relief-section.ts';
import { fitterSection, laterSection, releaseSection } from './release-section.ts';
import { workSection, concessionSection } from './work-section.ts';
import { budgetSection } from './budget-section.ts';
import { instrumentsSection } from './instruments-section.ts';
import type { SectionExtras } from './section-extras.ts';

/** Sections of sheet 2 in their order, left column before right. */
export function engineerSections(telling: Telling, more: SectionExtras): Section[] {
  // A section that would be empty is not left out, it is not there.
  const leftOut = more.leaveOut.filter((key) => made[key](telling) !== null);
  const remarks = remarksSection(telling, more.missingLetters, leftOut);
  const work = workSection(telling);
  // The work stands where the columns come out more nearly even.
  const workRight = lettersIn(remarks) > LONG_REMARKS;
  const sections: (Unnumbered | null)[] = [
    criteriaSection(telling),
    budgetSection(telling),
    setAsideSection(telling),
    remarks,
    workRight ? null : work,
    instrumentsSection(telling),
    methodSection(telling),
    reliefSection(telling),
    workRight && work ? { ...work, place: 'right' } : null,
    more.howToRead.length === 0 ? null : howToReadSection(telling, more.howToRead),
    concessionSection(telling),
    fitterSection(telling),
    laterSection(telling),
    releaseSection(telling, more),
  ];
  return sections
    .filter((section): section is Unnumbered => section !== null)
    .filter(({ key }) => !more.leaveOut.some((left) => left === key))
    .map((section, index) => ({ ...section, number: index + 1 }));
}

/** The sections that may be left out. */
const made: Readonly<Record<LeavableSection, (telling: Telling) => Unnumbered | null>> = {
  budget: budgetSection,
  work: workSection,
  instruments: instrumentsSection,
  method: methodSection,
  relief: reliefSection,
  later: laterSection,
};
/** Remarks of more letters than this fill the left column by themselves. */
const LONG_REMARKS = 420;
const lettersIn = (section: Unnumbered): number =>
  section.blocks.reduce(
    (sum, block) => sum + (block.kind === 'bullets' ? block.items.join('').length : 0),
    0,
  );

function howToReadSection({ phrases }: Telling, lines: string[]): Unnumbered {
  return {
    key: 'how-to-read',
    title: phrases.sections.howToRead,
    place: 'full',
    blocks: [{ kind: 'paragraph', spans: [{ text: lines.join(' ') }] }],
  };
}
