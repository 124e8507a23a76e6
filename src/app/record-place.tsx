import { useState } from 'react';
import { readUnitRecord } from '#formats/check.ts';
import type { SavedKind } from '#worker/messages.ts';
import type { RecordChoices } from '#worker/record-messages.ts';
import { Cautions, cautionsApply } from './cautions.tsx';
import { dayOf } from './desk.ts';
import { useAround } from './habits.ts';
import { Mark } from './marks/mark.tsx';
import { recordFrom, withAdjustments, type RecordFields } from './record-fields.ts';
import { RecordCheck } from './record-check.tsx';
import { RecordLookForm } from './record-look-form.tsx';
import { RecordMissing } from './record-missing.tsx';
import { RecordTrail } from './record-trail.tsx';
import { RecordPreview } from './record-preview.tsx';
import { CONCESSION_FIELD } from './run-foot.tsx';
import { headOf, logKey } from './run-words.ts';
import type { Run, Trouble } from './state.ts';
import './record.css';
import { TroubleLine } from './trouble.tsx';
import { tellsOf, useKnownChanges } from './use-known-changes.ts';
import { useRecordDraft } from './use-record-draft.ts';
import { useJsonChooser } from './use-json-chooser.tsx';

const kinds: readonly (readonly [SavedKind, string, string])[] = [
  ['pdf', 'Save the record as PDF', 'to print and send; the log and the assessment are in it'],
  ['html', 'Save as HTML', 'to look at in a browser'],
  ['svg', 'Save the chart as SVG', 'the drawing alone'],
  ['png', 'Save the chart as PNG', 'twice the dots of a screen'],
  ['print-png', 'Save the chart as PNG for print', '300 dots an inch'],
  ['csv', 'Save the run as CSV', 'each reading, smoothed, and why set aside'],
  ['results-csv', 'Save the results as CSV', 'a row for each limit and each quantity'],
  ['json', 'Save the assessment as JSON', 'every number; the same bytes as the command line writes'],
];

