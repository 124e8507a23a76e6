/** Begins the worker, a file of its own beside the page. */
export const beginWorker = (): Worker =>
  new Worker(new URL('./worker.ts', import.meta.url), { type: 'module' });
