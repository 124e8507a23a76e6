import { useEffect, useState } from 'react';
import type { Spec } from '#formats/spec.ts';
import { writeJson } from '#formats/number.ts';
import { keptVersionOf } from './book-shelf-desk.ts';
import { useAround } from './habits.ts';
import { bandText } from './limits-question.tsx';
import type { Run } from './state.ts';

/** The choice of no limits: as when a log is brought in only to be looked at. */
const NONE = 'none';

/** The run judged again by other limits that are kept in the book, or looked at by none: one step, and the verdict before it stays with the run. */
export function OtherLimits({ run }: { run: Run }): React.ReactElement {
  const { desk, bookState } = useAround();
  const [chosen, setChosen] = useState('');
  const [judging, setJudging] = useState(false);
  const [opened, setOpened] = useState(false);
  const { spec } = run.judging;
  const kept = bookState.specs.filter(({ removedAt }) => removedAt === null);
  const now = spec === null ? null : keptVersionOf(kept, spec);
  // The newest of a name first, the earlier ones behind it.
  const inBook = kept.flatMap((each) =>
    each.versions
      .map((version, index) => ({
        key: `${each.id} ${index}`,
        spec: version.spec,
        version: each.versions.length > 1 ? `, version ${index + 1}` : '',
      }))
      .reverse(),
  );
  const earlier = useEarlierLimits(run, opened).map((each) => ({
    key: `earlier ${writeJson(each)}`,
    spec: each,
    version: ', of an earlier verdict',
  }));
  // What the run is judged by already is no choice, and each is one once.
  const seen = new Set(spec === null ? [] : [writeJson(spec)]);
  const others = [...inBook, ...earlier].filter((each) => {
    const text = writeJson(each.spec);
    return !seen.has(text) && seen.add(text);
  });
  const by = chosen === NONE ? null : others.find(({ key }) => key === chosen)?.spec;
  const judge = async (): Promise<void> => {
    if (by === undefined) return;
    setJudging(true);
    await desk.judgeByLimits(by);
    setJudging(false);
    setChosen('');
  };
  return (
    <details className="what-if" onToggle={(event) => setOpened(event.currentTarget.open)}>
      <summary>
        <h2>Judge by other limits</h2>
      </summary>
      <p>
        {spec === null
          ? 'The run was only looked at, by no limits.'
          : `Judged by “${spec.name}”, ${bandText(spec)}${now !== null && now.kept.versions.length > 1 ? `, version ${now.version}` : ''}.`}
      </p>
      {others.length === 0 && (
        <p>No other limits are kept in the book. Limits are kept under a name when a log is brought in.</p>
      )}
      {(others.length > 0 || spec !== null) && (
        <div className="band-fields">
          <label>
            <span className="field-name">limits of the book and of earlier verdicts</span>
            <select value={chosen} onChange={(event) => setChosen(event.currentTarget.value)}>
              <option value="">choose</option>
              {others.map((each) => (
                <option key={each.key} value={each.key}>
                  {`${each.spec.name}, ${bandText(each.spec)}${each.version}`}
                </option>
              ))}
              {spec !== null && <option value={NONE}>no limits, nothing is judged</option>}
            </select>
          </label>
          <button
            type="button"
            className="button"
            aria-disabled={by === undefined || judging}
            onClick={() => {
              if (!judging) void judge();
            }}
          >
            {judging ? 'Working it out …' : by === null ? 'Only look at it' : 'Judge by these'}
          </button>
        </div>
      )}
      <p className="second">
        The verdict before stays with the run, behind the new one.{' '}
        {run.undo.length > 0 && (
          <button type="button" className="link" onClick={() => void desk.undo()}>
            Put back <kbd>Ctrl Z</kbd>
          </button>
        )}
      </p>
    </details>
  );
}

/** The limits that this run was judged by before: as the book has its verdicts, and as this window saw them; typed ones are kept nowhere else. */
function useEarlierLimits(run: Run, wanted: boolean): readonly Spec[] {
  const { book } = useAround();
  const [inBook, setInBook] = useState<{ as: string; specs: readonly Spec[] }>({ as: '', specs: [] });
  const { id } = run;
  // The book has one verdict more for each that it is told: what was read of it holds until then.
  const as = id === null ? '' : `${id} ${run.seen?.verdict ?? ''}`;
  const known = inBook.as === as;
  useEffect(() => {
    if (!wanted || id === null || known) return undefined;
    let here = true;
    void book.limitsBefore(id).then((specs) => {
      if (here) setInBook({ as, specs });
    });
    return () => void (here = false);
  }, [book, id, as, known, wanted]);
  return [
    ...inBook.specs,
    ...run.undo.flatMap((step) =>
      'judging' in step && step.judging.spec !== null ? [step.judging.spec] : [],
    ),
  ];
}
