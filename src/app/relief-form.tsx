import { useId, useState } from 'react';
import { areaUnits, springRateUnits, type Relief } from '#formats/relief.ts';
import { unitLabel } from './shown-numbers.ts';
import type { PressureUnit } from '#units/pressure.ts';
import { fieldsOfRelief, reliefFrom, type ReliefFields } from './relief-fields.ts';
import type { Drawer } from './relief-stock.ts';
import { useReliefDraft } from './use-relief-draft.ts';
import { viewingUnits } from './viewing-unit.ts';

/** What is fitted, what lies in the drawer, and what a millimetre does; everything may be left empty but the stack. */
export function ReliefForm(props: {
  relief: Relief | null;
  drawer: Drawer;
  unit: PressureUnit;
  /** The shims were changed since this run: they are said on a later card. */
  moved: boolean;
  /** Whose figures the form begins with. */
  from: string | null;
  /** The log whose card this is: what is typed is put aside by it. */
  log: string;
  /** @returns whether it is kept */
  onKeep: (relief: Relief) => Promise<boolean>;
  onLeave: (() => void) | null;
}): React.ReactElement {
  const { fields, set, clear } = useReliefDraft(
    props.log,
    fieldsOfRelief(props.relief, props.drawer, props.unit),
  );
  const [wrong, setWrong] = useState<string[]>([]);
  const field = (
    key: Exclude<keyof ReliefFields, 'stock' | 'setBy' | 'unit' | 'rateUnit' | 'areaUnit'>,
    label: React.ReactNode,
    numeric = true,
  ): React.ReactElement => (
    <label>
      <span className="field-name">{label}</span>
      <input
        value={fields[key]}
        inputMode={numeric ? 'decimal' : 'text'}
        autoComplete="off"
        disabled={props.moved && key === 'fitted'}
        onChange={(event) => set(key, event.currentTarget.value)}
      />
    </label>
  );
  const perUnit = unitLabel(fields.unit);
  const screw = fields.setBy === 'screw';
  return (
    <form
      className="part opens relief-form"
      aria-labelledby="relief-form"
      onSubmit={(event) => {
        event.preventDefault();
        const { relief, wrong: complaints } = reliefFrom(fields);
        setWrong(complaints ?? []);
        if (relief !== null)
          void props.onKeep(relief).then((kept) => {
            if (kept) clear();
          });
      }}
    >
      <h2 id="relief-form">The relief, and the shims in stock</h2>
      <p className="second">
        Kept with the unit; the shims in stock are the shop’s.{' '}
        {props.from !== null && `Figures taken from ${props.from}, the last unit of the type. `}± is what 19
        in 20 stay within.
      </p>
      <div className="relief-columns">
        <fieldset>
          <legend>
            <h3>In the unit now</h3>
          </legend>
          <div className="choices-line">
            {(['shims', 'screw'] as const).map((by) => (
              <label key={by} className="check">
                <input
                  type="radio"
                  name="set-by"
                  checked={fields.setBy === by}
                  onChange={() => set('setBy', by)}
                />
                {by === 'shims' ? 'Set by shims' : 'Set by a screw'}
              </label>
            ))}
          </div>
          {screw ? (
            <>
              {field('pitch', 'Pitch of the screw, mm a turn')}
              {field('turnsAtMost', 'Turns at most, either way')}
            </>
          ) : (
            <>
              {field(
                'fitted',
                props.moved
                  ? 'Shims at this run, mm (changed since)'
                  : 'Shims in it, mm, such as 0.50 + 0.25',
                false,
              )}
              {field('atMost', 'Stack at most, mm (as the manual says)')}
            </>
          )}
        </fieldset>
        {!screw && (
          <StockFields stock={fields.stock} set={(stock) => set('stock', stock)} disabled={props.moved} />
        )}
        <fieldset>
          <legend>
            <h3>What it gives</h3>
          </legend>
          <label>
            <span className="field-name">Unit of the next fields</span>
            <select
              value={fields.unit}
              onChange={(event) => {
                const unit = viewingUnits(fields.unit).find((name) => name === event.currentTarget.value);
                if (unit !== undefined) set('unit', unit);
              }}
            >
              {viewingUnits(fields.unit).map((name) => (
                <option key={name} value={name}>
                  {unitLabel(name)}
                </option>
              ))}
            </select>
          </label>
          <div className="pair">
            {field('figure', `One mm gives, ${perUnit} (manual or own)`)}
            {field(
              'figureOff',
              <>
                ± <span className="unseen">of what one mm gives</span>
              </>,
            )}
          </div>
          {field('refit', `Refitting alone moves it by ±, ${perUnit}`)}
          {field('target', `Aim, ${perUnit} (empty: middle of the band)`)}
        </fieldset>
        <fieldset>
          <legend>
            <h3>Spring and seat</h3>
          </legend>
          <div className="pair triple">
            {field('rate', 'Spring rate')}
            <UnitOf
              label="Unit of the spring rate"
              units={springRateUnits}
              value={fields.rateUnit}
              onChange={(rateUnit) => set('rateUnit', rateUnit)}
            />
            {field(
              'rateOff',
              <>
                ± <span className="unseen">of the spring rate</span>
              </>,
            )}
          </div>
          <div className="pair triple">
            {field('area', 'Pressure area')}
            <UnitOf
              label="Unit of the pressure area"
              units={areaUnits}
              value={fields.areaUnit}
              onChange={(areaUnit) => set('areaUnit', areaUnit)}
            />
            {field(
              'areaOff',
              <>
                ± <span className="unseen">of the pressure area</span>
              </>,
            )}
          </div>
        </fieldset>
      </div>
      {wrong.length > 0 && (
        <p className="field-wrong" role="alert">
          {wrong.join(' ')}
        </p>
      )}
      <div className="buttons">
        <button type="submit" className="button first">
          Keep
        </button>
        {props.onLeave !== null && (
          <button
            type="button"
            className="link"
            onClick={() => {
              clear();
              props.onLeave?.();
            }}
          >
            Put back
          </button>
        )}
      </div>
    </form>
  );
}

