import { useId, useState } from 'react';
import { specFromBand } from '#formats/band.ts';
import { problemSentence } from '#formats/problem.ts';
import type { Spec } from '#formats/spec.ts';
import { fieldNumber, statedText, unitLabel, withUnit } from './shown-numbers.ts';
import { keptVersionOf, newestSpec } from './book-shelf-desk.ts';
import { ChoiceBox, QuestionGroup } from './group.tsx';
import { useAround } from './habits.ts';
import type { Draft } from './state.ts';
import { useJsonChooser } from './use-json-chooser.tsx';
import { ambiguousText, plainNumber } from './typed-number.ts';

export const typedUnits = ['psi', 'kPa', 'bar', 'kgf/cm2', 'MPa'] as const;

/** A spec's band in words: "400 to 420 psi", "at most 30 psi". */
export function bandText(spec: Spec): string {
  const { low, high, unit } = spec.pressureBand;
  if (low === null || low === undefined) return `at most ${withUnit(statedText(high ?? 0), unit)}`;
  if (high === null || high === undefined) return `at least ${withUnit(statedText(low), unit)}`;
  return `${statedText(low)} to ${withUnit(statedText(high), unit)}`;
}

/** A band that was typed before, as it stands in its fields. */
function fieldsOf(limits: Draft['limits']): { low: string; high: string; unit: string } {
  const band = limits?.from === 'typed' ? limits.spec?.pressureBand : undefined;
  const text = (value: number | null | undefined): string =>
    value === null || value === undefined ? '' : fieldNumber(value);
  return { low: text(band?.low), high: text(band?.high), unit: band?.unit ?? '' };
}

/** What the pressure has to hold: typed, from a spec file, as last time, or nothing. */
export function LimitsQuestion(props: { draft: Draft; onEnter: () => void }): React.ReactElement {
  const { draft, onEnter } = props;
  const { desk, habits, changeHabits, bookState } = useAround();
  const name = useId();
  const specFile = useJsonChooser('Spec file', (file) => void desk.takeFile(file));
  const [typing, setTyping] = useState(draft.limits?.from === 'typed');
  const [fields, setFields] = useState(() => fieldsOf(draft.limits));
  const [wrong, setWrong] = useState<string | null>(null);
  const [lastSpec] = useState(habits.lastSpec);

  const take = (next: typeof fields): void => {
    setFields(next);
    const low = plainNumber(next.low),
      high = plainNumber(next.high);
    setWrong(null);
    desk.setLimits(null);
    if (next.unit === '' || (low === '' && high === '')) return;
    const said = wrongIn(next);
    if (said !== null) {
      setWrong(said);
      return;
    }
    const spec = specFromBand(`${low}..${high} ${next.unit}`);
    if (spec.ok) {
      desk.setLimits({ spec: spec.value, from: 'typed', fileName: null });
      changeHabits({ lastSpec: spec.value });
    } else setWrong(spec.problems.map(problemSentence).join(' '));
  };
  const field = (key: keyof typeof fields, label: string): React.ReactElement => (
    <label>
      <span className="field-name">{label}</span>
      <input
        inputMode="decimal"
        value={fields[key]}
        autoComplete="off"
        aria-invalid={wrong !== null}
        onChange={(event) => take({ ...fields, [key]: event.currentTarget.value })}
        onKeyDown={(event) => event.key === 'Enter' && onEnter()}
      />
    </label>
  );
  const { limits } = draft;
  const kept = bookState.specs.filter(({ removedAt }) => removedAt === null);
  const version = limits?.spec ? keptVersionOf(kept, limits.spec) : null;
  const from = limits?.from ?? null;
  const fromFile = from === 'file' || from === 'sample' ? limits : null;

  return (
    <QuestionGroup
      title="What does the pressure have to hold?"
      text={
        limits === null
          ? 'The limits come from the unit’s workshop manual or your own sheet; the program ships none as truth.'
          : limits.spec === null
            ? 'Nothing: the run is only looked at.'
            : `${bandText(limits.spec)}${fromFile === null ? '' : `, and what else “${limits.spec.name}” asks`}.`
      }
      open={limits === null}
    >
      <div className="choices">
        <ChoiceBox
          name={name}
          label="A band"
          meaning="two limits, or one"
          checked={from === 'typed' || (from === null && typing)}
          onChoose={() => {
            setTyping(true);
            take(fields);
          }}
        />
        <ChoiceBox
          name={name}
          label={fromFile?.fileName ?? 'A spec file'}
          meaning={fromFile?.spec ? bandText(fromFile.spec) : 'band, drift, settling, run length …'}
          checked={fromFile !== null}
          onChoose={() => {
            setTyping(false);
            specFile.open();
          }}
          onAgain={() => specFile.open()}
          opens
        />
        {kept.map((each) => {
          const spec = newestSpec(each);
          return (
            spec !== null && (
              <ChoiceBox
                key={each.id}
                name={name}
                label={spec.name}
                meaning={`${bandText(spec)}${each.versions.length > 1 ? `, version ${each.versions.length}` : ''}`}
                checked={from === 'kept' && version?.kept.id === each.id}
                onChoose={() => {
                  setTyping(false);
                  desk.setLimits({ spec, from: 'kept', fileName: null });
                }}
              />
            )
          );
        })}
        {lastSpec !== null && (
          <ChoiceBox
            name={name}
            label="As last time"
            meaning={lastSpec.name}
            checked={from === 'last'}
            onChoose={() => {
              setTyping(false);
              desk.setLimits({ spec: lastSpec, from: 'last', fileName: null });
            }}
          />
        )}
        <ChoiceBox
          name={name}
          label="No limits"
          meaning="only look, nothing is judged"
          checked={from === 'none'}
          onChoose={() => {
            setTyping(false);
            desk.setLimits({ spec: null, from: 'none', fileName: null });
          }}
        />
      </div>
      {(from === 'typed' || (from === null && typing)) && (
        <div className="band-fields">
          {field('low', 'from (left empty: none)')}
          {field('high', 'to (left empty: none)')}
          <label>
            <span className="field-name">unit</span>
            <select
              value={fields.unit}
              onChange={(event) => take({ ...fields, unit: event.currentTarget.value })}
            >
              <option value="">choose</option>
              {typedUnits.map((each) => (
                <option key={each} value={each}>
                  {unitLabel(each)}
                </option>
              ))}
            </select>
          </label>
          {wrong !== null && (
            <p className="field-wrong" role="alert">
              {wrong}
            </p>
          )}
        </div>
      )}
      {limits?.spec && version === null && <KeepLimits key={limits.spec.name} spec={limits.spec} />}
      {specFile.field}
    </QuestionGroup>
  );
}

