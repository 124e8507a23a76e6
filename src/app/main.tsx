import { StrictMode } from 'react';
import { createRoot } from 'react-dom/client';
import { startClient } from '#worker/client.ts';
import { App } from './app.tsx';
import { askingAfter } from './ask-after.ts';
import { bookInBrowser, followKeeping, runHere, unitOf } from './book-in-browser.ts';
import { createDesk, placeOf } from './desk.ts';
import { createFollowDesk, fileChooser } from './follow-desk.ts';
import { inNextTask } from './in-next-task.ts';
import { keepMoves } from './keep-moves.ts';
import { keepForOffline } from './offline.ts';
import { putDown } from './put-down.ts';
import { ReliefProvider } from './relief-around.ts';
import { createReliefDesk } from './relief-desk.ts';
import { recall } from './remembered.ts';
import { showAs } from './shown-numbers.ts';
import { keepUnjudged } from './unjudged-logs.ts';
import './paper.css';
import './marks/marks.css';
import './sheet.css';
import './run.css';
import './column-layout.css';
import './follow.css';
import './book.css';
import './relief.css';

/** Where the browser lets a page remember habits; reading the name alone can be refused. */
function habits(): Storage | null {
  try {
    return window.localStorage;
  } catch {
    return null;
  }
}

const storage = habits();
const remembered = recall(storage);
showAs(remembered, window.navigator.language);
if (remembered.paper !== null) document.documentElement.dataset['paper'] = remembered.paper;

/** While one goes back or forward: a place that is no longer there must not cut off what lies ahead. */
let byAddress = false;

/** Longer than a sheet takes to be built. */
const REST_AFTER_MS = 1500;
const atRest = (): Promise<void> =>
  new Promise((rests) => {
    if ('requestIdleCallback' in window)
      window.requestIdleCallback(() => rests(), { timeout: REST_AFTER_MS });
    else setTimeout(rests, REST_AFTER_MS);
  });

const client = askingAfter(startClient());
const offline = keepForOffline();
const desk = createDesk(client, {
  now: () => new Date(),
  putDown,
  lastRun: runHere,
  atRest,
  bookChanged: () => book.changed(),
  showPlace(place) {
    const address = `#/${place}`;
    const say = (how: 'replaceState' | 'pushState'): void => {
      // A unit has an address of its own.
      if (window.location.hash !== address && !window.location.hash.startsWith(`${address}/`))
        window.history[how](null, '', address);
    };
    if (byAddress) say('replaceState');
    // The browser answers that only after a while, which the place that is being built need not wait for.
    else
      inNextTask(() => {
        if (desk.state().place === place) say('pushState');
      });
  },
});
const asked = placeOf(window.location.hash);
const book = bookInBrowser(client, () => desk, storage);
followKeeping(desk, book);
const relief = createReliefDesk(client, {
  now: () => new Date(),
  newId: () => crypto.randomUUID(),
  putDown,
  bookChanged: () => book.changed(),
});
const follow = createFollowDesk(client, {
  now: () => performance.now(),
  choose: fileChooser(window),
  say: desk.say,
});
/** The place that the address names, a unit by its id. */
function goToAddress(): void {
  byAddress = true;
  const unit = unitOf(window.location.hash);
  if (unit === null) desk.goTo(placeOf(window.location.hash));
  else book.showUnit(unit);
  byAddress = false;
}
window.addEventListener('popstate', goToAddress);

const root = document.getElementById('app');
if (root !== null)
  createRoot(root).render(
    <StrictMode>
      <ReliefProvider value={relief}>
        <App
          desk={desk}
          book={book}
          follow={follow}
          offline={offline}
          storage={storage}
          remembered={remembered}
        />
      </ReliefProvider>
    </StrictMode>,
  );
if (asked === 'unit') goToAddress();
keepMoves(desk, storage);
void book.open();
void keepUnjudged(desk, desk.open(asked), asked);
