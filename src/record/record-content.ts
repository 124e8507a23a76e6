import type { Assessment } from '#formats/assessment.ts';
import { pressureWasJudged } from '#drawing/judged-facts.ts';
import { chartAlt } from './chart-alt.ts';
import type { RecordContent } from './content.ts';
import { engineerSections } from './engineer-sections.ts';
import type { SectionExtras } from './section-extras.ts';
import { phrasesOf, type Phrases } from './phrases.ts';
import type { RecordInput } from './record-input.ts';
import { bodyOf, factLines, foundRows, headlineOf, joinTexts, testedOn, type Telling } from './sheet-one.ts';
import { noBreak, statedText, withUnit } from '#units/number-text.ts';
import type { UnitRecord } from '#formats/unit-record.ts';

/**
 * What a record says of a test.
 * @param input in the units of the record, with the assessment as it was judged where these are other ones
 * @param extras what only the making of the pages knows
 */
export function recordContent(
  input: RecordInput & { stated?: Assessment | null },
  extras: SectionExtras,
): RecordContent {
  const { phrases, numbers } = phrasesOf(input.language);
  const { unitRecord } = input;
  const assessment = saidBy(phrases, input.assessment);
  const telling: Telling = {
    assessment,
    unitRecord,
    earlier: input.earlier ?? null,
    stated: input.stated ?? null,
    phrases,
    numbers,
  };
  const rows = foundRows(telling);
  const number = nonEmpty(unitRecord?.recordNumber);
  const serial = nonEmpty(unitRecord?.unit?.serial);
  const issued = input.date ?? unitRecord?.issuedOn ?? null;
  const tested = testedOn(telling);
  const [left, right] = factLines(telling);
  const held = assessment.phases.some(({ kind }) => kind === 'hold') && pressureWasJudged(assessment);
  const { howToRead } = phrases;
  return {
    language: input.language,
    title: phrases.title,
    subtitle: phrases.subtitle,
    recordNumber: number,
    recordWord: phrases.recordWord,
    issued: issuedWords(),
    logo: input.logo
      ? { picture: input.logo, alt: phrases.alt.logo(nonEmpty(unitRecord?.shop?.name)) }
      : null,
    shop: nonEmpty(unitRecord?.shop?.name),
    // A column without a fact leaves its place to the other.
    facts: left.length === 0 ? [right, left] : [left, right],
    verdict: assessment.verdict,
    verdictWord: phrases.verdict[assessment.verdict],
    headline: headlineOf(telling),
    body: bodyOf(telling, extras.pageOf('concession')),
    table: { heads: phrases.table, rows },
    underTable: (shown) => {
      const hidden = rows.slice(shown);
      const [first] = hidden;
      if (!first) return null;
      return hidden.every(({ result }) => result === 'pass')
        ? phrases.moreMet(
            hidden.length,
            phrases.criteria[first.criterion.id].plain,
            extras.pageOf('criteria'),
          )
        : phrases.moreRows(hidden.length, extras.pageOf('criteria'));
    },
    chartAlt: chartAlt(telling),
    howToRead:
      assessment.spec === null
        ? [howToRead.noLimits]
        : held
          ? [howToRead.judged, howToRead.column]
          : [howToRead.notJudged],
    oilNotice: oilNotice(unitRecord),
    footer: phrases.footer(number, serial),
    page: (page, of) => phrases.page(page, of),
    engineerHead: {
      strong: phrases.engineer.head,
      text: phrases.engineer.tested(serial, tested === null ? null : noBreak(phrases.dateInWords(tested))),
    },
    sections: engineerSections(telling, extras),
    endOfRecord: phrases.endOfRecord,
  };

  function issuedWords(): string | null {
    const replaced = nonEmpty(unitRecord?.replaces?.recordNumber);
    const words = [
      issued === null ? null : phrases.issued(noBreak(phrases.dateInWords(issued))),
      replaced === null ? null : phrases.inPlaceOf(replaced),
    ].filter((each) => each !== null);
    return words.length === 0 ? null : words.join(', ');
  }
  function oilNotice(record: UnitRecord | null): RecordContent['oilNotice'] {
    const oil = record?.oil;
    const words = phrases.oilNotice;
    const keep = words.keep(extras.leaveOut.includes('later') ? null : extras.pageOf('later'));
    if (oil?.leftIn === false) return { strong: words.drained, text: words.fill, keep };
    const grade = joinTexts([oil?.grade]);
    if (oil?.leftIn === true && grade !== '') {
      const quantity =
        oil.quantity_l === undefined ? null : noBreak(withUnit(statedText(oil.quantity_l, numbers), 'l'));
      return { strong: null, text: words.filled(quantity, grade), keep };
    }
    return { strong: null, text: null, keep };
  }
}

/** The sentences of the assessment in the language of the record. */
function saidBy(phrases: Phrases, assessment: Assessment): Assessment {
  const sentence = (text: string): string => phrases.sentence(text);
  const { operatingPressure } = assessment.quantities;
  return {
    ...assessment,
    quantities: {
      ...assessment.quantities,
      operatingPressure:
        operatingPressure.reason === undefined
          ? operatingPressure
          : { ...operatingPressure, reason: sentence(operatingPressure.reason) },
    },
    criteria: assessment.criteria.map((criterion) => ({ ...criterion, reason: sentence(criterion.reason) })),
    remarks: assessment.remarks.map((remark) => ({ ...remark, text: sentence(remark.text) })),
  };
}

const nonEmpty = (text: string | undefined): string | null =>
  text === undefined || text.trim() === '' ? null : text.trim();
