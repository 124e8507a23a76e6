import { sameSerial } from '#book/new-unit.ts';
import type { BookRun, BookUnit } from '#formats/book.ts';
import { asSentence, verdictWords } from './shown-numbers.ts';
import { BookTold } from './book-foot.tsx';
import { RunRow } from './book-line.tsx';
import { GiveTo } from './book-list.tsx';
import { dayText, runsText, verdictSentence } from './book-words.ts';
import { dayOf } from './desk.ts';
import { useAround } from './habits.ts';
import { instrumentLines, readInstruments, type Instrument } from './instrument-lines.ts';
import { useDraft } from './use-draft.ts';
import { useUndoKeys } from './use-undo-keys.ts';

/** One unit: what the shop knows of it, its runs in order, and every verdict on them. */
export function BookUnitPlace(): React.ReactElement {
  const { bookState, book, desk } = useAround();
  const unit = bookState.units.find(({ id }) => id === bookState.unitId) ?? null;
  useUndoKeys(book);
  if (unit === null)
    return (
      <div className="sheet">
        <div className="part">
          <h1 tabIndex={-1}>{bookState.loading ? 'Unit' : 'This unit is not in the book'}</h1>
          {!bookState.loading && (
            <p className="sentence">
              It was taken out, or belongs to another browser’s book.{' '}
              <button type="button" className="link" onClick={() => desk.goTo('book')}>
                Bench book
              </button>
            </p>
          )}
        </div>
      </div>
    );
  return <UnitSheet key={unit.id} unit={unit} />;
}

function UnitSheet({ unit }: { unit: BookUnit }): React.ReactElement {
  const { book, bookState, chooseLogs, desk } = useAround();
  const runs = bookState.runs
    .filter(({ unitId, removedAt }) => unitId === unit.id && removedAt === null)
    .sort((a, b) => (a.broughtInAt < b.broughtInAt ? -1 : 1));
  const runsOf = (id: string): number =>
    bookState.runs.filter(({ unitId, removedAt }) => unitId === id && removedAt === null).length;
  const serial = unit.record.unit?.serial ?? 'No serial';
  const others = unit.removedAt === null ? sameSerial(bookState.units, unit) : [];
  return (
    <>
      <div className="sheet">
        <div className="part unit-head">
          <h1 tabIndex={-1}>{serial}</h1>
          <p className="sentence">
            {unit.removedAt !== null
              ? 'Removed. It can be put back for 30 days.'
              : unit.goneOutOn === null
                ? 'On the bench.'
                : `Gone out ${dayText(unit.goneOutOn, bookState.today)}.`}
          </p>
        </div>
        <BookTold />
        {others.length > 0 && (
          <p className="aside-line">
            {others.length === 1 ? 'Another unit' : `${others.length} other units`} in the book{' '}
            {others.length === 1 ? 'has' : 'have'} this serial, as when two books were put together.{' '}
            {runs.length === 0
              ? 'This one has no run: if they are one unit, it can be removed.'
              : 'If they are one unit, put all runs of this one to the other, or one alone below the run under “Verdict, note”; then remove the one that is left without.'}
            {others.map((other) => (
              <span key={other.id} className="same-serial">
                <button type="button" className="link" onClick={() => book.showUnit(other.id)}>
                  Open the other, with {runsText(runsOf(other.id))}
                </button>{' '}
                {runs.length > 0 && (
                  <button type="button" className="link" onClick={() => void book.giveAllTo(unit, other)}>
                    Put {runs.length === 1 ? 'the run' : `all ${runsText(runs.length)}`} of this one to it
                  </button>
                )}
              </span>
            ))}
          </p>
        )}
        <section aria-labelledby="runs">
          <h2 id="runs" className="book-part">
            Runs <span className="second">{runsText(runs.length)}, in order</span>
          </h2>
          {runs.length === 0 && <p className="part">No run yet. Bring in a log and name this serial.</p>}
          <ol>
            {runs.map((run) => (
              <li key={run.id} className="unit-run">
                <RunRow run={run} byUnit />
                <RunNotes run={run} />
              </li>
            ))}
          </ol>
        </section>
        <UnitForm unit={unit} />
        <div className="below" />
      </div>
      <div className="foot" role="group" aria-label="What to do with this unit">
        <button type="button" className="button first" onClick={chooseLogs}>
          Bring in a log <kbd>N</kbd>
        </button>
        {unit.removedAt === null && (
          <button
            type="button"
            className="button"
            onClick={() => void book.setGoneOut(unit, unit.goneOutOn === null ? dayOf(new Date()) : null)}
          >
            {unit.goneOutOn === null ? 'It has gone out' : 'It is on the bench again'}
          </button>
        )}
        <button
          type="button"
          className="link"
          onClick={() => {
            if (unit.removedAt !== null) void book.putBack(unit);
            else void book.remove(unit).then(() => desk.goTo('book'));
          }}
        >
          {unit.removedAt === null ? 'Remove this unit' : 'Put back'}
        </button>
      </div>
    </>
  );
}

