import type { BookResult, BookStore } from '#book/store.ts';
import type { Problem, Result } from '#formats/problem.ts';
import type { RecordedTest } from '#record/record-input.ts';
import { restoreRun } from './kept-run.ts';
import type { Judging, LogFile, Reading } from './messages.ts';
import { attachedFiles, type AssessedFiles } from './read-file.ts';

type Judge = (file: LogFile, reading: Reading, judging: Judging) => Promise<Result<AssessedFiles>>;

/**
 * The test before a change, for the record of the one after it: read from its kept bytes as it was read then, and judged by the limits
 * of the later one, since both stand on one scale. The last one stays at hand: every letter typed into the record draws its pages again.
 */
export function createFirstTest(
  openBook: () => Promise<BookResult<BookStore>>,
): (id: string, spec: Judging['spec'], judge: Judge) => Promise<Result<RecordedTest>> {
  let last: { key: string; test: RecordedTest } | null = null;
  return async (id, spec, judge) => {
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
      const { file, reading } = run;
      const judging = { spec, judge: run.judging.judge };
      const key = JSON.stringify([file.key, file.name, reading, judging]);
      if (last?.key === key) return { ok: true, value: last.test };
      const judged = await judge(file, reading, judging);
      if (!judged.ok) return judged;
      const { files, ...assessed } = judged.value;
      const logs = await attachedFiles(files);
      if (!logs.ok) return logs;
      const test = { ...assessed, logs: logs.value, columns: reading.overrides };
      last = { key, test };
      return { ok: true, value: test };
    } finally {
      opened.value.close();
    }
  };
}
