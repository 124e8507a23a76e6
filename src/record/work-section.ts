import { noBreak } from '#units/number-text.ts';
import type { Unnumbered } from './content.ts';
import { allowedWords, capital, clause, foundWords } from './criterion-words.ts';
import type { Span } from './phrases.ts';
import { joinTexts, type Telling } from './sheet-one.ts';

export function workSection({ unitRecord, phrases }: Telling): Unnumbered | null {
  const { work } = phrases;
  const spans: Span[] = [];
  const add = (label: string, value: string): void => {
    if (value === '') return;
    spans.push(
      { text: `${spans.length === 0 ? '' : ' '}${label}`, strong: true },
      { text: `${clause(value)}.` },
    );
  };
  add(work.condition, joinTexts([unitRecord?.unit?.condition]));
  add(work.done, joinTexts(unitRecord?.workDone ?? [], '; '));
  add(work.renewed, joinTexts(unitRecord?.partsRenewed ?? [], '; '));
  add(work.notes, joinTexts([unitRecord?.notes, unitRecord?.asFound?.notes], '; '));
  add(work.warranty, joinTexts([unitRecord?.warranty]));
  return spans.length === 0
    ? null
    : { key: 'work', title: phrases.sections.work, place: 'left', blocks: [{ kind: 'paragraph', spans }] };
}

/** Only where a unit goes out although its test failed: the verdict stands beside it. */
export function concessionSection({ assessment, unitRecord, phrases, numbers }: Telling): Unnumbered | null {
  const concession = unitRecord?.concession;
  if (!concession || assessment.verdict === 'pass') return null;
  const words = phrases.concession;
  const broken = assessment.criteria.filter(({ verdict }) => verdict !== 'pass');
  const what = broken
    .map(
      (criterion) =>
        `${phrases.criteria[criterion.id].engineer} ${foundWords(criterion, phrases, numbers) || phrases.verdict[criterion.verdict]}, ${phrases.table.allowed.toLowerCase()} ${allowedWords(criterion, phrases, numbers)}`,
    )
    .join('; ');
  const spans: Span[] = [
    { text: `${words.delivered(capital(what))} ` },
    { text: words.reason, strong: true },
    { text: noBreak(concession.reason) },
  ];
  return {
    key: 'concession',
    title: words.heading,
    mark: { verdict: assessment.verdict, word: phrases.verdict[assessment.verdict] },
    place: 'full',
    boxed: true,
    blocks: [
      { kind: 'paragraph', spans },
      {
        kind: 'signatures',
        labels: [words.agreedBy, words.signature, words.date],
        names: [concession.agreedBy, null, concession.on],
      },
    ],
  };
}