/** What is wrong with two typed limits, said of the fields that they stand in; null: nothing. */
function wrongIn({ low, high }: { low: string; high: string }): string | null {
  const ambiguous = ambiguousText(low, high);
  if (ambiguous !== null) return ambiguous;
  const strange = [low, high].find((typed) => !/^(?:-?\d+(?:\.\d+)?)?$/u.test(plainNumber(typed)));
  if (strange !== undefined)
    return `“${strange.trim()}” is not a number: write it in digits, with one point or one comma.`;
  const [from, to] = [plainNumber(low), plainNumber(high)];
  return from !== '' && to !== '' && Number(from) >= Number(to)
    ? `The low limit (${low.trim()}) is not below the high limit (${high.trim()}).`
    : null;
}

/** Limits that are not kept yet get a name, under which they are offered the next time; of a known name they are a new version. */
function KeepLimits({ spec }: { spec: Spec }): React.ReactElement {
  const { book, bookState } = useAround();
  const [name, setName] = useState(spec.name);
  const [kept, setKept] = useState(false);
  const same = bookState.specs.find(
    (each) =>
      each.removedAt === null && newestSpec(each)?.name.trim().toLowerCase() === name.trim().toLowerCase(),
  );
  if (kept)
    return (
      <p className="second" role="status">
        Kept as “{name.trim()}”.
      </p>
    );
  const keep = (): void => {
    if (name.trim() === '') return;
    void book.keepSpec(spec, name).then(setKept);
  };
  return (
    <div className="band-fields keep-limits">
      <label>
        <span className="field-name">Keep these limits for later as</span>
        <input
          value={name}
          autoComplete="off"
          onChange={(event) => setName(event.currentTarget.value)}
          onKeyDown={(event) => {
            if (event.key !== 'Enter') return;
            event.preventDefault();
            event.stopPropagation();
            keep();
          }}
        />
      </label>
      <button type="button" className="button" onClick={keep}>
        {same === undefined ? 'Keep' : `Keep as version ${same.versions.length + 1}`}
      </button>
    </div>
  );
}
