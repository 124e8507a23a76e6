import { useId, useState } from 'react';
import { encodings, timeForms } from '#formats/log.ts';
import type { Rig } from '#formats/rig.ts';
import { fieldNumber, fixedText, unitLabel } from './shown-numbers.ts';
import type { Understood } from '#worker/messages.ts';
import { useAround } from './habits.ts';
import type { Draft } from './state.ts';
import { TroubleLine } from './trouble.tsx';
import { whatChanges } from './understood-changes.ts';
import { formWords } from './understood-words.ts';
import { ambiguousText, typedNumber } from './typed-number.ts';

const delimiters = [
  [',', 'commas'],
  [';', 'semicolons'],
  ['\t', 'tabs'],
  ['|', 'upright strokes'],
  [' ', 'blanks'],
] as const;
const orders = [
  ['day-month-year', 'day, month, year'],
  ['month-day-year', 'month, day, year'],
  ['year-month-day', 'year, month, day'],
] as const;
/** Stands for "as the file shows it". */
const AS_FOUND = '';

/** Whether somebody put the layout right; what comes of it is then said there. */
export const isLaidOut = ({ layout }: Draft): boolean =>
  layout.time !== undefined || layout.dialect !== undefined;

/** How the file is laid out, part by part, with what each change makes of the first rows; and the logger remembered. */
export function ColumnLayout({ draft }: { draft: Draft }): React.ReactElement {
  const { desk } = useAround();
  const [open, setOpen] = useState(draft.understood === null);
  const said = isLaidOut(draft);
  const { understood, firstRead } = draft;
  const changes = understood === null || firstRead === null ? [] : whatChanges(firstRead, understood);
  return (
    <details className="layout opens" open={open} onToggle={(event) => setOpen(event.currentTarget.open)}>
      <summary>
        <h2>How it is laid out</h2>
        <span className="second">
          {draft.rig?.from === 'kept'
            ? `Recognised by its heading: ${draft.rig.rig.name}.`
            : 'Put right what was misread; remember it for this logger.'}
        </span>
      </summary>
      <div className="layout-parts">
        <DialectFields draft={draft} />
        <TimeFields draft={draft} />
      </div>
      {draft.trouble !== null && understood !== null && said && (
        <TroubleLine trouble={draft.trouble}>Below it is still as it was read before.</TroubleLine>
      )}
      {said && (
        <button type="button" className="link" onClick={() => desk.layOutAsFound()}>
          Put back: as the file shows it
        </button>
      )}
      {understood !== null && (
        <div className={draft.stage === 'reading' ? 'working' : undefined}>
          <FirstRows understood={understood} />
          <section aria-live="polite" className="what-changes">
            <h3>What this changes</h3>
            {changes.length === 0 ? (
              <p className="second">Nothing: it is read as the file shows it.</p>
            ) : (
              <ul>
                {changes.map((line) => (
                  <li key={line}>{line}</li>
                ))}
              </ul>
            )}
          </section>
          <RememberLogger draft={draft} />
        </div>
      )}
    </details>
  );
}

function Choice(props: {
  label: string;
  value: string;
  found: string;
  options: readonly (readonly [string, string])[];
  onChoose: (value: string) => void;
}): React.ReactElement {
  const { label, value, found, options, onChoose } = props;
  return (
    <label>
      <span className="field-name">{label}</span>
      <select value={value} onChange={(event) => onChoose(event.currentTarget.value)}>
        <option value={AS_FOUND}>{found}</option>
        {options.map(([name, words]) => (
          <option key={name} value={name}>
            {words}
          </option>
        ))}
      </select>
    </label>
  );
}

const found = (words: string | undefined): string =>
  words === undefined || words === '' ? 'as found' : `as found: ${words}`;
const wordsOf = (options: readonly (readonly [string, string])[], value: string | undefined): string =>
  options.find(([name]) => name === value)?.[1] ?? value ?? '';

function DialectFields({ draft }: { draft: Draft }): React.ReactElement {
  const { desk } = useAround();
  const dialect = draft.layout.dialect ?? {};
  const log = draft.firstRead?.inspection.log.dialect;
  const change = (patch: Record<string, unknown>): void => desk.layOut({ dialect: patch });
  const decimals = [
    ['.', 'point'],
    [',', 'comma'],
  ] as const;
  return (
    <fieldset className="band-fields">
      <legend>The table</legend>
      <Choice
        label="columns parted by"
        value={dialect.delimiter ?? AS_FOUND}
        found={found(wordsOf(delimiters, log?.delimiter))}
        options={delimiters}
        onChoose={(value) => change({ delimiter: value === AS_FOUND ? undefined : value })}
      />
      <Choice
        label="decimal mark"
        value={dialect.decimal ?? AS_FOUND}
        found={found(wordsOf(decimals, log?.decimal))}
        options={decimals}
        onChoose={(value) => change({ decimal: value === AS_FOUND ? undefined : value })}
      />
      <LineField
        label="heading in line (0: none)"
        value={dialect.headerLine}
        found={log?.headerLine ?? null}
        onLine={(line) => change({ headerLine: line })}
      />
      <LineField
        label="units in line (0: none)"
        value={dialect.unitLine}
        found={log?.unitLine ?? null}
        onLine={(line) => change({ unitLine: line })}
      />
      <Choice
        label="letters"
        value={dialect.encoding ?? AS_FOUND}
        found={found(log?.encoding)}
        options={encodings.map((name) => [name, name] as const)}
        onChoose={(value) => change({ encoding: value === AS_FOUND ? undefined : value })}
      />
    </fieldset>
  );
}

