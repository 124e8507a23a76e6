import type { Outcome } from '#worker/client.ts';
import type { Trouble } from './state.ts';

/** What went wrong with a question, for showing it in place. */
export function troubleOf(outcome: Exclude<Outcome<unknown>, { kind: 'answer' }>): Trouble {
  return outcome.kind === 'refused'
    ? { kind: 'problems', problems: outcome.problems }
    : { kind: 'failed', message: outcome.message };
}
