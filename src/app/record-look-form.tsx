import { useRef, useState } from 'react';
import {
  leavableSections,
  recordPressureUnits,
  recordTemperatureUnits,
  type LeavableSection,
} from '#formats/record-data.ts';
import { unitLabel } from '#units/number-text.ts';
import { useAround } from './habits.ts';
import { keptLook, unitsIn, type RecordLook } from './record-look.ts';
import type { Trouble } from './state.ts';
import { TroubleLine } from './trouble.tsx';
import { troubleOf } from './trouble-of.ts';

const sections: Readonly<Record<LeavableSection, string>> = {
  budget: 'Uncertainty budget',
  work: 'Work on the unit',
  instruments: 'Instruments',
  method: 'How it was worked out',
  relief: 'Relief setting',
  later: 'Later readings',
};

/** How the shop's records look: paper, language, units, logo, and what is left out. Kept for the next one. */
export function RecordLookForm(): React.ReactElement {
  const { desk, habits, changeHabits } = useAround();
  const look = habits.recordLook;
  const [trouble, setTrouble] = useState<Trouble | null>(null);
  const chooser = useRef<HTMLInputElement>(null);
  const change = (part: Partial<RecordLook>): void => changeHabits({ recordLook: { ...look, ...part } });
  async function takeLogo(file: File): Promise<void> {
    const cleaned = await desk.record.cleanLogo(file);
    setTrouble(cleaned.kind === 'answer' ? null : troubleOf(cleaned));
    if (cleaned.kind === 'answer') change({ logo: cleaned.answer });
  }
  return (
    <fieldset className="look wide">
      <legend>
        <h2>Look</h2>
      </legend>
      <label>
        <span className="field-name">Paper</span>
        <select
          value={habits.recordPaper}
          onChange={(event) =>
            changeHabits({ recordPaper: event.currentTarget.value === 'letter' ? 'letter' : 'a4' })
          }
        >
          <option value="a4">A4</option>
          <option value="letter">Letter</option>
        </select>
      </label>
      <label>
        <span className="field-name">Language, dates and decimal mark</span>
        <select
          value={look.language}
          onChange={(event) => change({ language: event.currentTarget.value === 'de' ? 'de' : 'en' })}
        >
          <option value="en">English</option>
          <option value="de">Deutsch</option>
        </select>
      </label>
      <label>
        <span className="field-name">Pressures</span>
        <select
          value={look.units.pressure ?? ''}
          onChange={(event) =>
            change({ units: unitsIn({ ...look.units, pressure: event.currentTarget.value }) })
          }
        >
          <option value="">in the unit of the limits</option>
          {recordPressureUnits.map((unit) => (
            <option key={unit} value={unit}>
              {unitLabel(unit)}
            </option>
          ))}
        </select>
      </label>
      <label>
        <span className="field-name">Temperatures</span>
        <select
          value={look.units.temperature ?? ''}
          onChange={(event) =>
            change({ units: unitsIn({ ...look.units, temperature: event.currentTarget.value }) })
          }
        >
          <option value="">in the unit of the log</option>
          {recordTemperatureUnits.map((unit) => (
            <option key={unit} value={unit}>
              {unitLabel(unit)}
            </option>
          ))}
        </select>
      </label>
      <div>
        <span className="field-name">Logo: SVG, PNG or JPEG</span>
        {look.logo !== null && <LogoShown look={look} />}
        <button type="button" className="link" onClick={() => chooser.current?.click()}>
          {look.logo === null ? 'Choose a logo' : 'Choose another logo'}
        </button>{' '}
        {look.logo !== null && (
          <button type="button" className="link" onClick={() => change({ logo: null })}>
            Without the logo
          </button>
        )}
        <input
          ref={chooser}
          type="file"
          hidden
          accept="image/svg+xml,image/png,image/jpeg"
          aria-label="Logo"
          onChange={(event) => {
            const file = event.currentTarget.files?.[0];
            event.currentTarget.value = '';
            if (file) void takeLogo(file);
          }}
        />
        {trouble !== null && <TroubleLine trouble={trouble} />}
      </div>
      <fieldset className="leave-out">
        <legend className="field-name">Sections of page 2 that are printed</legend>
        {leavableSections.map((key) => (
          <label key={key}>
            <input
              type="checkbox"
              checked={!look.leaveOut.includes(key)}
              onChange={(event) => {
                const printed = event.currentTarget.checked;
                change({
                  leaveOut: leavableSections.filter((each) =>
                    each === key ? !printed : look.leaveOut.includes(each),
                  ),
                });
              }}
            />{' '}
            {sections[key]}
          </label>
        ))}
      </fieldset>
    </fieldset>
  );
}

function LogoShown({ look }: { look: RecordLook }): React.ReactElement | null {
  const { logo } = keptLook(look);
  return logo === null ? null : (
    <img
      className="logo-shown"
      src={`data:image/${logo.kind === 'svg' ? 'svg+xml' : logo.kind};base64,${logo.base64}`}
      alt="The shop’s logo"
    />
  );
}
