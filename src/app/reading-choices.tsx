import { useId } from 'react';
import { useAround } from './habits.ts';
import { dateText, fixedText, type ReadingForm } from './shown-numbers.ts';
import { useDialog } from './use-dialog.ts';

const marks: readonly (readonly [ReadingForm['decimalMark'], string])[] = [
  [null, 'as the browser has it'],
  ['point', 'point, 425.1'],
  ['comma', 'comma, 425,1'],
];
const dates: readonly (readonly [ReadingForm['dateForm'], string])[] = [
  [null, 'as the browser has it'],
  ['day-month-year', 'day.month.year, 31.12.2026'],
  ['month-day-year', 'month/day/year, 12/31/2026'],
  ['iso', 'year-month-day, 2026-12-31'],
];

/** How numbers and dates are shown on this computer, whatever its browser has. */
export function ReadingChoices(props: { shown: boolean; onClose: () => void }): React.ReactElement {
  const { shown, onClose } = props;
  const { habits, changeHabits } = useAround();
  const dialog = useDialog(shown);
  return (
    <dialog ref={dialog} className="keys" aria-labelledby="reading-title" onClose={onClose}>
      <h2 id="reading-title">Numbers and dates</h2>
      <Choices
        title="Decimal mark"
        choices={marks}
        chosen={habits.decimalMark}
        onChoose={(decimalMark) => changeHabits({ decimalMark })}
      />
      <Choices
        title="Date"
        choices={dates}
        chosen={habits.dateForm}
        onChoose={(dateForm) => changeHabits({ dateForm })}
      />
      <p>
        Shown so: {fixedText(425.1, 1)} psi, {dateText('2026-12-31')}. In fields either mark can be typed.
        Files keep their own form.
      </p>
      <button type="button" className="button" onClick={onClose}>
        Close <kbd>Esc</kbd>
      </button>
    </dialog>
  );
}

function Choices<T extends string | null>(props: {
  title: string;
  choices: readonly (readonly [T, string])[];
  chosen: T;
  onChoose: (choice: T) => void;
}): React.ReactElement {
  const name = useId();
  return (
    <fieldset className="reading-choices">
      <legend>{props.title}</legend>
      {props.choices.map(([choice, label]) => (
        <label key={label} className="check">
          <input
            type="radio"
            name={name}
            checked={choice === props.chosen}
            onChange={() => props.onChoose(choice)}
          />
          {label}
        </label>
      ))}
    </fieldset>
  );
}