/** Every verdict on a run, its note, and where it belongs. */
function RunNotes({ run }: { run: BookRun }): React.ReactElement {
  const { book, bookState } = useAround();
  const draft = useDraft(`run ${run.id}`, { note: run.note });
  return (
    <details className="run-notes">
      <summary>
        {run.assessments.length > 1 ? `${run.assessments.length} verdicts, note` : 'Verdict, note'}
        {run.note !== '' && <span className="second"> {run.note}</span>}
      </summary>
      <ul className="verdicts">
        {run.assessments.map((kept, index) => (
          <li key={kept.file}>
            <b className={`word ${kept.verdict}`}>{verdictWords[kept.verdict]}</b>{' '}
            {asSentence(verdictSentence(kept, run) || 'no number')}{' '}
            <span className="second">
              Decided {dayText(kept.decidedAt, bookState.today)} by version {kept.programVersion}
              {index === run.assessments.length - 1 && run.assessments.length > 1
                ? '; this one counts, the earlier ones stay'
                : ''}
              .
            </span>
          </li>
        ))}
      </ul>
      {(run.judge?.choices ?? []).length > 0 && (
        <>
          <h3>Moved by hand</h3>
          <ul>
            {run.judge?.choices.map((choice) => (
              <li key={`${choice.what} ${choice.by} ${choice.on ?? ''} ${choice.why}`}>
                {choice.what.replaceAll('-', ' ')}: {choice.why}{' '}
                <span className="second">
                  {choice.by}, {choice.on}
                </span>
              </li>
            ))}
          </ul>
        </>
      )}
      <label>
        <span className="field-name">Note on this run</span>
        <textarea
          rows={2}
          value={draft.value('note')}
          onChange={(event) => draft.type('note', event.currentTarget.value)}
        />
      </label>
      {draft.overtaken.length > 0 && (
        <p className="second" role="status">
          In another window this note was changed to: “{run.note}”. What you typed is still here; Keep writes
          it in its place.
        </p>
      )}
      <div className="buttons">
        <button
          type="button"
          className="button"
          disabled={draft.changed.length === 0}
          onClick={() =>
            void book.setNote(run, draft.value('note')).then((done) => {
              if (done) draft.clear();
            })
          }
        >
          Keep
        </button>
        <button type="button" className="link" onClick={() => void book.remove(run)}>
          Remove this run
        </button>
      </div>
      <GiveTo runId={run.id} />
    </details>
  );
}

const fields = [
  ['serial', 'Serial'],
  ['type', 'Type'],
  ['customer', 'Customer'],
  ['receivedOn', 'Received on'],
  ['workDone', 'Work done, one a line'],
  ['instruments', 'Instruments, one a line: name; number; checked on; next check due; certificate'],
  ['notes', 'Notes'],
] as const;
type Field = (typeof fields)[number][0];

