import type { Outcome, WorkerClient } from '#worker/client.ts';
import type { RecordAnswers, RecordChoices } from '#worker/record-messages.ts';
import type { Run } from './state.ts';

/** What the place of the delivery record asks the worker. */
export interface RecordDesk {
  /** The pages as they would be saved. */
  preview: (choices: RecordChoices) => {
    outcome: Promise<Outcome<RecordAnswers['preview']>>;
    stop: () => void;
  };
  checkRecord: (record: File, logs: File[]) => Promise<Outcome<RecordAnswers['check-record']>>;
  cleanLogo: (logo: File) => Promise<Outcome<RecordAnswers['clean-logo']>>;
}

export function createRecordDesk(client: WorkerClient, run: () => Run | null): RecordDesk {
  return {
    preview: (choices) => {
      const shown = run();
      if (shown === null)
        return {
          outcome: Promise.resolve({ kind: 'failed', message: 'there is no run' }),
          stop: () => undefined,
        };
      const { file, reading, judging } = shown;
      return client.ask({ kind: 'preview', file, reading, judging, choices });
    },
    checkRecord: (record, logs) => client.ask({ kind: 'check-record', record, logs }).outcome,
    cleanLogo: (logo) => client.ask({ kind: 'clean-logo', logo }).outcome,
  };
}
