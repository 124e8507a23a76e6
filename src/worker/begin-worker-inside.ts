import Inside from './worker.ts?worker&inline';

/** Begins the worker that lies inside the page, where the app is one file. */
export const beginWorker = (): Worker => new Inside();
