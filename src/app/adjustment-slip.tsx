import { useId, useState } from 'react';
import type { AdviceOption } from '#formats/advice.ts';
// `statedText` and `readingText` make the reason that is kept with the change: in the book's own form, not the reader's.
import { readingText } from '#formats/advice-words.ts';
import type { Advice } from '#formats/advice.ts';
import { statedText, withUnit } from '#units/number-text.ts';
import { dayOf } from './desk.ts';
import { useAround } from './habits.ts';
import type { Fitting } from './relief-desk.ts';
import { stackFields, typedStack } from './relief-fields.ts';
import { fieldNumber, stackText } from './shown-numbers.ts';
import { typedNumber } from './typed-number.ts';

/** The foot while a change is noted: what was fitted, when, why and who. The prediction is kept with it. */
export function AdjustmentSlip(props: {
  /** null: something else than what was advised. */
  option: AdviceOption | null;
  advice: Advice | null;
  screw: boolean;
  fitted_mm: readonly number[];
  onKeep: (fitting: Fitting) => void;
  onLeave: () => void;
}): React.ReactElement {
  const { option, advice, screw, fitted_mm } = props;
  const { habits, changeHabits } = useAround();
  const [what, setWhat] = useState(
    option === null
      ? ''
      : option.fit_mm === null
        ? fieldNumber(option.turns ?? 0)
        : stackFields(option.fit_mm),
  );
  const [why, setWhy] = useState(() => reasonOf(advice));
  const [who, setWho] = useState(habits.who);
  const [date, setDate] = useState(() => dayOf(new Date()));
  const name = useId();
  const after = afterOf(what, screw);
  const missing =
    after === null
      ? screw
        ? 'how many turns, out with a minus'
        : 'the thicknesses that were fitted'
      : !screw && 'shims_mm' in after && stackFields(after.shims_mm) === stackFields(fitted_mm)
        ? 'a stack that is another than the one before'
        : who.trim() === ''
          ? 'who fitted it'
          : date === ''
            ? 'the day'
            : null;
  return (
    <form
      className="foot slip"
      aria-labelledby={name}
      onSubmit={(event) => {
        event.preventDefault();
        if (missing !== null || after === null) return;
        changeHabits({ who: who.trim() });
        props.onKeep({ after, date, by: who.trim(), why: why.trim() });
      }}
    >
      <p id={name} role="status">
        <b>
          {option === null
            ? 'Fitted something else'
            : option.fit_mm === null
              ? 'Turned'
              : `Fitted ${stackText(option.fit_mm)}`}
        </b>
        {screw ? '.' : ` in place of ${stackText(fitted_mm)}.`} {missing === null ? '' : `Say ${missing}.`}
      </p>
      {(option === null || screw) && (
        <label>
          <span className="field-name">{screw ? 'Turns, out with −' : 'Fitted, mm'}</span>
          <input
            value={what}
            autoFocus={option === null}
            autoComplete="off"
            placeholder={screw ? '−1.5' : '0.50 + 0.25'}
            onChange={(event) => setWhat(event.currentTarget.value)}
          />
        </label>
      )}
      <label>
        <span className="field-name">Why</span>
        <input value={why} autoComplete="off" onChange={(event) => setWhy(event.currentTarget.value)} />
      </label>
      <label>
        <span className="field-name">Who</span>
        <input
          value={who}
          autoFocus={option !== null && habits.who === ''}
          autoComplete="name"
          onChange={(event) => setWho(event.currentTarget.value)}
        />
      </label>
      <label>
        <span className="field-name">When</span>
        <input type="date" value={date} onChange={(event) => setDate(event.currentTarget.value)} />
      </label>
      <button
        type="submit"
        className={`button ${missing === null ? 'first' : 'waits'}`}
        aria-disabled={missing !== null}
        autoFocus={option !== null && habits.who !== ''}
      >
        Keep
      </button>
      <button type="button" className="button" onClick={props.onLeave}>
        Put back
      </button>
    </form>
  );
}

/** The reading and the aim: why it was changed, as long as nobody says it better. */
function reasonOf(advice: Advice | null): string {
  const read = advice === null ? '' : readingText(advice);
  if (advice === null || read === '') return '';
  return `read ${read}, aim ${withUnit(statedText(Number(advice.target.value.toPrecision(5))), advice.target.unit)}`.replaceAll(
    '\u00a0',
    ' ',
  );
}

function afterOf(what: string, screw: boolean): Fitting['after'] | null {
  if (screw) {
    const out = /^\s*[-−]/u.test(what);
    const size = typedNumber(what.replace(/^\s*[-−+]/u, ''));
    return size === null || !(size > 0) ? null : { turns: out ? -size : size };
  }
  const shims = typedStack(what);
  return shims === null || (shims.length === 0 && what.trim() !== '0') ? null : { shims_mm: shims };
}
