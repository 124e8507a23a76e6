import type { Criterion } from '#formats/assessment.ts';
import type { LeavableSection } from '#formats/record-data.ts';
import { durationText, noBreak } from '#units/number-text.ts';
import type { Unnumbered } from './content.ts';
import { bound, capital, clause } from './criterion-words.ts';
import { type Telling } from './sheet-one.ts';

/** Why a criterion did not pass; those that share a verdict and its reason in one sentence. */
function reasonsOf({ assessment, phrases }: Telling): string[] {
  const groups: { verdict: Criterion['verdict']; reason: string; names: string[] }[] = [];
  for (const { id, verdict, reason } of assessment.criteria) {
    if (verdict === 'pass') continue;
    const name = phrases.criteria[id].engineer;
    const group = groups.find((other) => other.verdict === verdict && other.reason === reason);
    if (group) group.names.push(name);
    else groups.push({ verdict, reason, names: [name] });
  }
  return groups.map(({ verdict, reason, names }) =>
    phrases.remarks.criterion(capital(names.join(', ')), phrases.verdict[verdict], capital(clause(reason))),
  );
}

export function remarksSection(
  telling: Telling,
  missingLetters: readonly string[],
  leaveOut: readonly LeavableSection[],
): Unnumbered {
  const { assessment, phrases, numbers, earlier } = telling;
  const { remarks: words } = phrases;
  const items: string[] = [];
  if (!assessment.complete) items.push(words.stillRunning);
  items.push(...reasonsOf(telling));
  const { replaces } = telling.unitRecord ?? {};
  if (replaces) items.push(words.replaces(noBreak(replaces.recordNumber), clause(replaces.reason)));
  if (earlier) items.push(words.stoppedBefore(capital(phrases.chart.firstTest)));
  const place = (t_s: number | null | undefined): string | null =>
    t_s === null || t_s === undefined ? null : noBreak(durationText(t_s, true, numbers));
  for (const choice of assessment.judged.choices)
    items.push(
      words.choice(
        words.choiceKinds[choice.what] ?? choice.what,
        place(choice.from_s),
        place(choice.to_s),
        choice.by,
        choice.on ?? null,
        choice.why,
      ),
    );
  // A remark that only says a criterion's reason again is left out.
  const said = new Set(assessment.criteria.map(({ reason }) => capital(clause(reason))));
  items.push(
    ...assessment.remarks
      .filter(({ text }) => !said.has(capital(clause(text))))
      .map(({ text }) => bound(text)),
  );
  if (missingLetters.length > 0)
    items.push(
      words.lettersMissing(
        missingLetters
          .map((letter) => (letter.codePointAt(0) ?? 0).toString(16).toUpperCase().padStart(4, '0'))
          .join(', U+'),
      ),
    );
  if (leaveOut.length > 0) items.push(words.leftOut(leaveOut.map((key) => phrases.sections[key])));
  items.push(words.notPart);
  return {
    key: 'remarks',
    title: phrases.sections.remarks,
    place: 'left',
    blocks: [{ kind: 'bullets', items }],
  };
}
