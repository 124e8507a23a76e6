import {
  startTransition,
  useEffect,
  useLayoutEffect,
  useMemo,
  useRef,
  useState,
  useSyncExternalStore,
} from 'react';
import { flushSync } from 'react-dom';
import type { BookDesk } from './book-desk.ts';
import { rememberRunHere } from './book-in-browser.ts';
import { BookPlace } from './book-place.tsx';
import { BookUnitPlace } from './book-unit.tsx';
import { BringIn } from './bring-in.tsx';
import type { Desk } from './desk.ts';
import { GaugeCheckPlace } from './gauge-check-place.tsx';
import { LOG_KINDS } from './files-of-run.ts';
import type { FollowDesk } from './follow-desk.ts';
import { AroundProvider, type Around } from './habits.ts';
import { KeyTable } from './key-table.tsx';
import { usePrintedPages } from './printing.ts';
import { RecordPlace } from './record-place.tsx';
import type { Offline } from './offline.ts';
import { ReliefPlace } from './relief-place.tsx';
import { remember, type Remembered } from './remembered.ts';
import { ReadingChoices } from './reading-choices.tsx';
import { LogChooser } from './log-chooser.tsx';
import { RunSheet } from './run-sheet.tsx';
import { runName, startText } from './run-words.ts';
import { showAs } from './shown-numbers.ts';
import type { Place, State } from './state.ts';
import { TopLine } from './top-line.tsx';
import { useDroppedFiles } from './use-dropped-files.ts';
import { useKeptFocus } from './use-kept-focus.ts';
import { useKeys } from './use-keys.ts';

const titles: Readonly<Record<Place, string>> = {
  book: 'Bench book',
  unit: 'Unit',
  'bring-in': 'Bring in a log',
  run: 'Run sheet',
  relief: 'Relief card',
  gauge: 'Check a gauge',
  record: 'Delivery record',
};

/** So long a new place may be built bit by bit; then it is put up in one piece, whatever else goes on. */
const PATIENCE_MS = 300;
/** What a person does next is meant for the new place. */
const PRESSES = ['keydown', 'pointerdown'] as const;

/**
 * What is shown of the state. A new place is built bit by bit, while the one before it still stands as it was: in one piece the page would
 * not answer meanwhile. Within a place all is shown at once.
 */
function useBuiltState(desk: Desk): State {
  const now = useSyncExternalStore(desk.subscribe, desk.state);
  const [place, setPlace] = useState(now.place);
  const [last, setLast] = useState(now);
  const stands = place === now.place;
  if (stands && last !== now) setLast(now);
  useLayoutEffect(() => {
    if (stands) return undefined;
    const come = (): void => setPlace(now.place);
    const comeNow = (): void => flushSync(come);
    startTransition(come);
    const timer = setTimeout(comeNow, PATIENCE_MS);
    for (const press of PRESSES) window.addEventListener(press, comeNow, { capture: true });
    return () => {
      clearTimeout(timer);
      for (const press of PRESSES) window.removeEventListener(press, comeNow, { capture: true });
    };
  }, [stands, now.place]);
  return stands ? now : last;
}

