import { useState } from 'react';
import type { BookRun } from '#formats/book.ts';
import { verdictWords } from './shown-numbers.ts';
import { logName } from '#book/new-run.ts';
import { dayText, isoRunDay, runsText } from './book-words.ts';
import { dayOf } from './desk.ts';
import { useAround } from './habits.ts';
import { Mark } from './marks/mark.tsx';
import { useComeIntoView } from './use-come-into-view.ts';

/** The run of each unit that counts on a day, its last one; runs that no unit has, each. */
function runsOfDay(runs: readonly BookRun[], day: string): BookRun[] {
  const last = new Map<string, BookRun>();
  for (const run of runs.toSorted((a, b) => (a.broughtInAt < b.broughtInAt ? -1 : 1)))
    if (run.removedAt === null && isoRunDay(run) === day) last.set(run.unitId ?? run.id, run);
  return [...last.values()];
}

/** Delivery records of a day's units in one go, as a zip. */
export function BookRecords(): React.ReactElement {
  const { book, bookState, habits } = useAround();
  const heading = useComeIntoView();
  const runs = bookState.runs.filter(({ removedAt }) => removedAt === null);
  const days = [...new Set(runs.map(isoRunDay))].sort().reverse();
  const [chosen, setChosen] = useState<string | null>(null);
  const [without, setWithout] = useState<ReadonlySet<string>>(new Set());
  const day = chosen !== null && days.includes(chosen) ? chosen : (days[0] ?? '');
  const ofDay = runsOfDay(runs, day);
  const wanted = ofDay.filter(({ id }) => !without.has(id));
  const serials = new Map(bookState.units.map((unit) => [unit.id, unit.record.unit?.serial ?? 'No serial']));
  const { name, address, contact } = habits.shop;
  const { language, leaveOut, logo, units } = habits.recordLook;
  const make = (): void =>
    void book.makeRecords(
      wanted.map(({ id }) => id),
      {
        date: dayOf(bookState.today),
        paper: habits.recordPaper,
        language,
        leaveOut,
        logo,
        units,
        shop: {
          ...(name === '' ? {} : { name }),
          ...(address === '' ? {} : { address }),
          ...(contact === '' ? {} : { contact }),
        },
      },
      `records ${day}.zip`,
    );
  return (
    <section className="part opens shelf" aria-labelledby="day-records">
      <h2 id="day-records" ref={heading} tabIndex={-1}>
        Records of a day
      </h2>
      <p className="second">
        The last run of each unit on that day, issued today; paper, language, units and logo as chosen for the
        last delivery record. A first test before a change is drawn in by the unit’s own delivery record
        alone.
      </p>
      {days.length === 0 ? (
        <p>No run is in the book yet.</p>
      ) : (
        <>
          <label>
            <span className="field-name">Day</span>
            <select value={day} onChange={(event) => setChosen(event.currentTarget.value)}>
              {days.map((each) => (
                <option key={each} value={each}>
                  {dayText(each, bookState.today)}, {runsText(runsOfDay(runs, each).length)}
                </option>
              ))}
            </select>
          </label>
          <ul className="day-records">
            {ofDay.map((run) => {
              const kept = run.assessments.at(-1);
              return (
                <li key={run.id}>
                  <label>
                    <input
                      type="checkbox"
                      checked={!without.has(run.id)}
                      onChange={(event) => {
                        const next = new Set(without);
                        if (event.currentTarget.checked) next.delete(run.id);
                        else next.add(run.id);
                        setWithout(next);
                      }}
                    />{' '}
                    <span className="day-name">
                      {run.unitId === null ? 'Not given to a unit' : (serials.get(run.unitId) ?? 'No serial')}
                      , {logName(run) ?? 'run'}
                    </span>{' '}
                    {kept !== undefined && (
                      <span className={`word ${kept.verdict}`}>
                        <Mark verdict={kept.verdict} criterion={kept.deciding ?? null} />{' '}
                        {verdictWords[kept.verdict]}
                      </span>
                    )}
                  </label>
                </li>
              );
            })}
          </ul>
          <button
            type="button"
            className="button"
            disabled={wanted.length === 0}
            aria-disabled={bookState.recording !== null}
            onClick={make}
          >
            {wanted.length === 1 ? 'Save 1 record as a zip' : `Save ${wanted.length} records as a zip`}
          </button>
        </>
      )}
    </section>
  );
}