/** A line by its number; empty: as found, 0: there is none. */
function LineField(props: {
  label: string;
  value: number | null | undefined;
  found: number | null;
  onLine: (line: number | null | undefined) => void;
}): React.ReactElement {
  const { label, value, onLine } = props;
  return (
    <label>
      <span className="field-name">{label}</span>
      <input
        inputMode="numeric"
        autoComplete="off"
        placeholder={found(props.found === null ? 'none' : String(props.found))}
        value={value === undefined ? '' : value === null ? '0' : String(value)}
        onChange={(event) => {
          const text = event.currentTarget.value.trim();
          if (text === '') onLine(undefined);
          else if (text === '0') onLine(null);
          else if (/^[1-9]\d{0,5}$/u.test(text)) onLine(Number(text));
        }}
      />
    </label>
  );
}

function TimeFields({ draft }: { draft: Draft }): React.ReactElement {
  const { desk } = useAround();
  const time = draft.layout.time ?? {};
  const log = draft.firstRead?.inspection.log;
  const columns = (draft.understood ?? draft.firstRead)?.excerpt.columns ?? [];
  const named = columns.map((name) => [name, name] as const);
  const change = (patch: Record<string, unknown>): void => desk.layOut({ time: patch });
  const asFound = (value: string): string | undefined => (value === AS_FOUND ? undefined : value);
  return (
    <fieldset className="band-fields">
      <legend>The time</legend>
      <Choice
        label="time stands in"
        value={time.column ?? AS_FOUND}
        found="as found"
        options={named}
        onChoose={(value) => change({ column: asFound(value) })}
      />
      <Choice
        label="a date beside it in"
        value={time.dateColumn ?? AS_FOUND}
        found="as found, or none"
        options={named}
        onChoose={(value) => change({ dateColumn: asFound(value) })}
      />
      <Choice
        label="written as"
        value={time.form ?? AS_FOUND}
        found={found(log === undefined || draft.timeMissing ? '' : formWords[log.timeForm])}
        options={timeForms.map((form) => [form, formWords[form]] as const)}
        onChoose={(value) => change({ form: asFound(value) })}
      />
      <Choice
        label="order of the date"
        value={time.dateOrder ?? AS_FOUND}
        found="as found"
        options={orders}
        onChoose={(value) => change({ dateOrder: asFound(value) })}
      />
      <SecondsField value={time.interval_s} onSeconds={(interval_s) => change({ interval_s })} />
    </fieldset>
  );
}

function SecondsField(props: {
  value: number | undefined;
  onSeconds: (seconds: number | undefined) => void;
}): React.ReactElement {
  const [typed, setTyped] = useState<string | null>(null);
  return (
    <label>
      <span className="field-name">seconds between rows, without a time</span>
      <input
        inputMode="decimal"
        autoComplete="off"
        value={typed ?? (props.value === undefined ? '' : fieldNumber(props.value))}
        onBlur={() => setTyped(null)}
        onChange={(event) => {
          const text = event.currentTarget.value;
          setTyped(text);
          const seconds = typedNumber(text) ?? NaN;
          if (text.trim() === '') props.onSeconds(undefined);
          else if (seconds > 0 && seconds <= 3600) props.onSeconds(seconds);
        }}
      />
      {typed !== null && ambiguousText(typed) !== null && (
        <span className="field-wrong" role="alert">
          {ambiguousText(typed)}
        </span>
      )}
    </label>
  );
}

/** The first rows as numbers: a wrong mark or column shows at once. */
function FirstRows({ understood }: { understood: Understood }): React.ReactElement {
  const { channels } = understood.inspection.log;
  return (
    <div className="first-rows" tabIndex={0} role="region" aria-label="The first rows as read">
      <table>
        <caption>The first rows, as read</caption>
        <thead>
          <tr>
            <th scope="col">seconds</th>
            {channels.map(({ column, unit }) => (
              <th key={column} scope="col">
                {column}
                {unit === null ? '' : `, ${unitLabel(unit)}`}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {understood.firstRows.map((row, index) => (
            <tr key={index}>
              <th scope="row">{shown(row.at_s)}</th>
              {channels.map(({ column }, place) => (
                <td key={column}>{shown(row.values[place] ?? null)}</td>
              ))}
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  );
}
const shown = (value: number | null): string =>
  value === null
    ? 'no reading'
    : Number.isInteger(value)
      ? fixedText(value, 0)
      : fieldNumber(Number(value.toPrecision(8))).replace('-', '−');

/** Everything that was said of this file, kept for the next one of the same logger. */
function RememberLogger({ draft }: { draft: Draft }): React.ReactElement {
  const { desk } = useAround();
  const id = useId();
  const rig: Rig | null = draft.rig?.rig ?? null;
  const [name, setName] = useState(
    draft.rig?.from === 'kept' || draft.rig?.from === 'file' ? (rig?.name ?? '') : '',
  );
  const ready = name.trim() !== '' && draft.stage === 'ready' && draft.trouble === null;
  return (
    <section className="remember-logger" aria-labelledby={id}>
      <h3 id={id}>Keep it for the next log</h3>
      <div className="band-fields">
        <label>
          <span className="field-name">name of the logger or bench</span>
          <input value={name} autoComplete="off" onChange={(event) => setName(event.currentTarget.value)} />
        </label>
        <button
          type="button"
          className="button"
          aria-disabled={!ready}
          onClick={() => ready && void desk.rememberLogger(name)}
        >
          Remember for this logger
        </button>
        <button
          type="button"
          className="button"
          aria-disabled={!ready}
          onClick={() => ready && desk.saveRig(name)}
        >
          Save as a rig file
        </button>
      </div>
      <p className="second">
        {draft.remembered ??
          (name.trim() === ''
            ? 'Give it a name first. The rig file works with --rig on the command line too.'
            : 'The rig file works with --rig on the command line too.')}
      </p>
    </section>
  );
}