export function App(props: {
  desk: Desk;
  book: BookDesk;
  follow: FollowDesk;
  offline: Offline;
  storage: Storage | null;
  remembered: Remembered;
}): React.ReactElement {
  const { desk, book, follow, offline, storage } = props;
  const state = useBuiltState(desk);
  const bookState = useSyncExternalStore(book.subscribe, book.state);
  const newerProgram = useSyncExternalStore(offline.subscribe, offline.newer);
  const [habits, setHabits] = useState(props.remembered);
  const chooser = useRef<HTMLInputElement>(null);
  const [keysShown, setKeysShown] = useState(false);
  const [readingShown, setReadingShown] = useState(false);
  const hovering = useDroppedFiles((drop) => void desk.takeDrop(drop));

  const around = useMemo<Around>(
    () => ({
      desk,
      state,
      habits,
      changeHabits(change) {
        const next = { ...habits, ...change };
        // Before it is drawn again: whatever is drawn asks there.
        showAs(next, window.navigator.language);
        setHabits(next);
        remember(storage, next);
      },
      chooseLogs: () => chooser.current?.click(),
      follow,
      book,
      bookState,
      newerProgram,
      openRun(id) {
        rememberRunHere(id);
        void desk.openRun(id);
      },
    }),
    [desk, state, follow, book, bookState, newerProgram, habits, storage],
  );

  useEffect(() => {
    const root = document.documentElement;
    if (habits.paper === null) delete root.dataset['paper'];
    else root.dataset['paper'] = habits.paper;
  }, [habits.paper]);
  useEffect(() => {
    document.title = titles[state.place];
  }, [state.place]);

  // A changed place begins at its top, with the keyboard on its heading or on the field that was asked for; a page that was only just opened leaves the keyboard alone.
  const shown = useRef(state.place);
  useLayoutEffect(() => {
    if (shown.current === state.place) return undefined;
    shown.current = state.place;
    // In the picture that shows it first, which lays it out anyhow.
    const frame = requestAnimationFrame(() => {
      window.scrollTo(0, 0);
      const field = state.field === null ? null : document.getElementById(state.field);
      // What the place itself has put the keyboard on keeps it.
      const { activeElement } = document;
      const taken = document.querySelector('main')?.contains(activeElement) === true ? activeElement : null;
      if (field !== null) field.scrollIntoView({ block: 'center' });
      else taken?.scrollIntoView({ block: 'nearest' });
      if (field !== null || taken === null)
        (field ?? document.querySelector<HTMLElement>('h1'))?.focus({ preventScroll: true });
    });
    return () => cancelAnimationFrame(frame);
  }, [state.place, state.field]);

  const onSheet =
    state.run !== null && (state.place === 'run' || state.place === 'relief' || state.place === 'record')
      ? [runName(state.run), startText(state.run.judged.assessment.log.start)]
      : [];
  usePrintedPages([...onSheet, titles[state.place]].filter((part) => part !== null).join(', '));

  useKeptFocus();
  useKeys(habits.keys, {
    n: () => around.chooseLogs(),
    b: () => desk.goTo('book'),
    r: () => desk.goTo('relief'),
    g: () => desk.goTo('gauge'),
    d: () => desk.goTo('record'),
    '?': () => setKeysShown(true),
  });

  return (
    <AroundProvider value={around}>
      <TopLine onKeys={() => setKeysShown(true)} onReading={() => setReadingShown(true)} />
      <main>
        {state.noLogIn !== null && (
          <p className="aside-line" role="status">
            In the folder {state.noLogIn} no log was found: no file that ends in{' '}
            {LOG_KINDS.split(',text')[0]?.replaceAll(',', ', ')}. Folders within it were not looked into.
          </p>
        )}
        {state.place === 'book' && <BookPlace hovering={hovering} />}
        {state.place === 'unit' && <BookUnitPlace />}
        {state.place === 'bring-in' && <BringIn hovering={hovering} />}
        {state.place === 'run' && state.run !== null && (
          <RunSheet run={state.run} hovering={hovering !== null} />
        )}
        {state.place === 'relief' && state.run !== null && <ReliefPlace run={state.run} />}
        {state.place === 'gauge' && <GaugeCheckPlace />}
        {state.place === 'record' && state.run !== null && <RecordPlace run={state.run} />}
      </main>
      <LogChooser ref={chooser} label="Logs to bring in" onChoose={(files) => desk.bringIn(files)} />
      <KeyTable shown={keysShown} onClose={() => setKeysShown(false)} />
      <ReadingChoices shown={readingShown} onClose={() => setReadingShown(false)} />
      <div role="status" className="unseen">
        {state.said}
      </div>
    </AroundProvider>
  );
}
