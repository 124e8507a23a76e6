import { chart } from '#drawing/chart.ts';
import type { Drawing } from '#drawing/display-list.ts';
import { withoutLeftOut } from './attached-files.ts';
import type { RecordContent } from './content.ts';
import type { FontSet } from './font-set.ts';
import { fitOf, layPages, type Page } from './lay-pages.ts';
import { phrasesOf } from './phrases.ts';
import { recordContent } from './record-content.ts';
import type { RecordInput } from './record-input.ts';
import type { SectionExtras } from './section-extras.ts';
import { inRecordUnits } from './shown-units.ts';
import { codeText } from './square-code.ts';

/** A page number that would move its own section back and forth is left at the last. */
const MOST_ROUNDS = 4;

/**
 * Content and pages, which need each other: how sheet 1 fits decides what sheet 2 says, and the pages are named in the text.
 * @param attached whether the log goes into the file itself
 */
export function laidOut(
  given: RecordInput,
  fonts: FontSet,
  attached: boolean,
): { content: RecordContent; pages: Page[] } {
  const leaveOut = given.leaveOut ?? [];
  // What is left out must not come in by another door.
  const input = inRecordUnits({
    ...given,
    unitRecord: given.unitRecord && withoutLeftOut(given.unitRecord, leaveOut),
  });
  const { phrases, numbers } = phrasesOf(input.language);
  const drawn = new Map<number, Drawing>();
  const steps = input.unitRecord?.adjustments;
  const draw = (stripHeight: 20 | 10): Drawing => {
    let drawing = drawn.get(stripHeight);
    if (!drawing) {
      const last = { assessment: input.assessment, series: input.series };
      drawing = chart({
        runs: input.earlier ? [input.earlier, last] : [last],
        adjustment: steps?.[steps.length - 1] ?? null,
        words: phrases.chart,
        numbers,
        width: fonts.width,
        stripHeight,
      });
      drawn.set(stripHeight, drawing);
    }
    return drawing;
  };
  const layout = (content: RecordContent): Parameters<typeof layPages>[0] => ({
    content,
    chart: draw,
    paper: input.paper,
    measure: fonts.width,
  });
  let begins: ReadonlyMap<string, number> = new Map();
  const extras: SectionExtras = {
    howToRead: [],
    missingLetters: [],
    attached,
    pageOf: (key) => begins.get(key) ?? 2,
    assessmentSha256: input.assessmentSha256 ?? null,
    leaveOut,
    code: codeText(input.unitRecord?.recordNumber ?? null, input.assessment.log.sha256),
  };
  let content = recordContent(input, extras);
  const { howToRead } = content;
  const fit = fitOf(layout(content));
  // Laid out again until it names its own pages rightly, and the letters that no face holds: twice, seldom three times.
  for (let round = 0; ; round++) {
    const laid = layPages(layout(content), fit);
    const before = begins;
    begins = laid.begins;
    const settled = round > 0 && [...begins].every(([key, page]) => before.get(key) === page);
    if (settled || round === MOST_ROUNDS) return { content, pages: laid.pages };
    content = recordContent(input, {
      ...extras,
      howToRead: fit.chartHere && !fit.howToReadHere ? howToRead : [],
      missingLetters: [...fonts.missing].sort(),
    });
  }
}
