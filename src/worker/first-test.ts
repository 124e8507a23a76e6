import type { Assessed } from '#assessment/assess.ts';
import type { BookResult, BookStore } from '#book/store.ts';
import type { Problem, Result } from '#formats/problem.ts';
import type { RecordedTest } from '#record/record-input.ts';
import { restoreRun } from './kept-run.ts';
import type { Judging, LogFile, Reading } from './messages.ts';

interface Means {
  openBook: () => Promise<BookResult<BookStore>>;
  judge: (file: LogFile, reading: Reading, judging: Judging) => Promise<Result<Assessed>>;
}

/**
 * The test before a change, for the record of the one after it: judged again from its kept bytes by what it was judged by then. The
 * last one stays at hand, since every letter typed into the record draws its pages again.
 */
export function createFirstTest({ openBook, judge }: Means): (run: string) => Promise<Result<RecordedTest>> {
  let last: { key: string; test: RecordedTest } | null = null;
  return async (id) => {
    const refused = (reason: string): { ok: false; problems: Problem[] } => ({
      ok: false,
      problems: [{ code: 'no-first-test', reason }],
    });
    const opened = await openBook();
    if (!opened.ok) return refused('the book cannot be read');
    try {
      const { run, problem } = await restoreRun(opened.value, id);
      if (problem?.code === 'entry-damaged') return refused(problem.reason);
      if (run === null || run.id !== id) return refused('its run is not in the book any more');
      const { file, reading, judging } = run;
      const key = JSON.stringify([file.key, file.name, reading, judging]);
      if (last?.key === key) return { ok: true, value: last.test };
      const judged = await judge(file, reading, judging);
      if (!judged.ok) return judged;
      const bytes = new Uint8Array(await file.blob.arrayBuffer());
      const test = { ...judged.value, logs: [{ fileName: file.name ?? 'log.csv', bytes }] };
      last = { key, test };
      return { ok: true, value: test };
    } finally {
      opened.value.close();
    }
  };
}