/** What the shop knows of the unit; kept when it is said so. */
function UnitForm({ unit }: { unit: BookUnit }): React.ReactElement {
  const { book } = useAround();
  const { record } = unit;
  const kept: Readonly<Record<Field, string>> = {
    serial: record.unit?.serial ?? '',
    type: record.unit?.type ?? '',
    customer: record.customer ?? '',
    receivedOn: record.unit?.receivedOn ?? '',
    workDone: (record.workDone ?? []).join('\n'),
    instruments: instrumentLines(record.instruments ?? []),
    notes: record.notes ?? '',
  };
  const draft = useDraft(`unit ${unit.id}`, kept);
  const typed = Object.fromEntries(fields.map(([field]) => [field, draft.value(field)])) as typeof kept;
  const changed = draft.changed.length > 0;
  const instruments = readInstruments(typed.instruments);
  return (
    <form
      className="part opens unit-form"
      aria-labelledby="unit-title"
      onSubmit={(event) => {
        event.preventDefault();
        if (!changed || !instruments.ok) return;
        void book.setRecord(unit, recordWith(unit, typed, instruments.value)).then((done) => {
          if (done) draft.clear();
        });
      }}
    >
      <h2 id="unit-title">The unit</h2>
      <div className="unit-fields">
        {fields.map(([field, label]) => (
          <label key={field} className={`of-${field}`}>
            <span className="field-name">{label}</span>
            {field === 'workDone' || field === 'notes' || field === 'instruments' ? (
              <textarea
                rows={3}
                value={typed[field]}
                aria-invalid={field === 'instruments' && !instruments.ok}
                onChange={(event) => draft.type(field, event.currentTarget.value)}
              />
            ) : (
              <input
                type={field === 'receivedOn' ? 'date' : 'text'}
                autoComplete="off"
                value={typed[field]}
                onChange={(event) => draft.type(field, event.currentTarget.value)}
              />
            )}
          </label>
        ))}
      </div>
      {draft.overtaken.map((field) => (
        <p key={field} className="second" role="status">
          {fields.find(([name]) => name === field)?.[1]} was changed elsewhere to “{kept[field]}” while you
          typed. Your words are still in the field; Keep writes them in its place.
        </p>
      ))}
      {!instruments.ok && (
        <p className="field-wrong" role="alert">
          {instruments.wrong}
        </p>
      )}
      <div className="buttons">
        <button type="submit" className="button" disabled={!changed || !instruments.ok}>
          Keep
        </button>
        {changed && (
          <button type="button" className="link" onClick={() => draft.clear()}>
            Leave it as it was
          </button>
        )}
      </div>
    </form>
  );
}

/** The record with what was typed; what is empty is left out, never filled in. */
function recordWith(
  unit: BookUnit,
  typed: Readonly<Record<Field, string>>,
  instruments: readonly Instrument[],
): BookUnit['record'] {
  const { customer: _c, notes: _n, workDone: _w, instruments: _i, unit: about, ...rest } = unit.record;
  const { serial: _s, type: _t, receivedOn: _r, ...others } = about ?? {};
  const text = <K extends string>(key: K, value: string): { [P in K]?: string } =>
    value.trim() === '' ? {} : ({ [key]: value.trim() } as { [P in K]: string });
  const work = typed.workDone
    .split('\n')
    .map((line) => line.trim())
    .filter((line) => line !== '');
  return {
    ...rest,
    ...text('customer', typed.customer),
    ...text('notes', typed.notes),
    ...(work.length === 0 ? {} : { workDone: work }),
    ...(instruments.length === 0 ? {} : { instruments: [...instruments] }),
    unit: {
      ...others,
      ...text('serial', typed.serial),
      ...text('type', typed.type),
      ...text('receivedOn', typed.receivedOn),
    },
  };
}
