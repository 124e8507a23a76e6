import type { BookRun, KeptAssessment } from '#formats/book.ts';
import { fixedText, verdictWords, withUnit } from './shown-numbers.ts';
import { dayText, verdictSentence } from './book-words.ts';
import { useAround } from './habits.ts';
import type { Run } from './state.ts';

/** The last verdict, and the last one before it that another version of the program came to; null where one version made them all. */
export function versionPair(
  run: Pick<BookRun, 'assessments'>,
): { before: KeptAssessment; now: KeptAssessment } | null {
  const now = run.assessments.at(-1);
  const before = run.assessments.findLast((kept) => kept.programVersion !== now?.programVersion);
  return now === undefined || before === undefined ? null : { before, now };
}

/** A run that a newer version of the program judged again: what was said before and what is said now, side by side. Both are kept. */
export function RunVerdicts({ run }: { run: Run }): React.ReactElement | null {
  const { bookState } = useAround();
  const entry = bookState.runs.find(({ id }) => id === run.id);
  const pair = entry === undefined ? null : versionPair(entry);
  if (entry === undefined || pair === null) return null;
  const { before, now } = pair;
  const rows: readonly (readonly [string, (kept: KeptAssessment) => string])[] = [
    ['Verdict', ({ verdict }) => verdictWords[verdict]],
    ['Operating pressure', pressureText],
    ['Decided by', (kept) => verdictSentence(kept, entry) || 'no limit'],
    ['Day', ({ decidedAt }) => dayText(decidedAt, bookState.today)],
  ];
  const differs = before.verdict !== now.verdict;
  return (
    <section className="part versions" aria-labelledby="versions">
      <h2 id="versions">
        {differs
          ? 'A newer version comes to another verdict'
          : 'Judged again by a newer version: the same verdict'}
      </h2>
      <table>
        <thead>
          <tr>
            <td />
            <th scope="col">before, version {before.programVersion}</th>
            <th scope="col">now, version {now.programVersion}</th>
          </tr>
        </thead>
        <tbody>
          {rows.map(([name, text]) => (
            <tr key={name} className={text(before) === text(now) ? '' : 'differs'}>
              <th scope="row">{name}</th>
              <td>{text(before)}</td>
              <td>{text(now)}</td>
            </tr>
          ))}
        </tbody>
      </table>
      <p className="second">Both are kept with the run; the newer one counts.</p>
    </section>
  );
}

function pressureText({ operatingPressure, expandedUncertainty, unit }: KeptAssessment): string {
  if (operatingPressure === null) return 'none';
  const U = expandedUncertainty === null ? '' : ` ± ${fixedText(expandedUncertainty, 1)}`;
  return withUnit(`${fixedText(operatingPressure, 1)}${U}`, unit);
}
