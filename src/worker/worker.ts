import { openBrowserBook } from '#book/browser-store.ts';
import type { Reply, Request } from './messages.ts';
import { recordFonts } from './record-fonts.ts';
import { createSession } from './session.ts';

// Set by the build from package.json, so that app and command line name the same version.
declare const PROGRAM_VERSION: string;

/** The part of a worker's global scope that is used here; the page's types hide it. */
interface WorkerScope {
  addEventListener: (type: 'message', listener: (event: MessageEvent<Request>) => void) => void;
  postMessage: (message: Reply, transfer: Transferable[]) => void;
}
const scope = globalThis as unknown as WorkerScope;

const handle = createSession({
  programVersion: PROGRAM_VERSION,
  fonts: recordFonts,
  openBook: () => openBrowserBook('overdrive-bench', () => undefined),
  post: (reply, transfer) => scope.postMessage(reply, transfer),
});
scope.addEventListener('message', (event) => void handle(event.data));
