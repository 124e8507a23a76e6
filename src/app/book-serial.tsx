import { useState } from 'react';
import { assessedHashes, logName, runOfLog, runSharingLog } from '#book/new-run.ts';
import { unitOfSerial } from '#book/new-unit.ts';
import type { UnitRecord } from '#formats/unit-record.ts';
import { KnownSerials } from './book-list.tsx';
import { runDay, runsText } from './book-words.ts';
import { QuestionGroup } from './group.tsx';
import { useAround } from './habits.ts';
import type { Draft } from './state.ts';

/** Which unit the run is of, and whether this very log is in the book already. It need not be answered before judging. */
export function SerialQuestion({ draft }: { draft: Draft }): React.ReactElement {
  const { desk, bookState, openRun, book } = useAround();
  const [serial, setSerial] = useState(draft.unitRecord?.unit?.serial ?? '');
  const log = draft.understood?.inspection.log;
  const hashes = log === undefined ? [] : assessedHashes(log);
  const before = runOfLog(bookState.runs, hashes);
  const sharing = runSharingLog(bookState.runs, hashes);
  const owner = bookState.units.find(({ id }) => id === before?.unitId) ?? null;
  const known = unitOfSerial(bookState.units, serial);
  const runs = bookState.runs.filter(
    ({ unitId, removedAt }) => removedAt === null && unitId === known?.id,
  ).length;

  const take = (next: string): void => {
    setSerial(next);
    const found = unitOfSerial(bookState.units, next);
    desk.setDraftUnit(
      recordFor(draft.sample === null ? null : draft.unitRecord, found?.record ?? null, next),
      found?.record ?? null,
    );
  };
  return (
    <>
      {before !== null && (
        <p className="question-body folded-question" role="status">
          <span>
            <b>This very log is in the book already</b>
            {owner === null
              ? ', not given to a unit'
              : `, unit ${owner.record.unit?.serial ?? 'without a serial'}`}
            , {runDay(before, bookState.today)}
            {before.removedAt === null ? '' : ', removed'}. Judging it again adds a verdict to that run; the
            log is not kept twice.{' '}
            {before.removedAt === null ? (
              <button
                type="button"
                className="link"
                onClick={() => {
                  desk.putBack();
                  openRun(before.id);
                }}
              >
                Open it
              </button>
            ) : (
              <button type="button" className="link" onClick={() => void book.putBack(before)}>
                Put back
              </button>
            )}
          </span>
        </p>
      )}
      {sharing !== null && before === null && (
        <p className="question-body folded-question" role="status">
          <span>
            <b>
              {hashes.length > 1
                ? 'A run in the book was made of some of these files'
                : 'A run in the book was made of this file and others'}
            </b>
            : {logName(sharing) ?? 'without a name'}, {runDay(sharing, bookState.today)}. Judged now, this
            becomes a run of its own.{' '}
            <button
              type="button"
              className="link"
              onClick={() => {
                desk.putBack();
                openRun(sharing.id);
              }}
            >
              Open that run
            </button>
          </span>
        </p>
      )}
      {owner === null && (
        <QuestionGroup
          title="Which unit is it?"
          text={
            serial.trim() === ''
              ? 'Its serial puts the run beside the others of this unit. It can be said later.'
              : known === null
                ? 'New in the book.'
                : `In the book with ${runsText(runs)}${known.goneOutOn === null ? '' : ', gone out'}.`
          }
          open={false}
        >
          <label className="serial-field">
            <span className="field-name">Serial of the unit</span>
            <input
              value={serial}
              list="known-serials"
              autoComplete="off"
              onChange={(event) => take(event.currentTarget.value)}
            />
          </label>
          <KnownSerials />
        </QuestionGroup>
      )}
    </>
  );
}

/** What is known of a unit goes along; what belonged to an earlier run of it does not. */
function recordFor(sample: UnitRecord | null, known: UnitRecord | null, serial: string): UnitRecord | null {
  const base = known ?? sample;
  if (serial.trim() === '' && base === null) return null;
  const {
    recordNumber: _number,
    testedOn: _tested,
    issuedOn: _issued,
    releasedBy: _by,
    releasedOn: _on,
    concession: _concession,
    ...rest
  } = base ?? { format: 'overdrive-bench/unit-record' as const, version: 1 as const };
  if (serial.trim() === '') return null;
  // A unit of the book is called as the book calls it, however its serial was typed this time.
  return { ...rest, unit: { ...base?.unit, serial: known?.unit?.serial ?? serial.trim() } };
}