function UnitOf<U extends string>(props: {
  label: string;
  units: readonly U[];
  value: U;
  onChange: (unit: U) => void;
}): React.ReactElement {
  return (
    <label>
      <span className="field-name">
        <span className="unseen">{props.label}</span>&nbsp;
      </span>
      <select
        value={props.value}
        onChange={(event) => {
          const unit = props.units.find((name) => name === event.currentTarget.value);
          if (unit !== undefined) props.onChange(unit);
        }}
      >
        {props.units.map((name) => (
          <option key={name} value={name}>
            {unitLabel(name).replace(/2$/u, '²')}
          </option>
        ))}
      </select>
    </label>
  );
}

/** The drawer, a line a thickness. */
function StockFields(props: {
  stock: ReliefFields['stock'];
  set: (stock: ReliefFields['stock']) => void;
  disabled: boolean;
}): React.ReactElement {
  const { stock } = props;
  const id = useId();
  const change = (index: number, patch: Partial<ReliefFields['stock'][number]>): void =>
    props.set(stock.map((row, at) => (at === index ? { ...row, ...patch } : row)));
  return (
    <fieldset className="stock" disabled={props.disabled}>
      <legend>
        <h3>Shims in stock</h3>
      </legend>
      <ul>
        {stock.map((row, index) => (
          <li key={`${id} ${index}`}>
            <label>
              <span className="field-name">mm</span>
              <input
                value={row.thickness}
                inputMode="decimal"
                autoComplete="off"
                aria-label={`Thickness ${index + 1}, mm`}
                onChange={(event) => change(index, { thickness: event.currentTarget.value })}
              />
            </label>
            <label>
              <span className="field-name">how many</span>
              <input
                value={row.count}
                inputMode="numeric"
                autoComplete="off"
                placeholder="enough"
                aria-label={`How many of thickness ${index + 1}; empty: enough`}
                onChange={(event) => change(index, { count: event.currentTarget.value })}
              />
            </label>
            <button
              type="button"
              className="link second"
              onClick={() => props.set(stock.filter((_, at) => at !== index))}
            >
              Take out<span className="unseen"> thickness {index + 1}</span>
            </button>
          </li>
        ))}
      </ul>
      <button
        type="button"
        className="button"
        onClick={() => props.set([...stock, { thickness: '', count: '' }])}
      >
        Add a thickness
      </button>
    </fieldset>
  );
}