/** What goes out with the unit: what the shop knows of it is filled in here, and the record saved. */
export function RecordPlace({ run }: { run: Run }): React.ReactElement {
  const { desk, state, habits, changeHabits } = useAround();
  const [today] = useState(() => dayOf(new Date()));
  const known = useKnownChanges(run.id);
  const { fields, type, base, setBase, take, saved, firstTestDrawn, drawFirstTest } = useRecordDraft(
    logKey(run),
    run.unitRecord,
    habits.shop,
    today,
  );
  const [fileTrouble, setFileTrouble] = useState<Trouble | null>(null);
  const unitFile = useJsonChooser('Unit file', (file) => void takeUnitFile(file));
  const { assessment } = run.judged;
  const head = headOf(assessment, null);
  const { record, wrong } = recordFrom(fields, base);
  const choices: RecordChoices = {
    unitRecord: record,
    date: fields.date === '' ? null : fields.date,
    paper: habits.recordPaper,
    language: habits.recordLook.language,
    leaveOut: habits.recordLook.leaveOut,
    logo: habits.recordLook.logo,
    units: habits.recordLook.units,
    firstTest: firstTestDrawn && tellsOf(known, base?.adjustments ?? []) ? known.firstTest : null,
  };

  const save = (as: SavedKind): void => {
    changeHabits({
      shop: { name: fields.shopName, address: fields.shopAddress, contact: fields.shopContact },
    });
    desk.setUnitRecord(record);
    saved();
    void desk.save(as, choices);
  };
  async function takeUnitFile(file: File): Promise<void> {
    const read = readUnitRecord(await file.text(), file.name);
    if (!read.ok) {
      setFileTrouble({ kind: 'problems', problems: read.problems });
      return;
    }
    setFileTrouble(null);
    take(read.value);
  }
  const field = (key: keyof RecordFields, label: string, kind = 'text', id?: string): React.ReactElement => (
    <label>
      <span className="field-name">{label}</span>
      <input
        type={kind}
        id={id}
        value={fields[key]}
        autoComplete="off"
        onChange={(event) => type(key, event.currentTarget.value)}
      />
    </label>
  );
  const { saving } = state;

  return (
    <>
      <div className="sheet">
        <div className="part">
          <h1 tabIndex={-1}>Delivery record</h1>
          <p className={`sentence head-line ${assessment.verdict}`}>
            <Mark verdict={assessment.verdict} criterion={head.criterion} /> <b>{head.word}.</b>{' '}
            {head.sentence}
          </p>
        </div>
        {fileTrouble !== null && <TroubleLine trouble={fileTrouble} />}
        <form className="record-form opens" onSubmit={(event) => event.preventDefault()}>
          <p className="second wide">
            What is left empty is left out of the record; nothing but today’s date is filled in for you.{' '}
            <button type="button" className="link" onClick={() => unitFile.open()}>
              Take it from a unit file
            </button>
          </p>
          <fieldset>
            <legend>
              <h2>Unit</h2>
            </legend>
            {field('serial', 'Serial')}
            {field('type', 'Type')}
            {field('customer', 'Customer')}
            {field('receivedOn', 'Came in on', 'date')}
            {field('complaint', 'Complaint')}
          </fieldset>
          <fieldset>
            <legend>
              <h2>Test</h2>
            </legend>
            {field('builtBy', 'Rebuilt by')}
            {field('testedBy', 'Tested by')}
            {field('testedOn', 'Tested on', 'date')}
            {field('oilGrade', 'Oil')}
            <label>
              <span className="field-name">Oil in the unit when it goes out</span>
              <select
                value={fields.oilLeftIn}
                onChange={(event) => type('oilLeftIn', event.currentTarget.value)}
              >
                <option value="">not said</option>
                <option value="yes">filled</option>
                <option value="no">drained</option>
              </select>
            </label>
          </fieldset>
          <fieldset>
            <legend>
              <h2>Record</h2>
            </legend>
            {field('recordNumber', 'Number')}
            {field('date', 'Issued on', 'date')}
            {field('releasedBy', 'Released by')}
            {field('replaces', 'In place of record number')}
            {fields.replaces !== '' && field('replacesWhy', 'Why it is replaced')}
          </fieldset>
          <fieldset>
            <legend>
              <h2>Shop</h2>
            </legend>
            {field('shopName', 'Name')}
            {field('shopAddress', 'Address')}
            {field('shopContact', 'Contact')}
          </fieldset>
          {(assessment.verdict !== 'pass' || fields.concessionReason !== '') && (
            <fieldset>
              <legend>
                <h2>Concession</h2>
              </legend>
              {field('concessionReason', 'Why it goes out all the same', 'text', CONCESSION_FIELD)}
              {field('concessionBy', 'Agreed by')}
              {field('concessionOn', 'Agreed on', 'date')}
            </fieldset>
          )}
          <RecordTrail
            known={known}
            adjustments={base?.adjustments ?? []}
            onTake={(adjustments) => setBase(withAdjustments(base, adjustments))}
            firstTestDrawn={firstTestDrawn}
            onDraw={drawFirstTest}
          />
          <RecordLookForm />
          {wrong.length > 0 && (
            <p className="field-wrong wide" role="alert">
              {wrong.join(' ')}
            </p>
          )}
        </form>
        {unitFile.field}
      </div>
      <RecordPreview key={run.file.key} choices={choices} />
      <div className="sheet">
        <RecordMissing assessment={assessment} choices={choices} />
        <ul className="ways part">
          {kinds.slice(1).map(([as, label, what]) => (
            <li key={as}>
              <button type="button" className="button" onClick={() => save(as)}>
                {label}
              </button>
              <span className="second">{what}</span>
            </li>
          ))}
        </ul>
        <RecordCheck />
        {cautionsApply(assessment) && <Cautions />}
        {saving !== null && typeof saving.state === 'object' && <TroubleLine trouble={saving.state} />}
        <div className="below" />
      </div>
      <div className="foot">
        <button
          type="button"
          className="button first"
          disabled={wrong.length > 0}
          onClick={() => save('pdf')}
        >
          Save the record as PDF
        </button>
        <span className="second" role="status">
          {saving?.state === 'making' ? 'Writing it …' : saving?.state === 'done' ? state.said : ''}
        </span>
        <button type="button" className="link" onClick={() => desk.goTo('run')}>
          Back to the run sheet
        </button>
      </div>
    </>
  );
}
