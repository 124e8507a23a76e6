import { useSyncExternalStore } from 'react';
import { unitLabel } from './shown-numbers.ts';
import type { PressureUnit } from '#units/pressure.ts';
import { keptWords } from './book-words.ts';
import { nextLog } from './files-of-run.ts';
import { useFollow } from './follow-place.tsx';
import { useAround } from './habits.ts';
import { openRunText, runName } from './run-words.ts';
import { shownUnit, viewingTemperatures, viewingUnits } from './viewing-unit.ts';
import { useKeys } from './use-keys.ts';

const systemNight = (): MediaQueryList => window.matchMedia('(prefers-color-scheme: dark)');
function onSystemPaper(tell: () => void): () => void {
  const query = systemNight();
  query.addEventListener('change', tell);
  return () => query.removeEventListener('change', tell);
}
/** Whether the paper that is shown is dark: by hand, else as the system has it, which may change at dusk. */
function useNight(paper: 'day' | 'night' | null): boolean {
  const dark = useSyncExternalStore(onSystemPaper, () => systemNight().matches);
  return paper === null ? dark : paper === 'night';
}

/** The line at the top: the places, named; units for viewing on the run sheet, followed or judged, and the relief card; the paper. */
export function TopLine(props: { onKeys: () => void; onReading: () => void }): React.ReactElement {
  const { onKeys, onReading } = props;
  const { desk, state, habits, changeHabits, bookState, newerProgram } = useAround();
  const { place, run, draft } = state;
  /** The log that is asked about, or the first that waits. */
  const open = nextLog(state);
  const night = useNight(habits.paper);
  const atBook = place === 'book';
  const { followed } = useFollow();
  // What is looked at: a run that is followed stands where it was brought in.
  const seen = place === 'bring-in' ? (followed?.run?.assessment ?? null) : (run?.judged.assessment ?? null);
  const onStrip = place === 'run' || place === 'bring-in';
  const judgedUnit = seen?.quantities.operatingPressure.unit ?? null;
  const hold = seen?.quantities.holdTemperature;
  const oilUnit = hold === undefined || hold.mean === null ? null : hold.unit;
  const showsUnits = (onStrip || place === 'relief') && judgedUnit !== null;
  const unit = judgedUnit === null ? null : shownUnit(habits.unit, judgedUnit);
  const units = judgedUnit === null ? [] : viewingUnits(judgedUnit);
  const change = (next: PressureUnit): void => changeHabits({ unit: next === judgedUnit ? null : next });

  useKeys(habits.keys && showsUnits, {
    u: () => {
      const next = units[(units.findIndex((name) => name === unit) + 1) % units.length];
      if (next !== undefined) change(next);
    },
  });

  return (
    <header className="top-line">
      {atBook ? (
        <span className="place">Bench book</span>
      ) : (
        <a
          href="#/book"
          onClick={(event) => {
            event.preventDefault();
            desk.goTo('book');
          }}
        >
          Bench book
        </a>
      )}
      {place === 'bring-in' && draft !== null && <span className="place">Bring in a log</span>}
      {place !== 'bring-in' && open !== undefined && (
        <a
          href="#/bring-in"
          onClick={(event) => {
            event.preventDefault();
            desk.askNext();
          }}
        >
          <span className="run-name" title={open.name ?? undefined}>
            Bring in {open.name ?? 'a log'}
          </span>
        </a>
      )}
      {place === 'run' && run !== null && (
        <span className="place run-name" title={runName(run)}>
          {runName(run)}
        </span>
      )}
      {(place === 'record' || place === 'relief') && run !== null && (
        <>
          <a
            href="#/run"
            onClick={(event) => {
              event.preventDefault();
              desk.goTo('run');
            }}
          >
            <span className="run-name" title={openRunText(run)}>
              {openRunText(run)}
            </span>
          </a>
          <span className="place">{place === 'relief' ? 'Relief card' : 'Delivery record'}</span>
        </>
      )}
      {place === 'gauge' && <span className="place">Check a gauge</span>}
      {place === 'unit' && (
        <span className="place">
          {bookState.units.find(({ id }) => id === bookState.unitId)?.record.unit?.serial ?? 'Unit'}
        </span>
      )}
      <span className="spring" />
      {atBook && newerProgram && (
        <output className="second">A newer version comes once this page is closed and opened again.</output>
      )}
      {atBook && <span className="kept-words">{keptWords(bookState, bookState.today).text}</span>}
      {showsUnits && (
        <fieldset className="units">
          <legend className="unseen">Unit for viewing</legend>
          {units.map((name) => (
            <label key={name}>
              <input type="radio" name="viewing-unit" checked={name === unit} onChange={() => change(name)} />
              {unitLabel(name)}
            </label>
          ))}
        </fieldset>
      )}
      {onStrip && oilUnit !== null && (
        <fieldset className="units">
          <legend className="unseen">Unit of temperatures for viewing</legend>
          {viewingTemperatures.map((name) => (
            <label key={name}>
              <input
                type="radio"
                name="viewing-temperature"
                checked={name === (habits.temperature ?? oilUnit)}
                onChange={() => changeHabits({ temperature: name === oilUnit ? null : name })}
              />
              {unitLabel(name)}
            </label>
          ))}
        </fieldset>
      )}
      {atBook && (
        <a
          href="#/gauge"
          className="second"
          onClick={(event) => {
            event.preventDefault();
            desk.goTo('gauge');
          }}
        >
          Check a gauge
        </a>
      )}
      <button type="button" className="link second" onClick={onReading}>
        Numbers and dates
      </button>
      <button type="button" className="link second keys-link" onClick={onKeys}>
        Keys
      </button>
      <button
        type="button"
        className="link second"
        onClick={() => changeHabits({ paper: night ? 'day' : 'night' })}
      >
        {night ? 'Day paper' : 'Night paper'}
      </button>
    </header>
  );
}
