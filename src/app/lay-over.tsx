import { useId, useState } from 'react';
import type { BookRun } from '#formats/book.ts';
import { verdictWords } from './shown-numbers.ts';
import { bookTrouble, kindText, runDay } from './book-words.ts';
import { laidDashes, type LaidLine } from './chart/draw-laid-over.ts';
import { useAround } from './habits.ts';
import type { Run } from './state.ts';

/** So many can be told apart by their dashes. */
const AT_MOST = laidDashes.length;
/** Runs of other units that are offered, newest first. */
const OTHERS = 200;

/** The field that the key L goes to. */
export const LAY_OVER_FIELD = 'lay-over-field';

/** Other runs over this one, from the engagement that is judged: this unit's earlier ones first, then any. */
export function LayOver(props: {
  run: Run;
  laid: readonly LaidLine[];
  onLaid: (laid: readonly LaidLine[]) => void;
}): React.ReactElement | null {
  const { run, laid, onLaid } = props;
  const { desk, bookState } = useAround();
  const [chosen, setChosen] = useState<string[]>([]);
  const [told, setTold] = useState('');
  const name = useId();
  const own = bookState.runs.find(({ id }) => id === run.id);
  const offered = bookState.runs
    .filter(({ id, removedAt }) => removedAt === null && id !== run.id && !chosen.includes(id))
    .sort((a, b) => (a.broughtInAt < b.broughtInAt ? 1 : -1));
  const ofUnit = offered.filter(({ unitId }) => unitId !== null && unitId === own?.unitId);
  const others = offered.filter((each) => !ofUnit.includes(each)).slice(0, OTHERS);
  if (own === undefined || (offered.length === 0 && chosen.length === 0)) return null;

  const serialOf = ({ unitId }: BookRun): string =>
    bookState.units.find(({ id }) => id === unitId)?.record.unit?.serial ?? 'no unit';
  const shortOf = (each: BookRun): string[] => [
    each.unitId === own.unitId ? kindText(each.kind) : serialOf(each),
    runDay(each, bookState.today),
  ];
  const nameOf = (each: BookRun): string => {
    const verdict = each.assessments.at(-1)?.verdict;
    const words = verdict === undefined ? '' : `, ${verdictWords[verdict].toLowerCase()}`;
    return `${shortOf(each).join(', ')}${words}`;
  };

  async function lay(ids: string[]): Promise<void> {
    const added = ids.filter((id) => !chosen.includes(id));
    setChosen(ids);
    if (ids.length === 0 || run.id === null) {
      setTold('');
      return onLaid([]);
    }
    setTold('Judging it again, to draw it …');
    const outcome = await desk.layOver([run.id, ...ids]).outcome;
    if (outcome.kind !== 'answer' || 'problem' in outcome.answer) {
      // One that could not be drawn is not among them: it would keep every other one off.
      setChosen((now) => now.filter((id) => !added.includes(id)));
      setTold(
        outcome.kind === 'answer' && 'problem' in outcome.answer
          ? bookTrouble(outcome.answer.problem)
          : 'It could not be laid over. Try again.',
      );
      return;
    }
    const start_s = run.judged.assessment.judged.start_s ?? run.judged.series.time_s[0] ?? 0;
    const lines = outcome.answer.runs.slice(1).map((each, index): LaidLine => {
      const entry = bookState.runs.find(({ id }) => id === each.id);
      return {
        name: entry === undefined ? each.name : nameOf(entry),
        short: entry === undefined ? [each.name] : shortOf(entry),
        dash: laidDashes[index % AT_MOST] ?? [4, 4],
        from_s: start_s + each.from_s,
        to_s: start_s + each.to_s,
        ...each.outline,
      };
    });
    setTold(`Laid over, from engaging: ${lines.map((line) => line.name).join('; ')}.`);
    onLaid(lines);
  }

  return (
    <section className="lay-over" aria-labelledby={name}>
      {chosen.length < AT_MOST && (
        <label>
          <span className="field-name" id={name}>
            Lay another run over <kbd>L</kbd>
          </span>
          <select
            id={LAY_OVER_FIELD}
            value=""
            onChange={(event) => {
              const { value } = event.currentTarget;
              if (value !== '') void lay([...chosen, value]);
            }}
          >
            <option value="">choose a run</option>
            {[['This unit', ofUnit] as const, ['Others, newest first', others] as const].map(
              ([title, runs]) =>
                runs.length === 0 ? null : (
                  <optgroup key={title} label={title}>
                    {runs.map((each) => (
                      <option key={each.id} value={each.id}>
                        {nameOf(each)}
                      </option>
                    ))}
                  </optgroup>
                ),
            )}
          </select>
        </label>
      )}
      <ul>
        {laid.map((line, index) => (
          <li key={chosen[index] ?? line.name}>
            <svg viewBox="0 0 60 4" width="60" height="4" aria-hidden="true">
              <path d="M0 2H60" strokeDasharray={line.dash.join(' ')} />
            </svg>{' '}
            {line.name}{' '}
            <button
              type="button"
              className="link"
              aria-label={`Take off ${line.name}`}
              onClick={() => void lay(chosen.filter((_, at) => at !== index))}
            >
              Take off
            </button>
          </li>
        ))}
      </ul>
      <p role="status" className={laid.length > 0 && told.startsWith('Laid') ? 'unseen' : 'second'}>
        {told}
      </p>
    </section>
  );
}
