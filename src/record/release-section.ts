import type { UnitRecord } from '#formats/unit-record.ts';
import { fixedText, noBreak, withUnit } from '#units/number-text.ts';
import type { Unnumbered } from './content.ts';
import type { RecordedTest } from './record-input.ts';
import { averageText, joinTexts, testedOn, type Telling } from './sheet-one.ts';
import type { SectionExtras } from './section-extras.ts';

export function fitterSection({ assessment, phrases, numbers }: Telling): Unnumbered {
  const { max, unit } = assessment.quantities.solenoidCurrent;
  const items = [...phrases.fitter];
  if (max !== null)
    items.push(
      phrases.fitterSolenoid(noBreak(withUnit(fixedText(max, unit === 'A' ? 2 : 0, numbers), unit))),
    );
  return {
    key: 'fitter',
    title: phrases.sections.fitter,
    place: 'full',
    blocks: [{ kind: 'bullets', items }],
  };
}

/** First row: this test, with the conditions that a later reading must share to be compared. */
export function laterSection(telling: Telling): Unnumbered {
  const { assessment, unitRecord, phrases, numbers } = telling;
  const { later } = phrases;
  const average = averageText(assessment, numbers);
  const oil = assessment.quantities.holdTemperature;
  const gauge = assessment.rig?.channels?.find(({ role }) => role === 'pressure')?.identification;
  return {
    key: 'later',
    title: later.heading,
    place: 'full',
    blocks: [
      {
        kind: 'log-table',
        columns: [
          { head: later.columns.date, share: 0.13 },
          { head: later.columns.distance, share: 0.17 },
          { head: later.columns.pressure, share: 0.19 },
          { head: later.columns.oil, share: 0.1 },
          { head: later.columns.speed, share: 0.2 },
          { head: later.columns.gauge, share: 0.08 },
          { head: later.columns.readBy, share: 0.13 },
        ],
        first: [
          testedOn(telling) ?? '',
          later.atDelivery,
          average
            ? `${average.value}${average.uncertainty === null ? '' : `\u00a0±\u00a0${average.uncertainty}`}`
            : phrases.verdict['not-assessed'],
          oil.mean === null ? '' : noBreak(withUnit(fixedText(oil.mean, 1, numbers), oil.unit)),
          joinTexts([unitRecord?.shaftSpeed]),
          gauge ?? '',
          later.thisRecord,
        ],
      },
    ],
  };
}

export const inFours = (hash: string): string => hash.replace(/(.{16})(?=.)/g, '$1 ');

export function releaseSection(
  { assessment, unitRecord, earlier, phrases, numbers }: Telling,
  more: SectionExtras,
): Unnumbered {
  const { release } = phrases;
  const logWords = (test: Pick<RecordedTest, 'assessment'>, first: boolean | null): string => {
    const { log } = test.assessment;
    const rows = fixedText(log.rows, 0, numbers);
    const hash = log.sha256 === null ? '' : ` ${release.hash(inFours(log.sha256))}`;
    const parts = (log.parts ?? []).map(
      (part) =>
        ` ${release.part(part.fileName ?? '')}${part.sha256 === null ? '' : ` ${release.hash(inFours(part.sha256))}`}`,
    );
    return `${release.log(log.fileName ?? '–', rows, first)}${hash}${parts.join('')}`;
  };
  const contact = joinTexts([unitRecord?.shop?.contact]);
  const sentences = [
    ...(earlier ? [logWords(earlier, true)] : []),
    logWords({ assessment }, earlier ? false : null),
    ...(more.assessmentSha256 === null ? [] : [release.assessmentHash(inFours(more.assessmentSha256))]),
    more.attached ? release.attached : release.notAttached,
    ...(more.code === null ? [] : [release.code]),
    release.workedOutBy(assessment.program.version),
    contact === '' ? '' : `${release.contact}${contact}.`,
  ].filter((sentence) => sentence !== '');
  return {
    key: 'release',
    title: phrases.sections.release,
    place: 'full',
    blocks: [
      ...(more.code === null ? [] : [{ kind: 'code' as const, text: more.code, alt: phrases.alt.code }]),
      { kind: 'paragraph', small: true, spans: [{ text: sentences.join(' ') }] },
      {
        kind: 'signatures',
        labels: [release.by, release.signature, release.date],
        names: [releasedBy(unitRecord), null, unitRecord?.releasedOn ?? null],
      },
    ],
  };
}

const releasedBy = (unitRecord: UnitRecord | null): string | null => unitRecord?.releasedBy ?? null;
