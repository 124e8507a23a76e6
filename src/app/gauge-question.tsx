import { useId, useState } from 'react';
import { unitLabel } from './shown-numbers.ts';
import { isPressureUnit } from '#units/unit.ts';
import { channelsAsked } from './desk.ts';
import { ChoiceBox, QuestionGroup } from './group.tsx';
import { useAround } from './habits.ts';
import { typedUnits } from './limits-question.tsx';
import { corrected, questionsOf } from './questions.ts';
import { rigOfGauge, rigWithoutGauge, type GaugeFields } from './stated-gauge.ts';
import type { Draft } from './state.ts';
import { useJsonChooser } from './use-json-chooser.tsx';

/** How good the gauge is: it need not be said, but a verdict near a limit hangs on it. */
export function GaugeQuestion({ draft }: { draft: Draft }): React.ReactElement {
  const { desk } = useAround();
  const name = useId();
  const asked = channelsAsked(draft);
  const { corrections } = questionsOf(asked, draft.answers);
  const pressure = corrected(asked, corrections).find(({ role }) => role === 'pressure');
  const unit = pressure !== undefined && isPressureUnit(pressure.unit) ? pressure.unit : null;
  const from = draft.rig?.from ?? null;
  /** The bench behind a gauge that is stated: its columns stay. */
  const base = from === 'stated' ? (draft.rig?.over ?? null) : draft.rig;
  const [typing, setTyping] = useState(false);
  const [unknown, setUnknown] = useState(false);
  const [unfolded, setUnfolded] = useState(false);
  const rigFile = useJsonChooser('Rig file', (file) => {
    setTyping(false);
    setUnknown(false);
    void desk.takeFile(file);
  });
  const [wrong, setWrong] = useState<string | null>(null);
  const [fields, setFields] = useState<GaugeFields>({ low: '0', high: '', unit: unit ?? 'psi', percent: '' });

  const take = (next: GaugeFields): void => {
    setFields(next);
    if (pressure === undefined || unit === null) return;
    const made = rigOfGauge(next, pressure.column, unit, base?.rig ?? null);
    setWrong(made !== null && 'wrong' in made ? made.wrong : null);
    const rig = made !== null && 'rig' in made ? made.rig : null;
    if (rig !== null) desk.setRig({ rig, from: 'stated', over: base });
    else if (from === 'stated') desk.setRig(base);
  };
  const text = (key: 'low' | 'high' | 'percent', label: string): React.ReactElement => (
    <label>
      <span className="field-name">{label}</span>
      <input
        inputMode="decimal"
        value={fields[key]}
        autoComplete="off"
        onChange={(event) => take({ ...fields, [key]: event.currentTarget.value })}
      />
    </label>
  );
  const open = typing || (from === 'stated' && !unknown);

  const explained =
    draft.rig === null
      ? 'Not stated: then its uncertainty is not counted, and a reading just inside a limit counts as inside.'
      : `${draft.rig.rig.name}. Its uncertainty is counted where it says one.`;
  // It need not be answered: one line, until somebody wants to.
  if (!unfolded)
    return (
      <p className="question-body folded-question">
        <span>
          <b>How good is the gauge?</b> {explained}{' '}
          <button type="button" className="link" aria-expanded="false" onClick={() => setUnfolded(true)}>
            {draft.rig === null ? 'Say it' : 'Change it'}
          </button>
        </span>
      </p>
    );

  return (
    <QuestionGroup title="How good is the gauge?" text={explained} open={false}>
      <div className="choices">
        <ChoiceBox
          name={name}
          label="Range and accuracy"
          meaning="as on its dial or data sheet"
          checked={open}
          onChoose={() => {
            setTyping(true);
            setUnknown(false);
          }}
        />
        <ChoiceBox
          name={name}
          label={
            from === 'file' || from === 'sample' || from === 'kept'
              ? (draft.rig?.rig.name ?? 'A rig file')
              : 'A rig file'
          }
          meaning="bench, columns, gauges"
          checked={!open && (from === 'file' || from === 'sample' || from === 'kept')}
          onChoose={() => rigFile.open()}
          onAgain={() => rigFile.open()}
        />
        <ChoiceBox
          name={name}
          label="Not known"
          meaning="its uncertainty is not counted"
          checked={unknown && !open}
          onChoose={() => {
            setTyping(false);
            setUnknown(true);
            if (base === null || pressure === undefined) desk.setRig(null);
            else desk.setRig({ rig: rigWithoutGauge(base.rig, pressure.column), from: 'stated', over: base });
          }}
        />
      </div>
      {open &&
        (unit === null ? (
          <p className="second">First say which column is the pressure, and its unit.</p>
        ) : (
          <div className="band-fields">
            {text('low', 'range from')}
            {text('high', 'to')}
            <label>
              <span className="field-name">unit</span>
              <select
                value={fields.unit}
                onChange={(event) => {
                  const next = typedUnits.find((each) => each === event.currentTarget.value);
                  if (next !== undefined) take({ ...fields, unit: next });
                }}
              >
                {typedUnits.map((each) => (
                  <option key={each} value={each}>
                    {unitLabel(each)}
                  </option>
                ))}
              </select>
            </label>
            {text('percent', 'accuracy, ± % of the span')}
            {wrong !== null && (
              <p className="field-wrong" role="alert">
                {wrong}
              </p>
            )}
          </div>
        ))}
      {rigFile.field}
    </QuestionGroup>
  );
}
