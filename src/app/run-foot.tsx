import type { Assessment } from '#formats/assessment.ts';
import type { Desk } from './desk.ts';
import { filesText, nextLog } from './files-of-run.ts';
import { useAround } from './habits.ts';
import type { Run } from './state.ts';

/** Remarks that say what gauge would decide it, in the order in which they help. */
const gaugeRemarks = ['no-reading-can-pass', 'gauge-that-would-decide', 'risk-is-shared'];

/** Where the record asks why a unit goes out with a limit that was not met. */
export const CONCESSION_FIELD = 'concession-reason';
/** To the record, with the keyboard on the reason. */
export function toConcession(desk: Pick<Desk, 'goTo'>): void {
  desk.goTo('record', CONCESSION_FIELD);
}

/** The unit does not go out all the same: the verdict stands alone again, until Ctrl Z. */
export function takeConcessionBack(desk: Pick<Desk, 'setUnitRecord' | 'say'>, run: Run): void {
  if (run.unitRecord === null) return;
  const { concession: _concession, ...rest } = run.unitRecord;
  desk.setUnitRecord(rest);
  desk.say('The concession was taken back.');
}

/** What to do next; the first action follows the verdict. */
export function RunFoot({ assessment }: { assessment: Assessment }): React.ReactElement {
  const { desk, state, chooseLogs } = useAround();
  const next = state.batch.length === 0 ? undefined : nextLog(state);
  const passes = assessment.verdict === 'pass';
  const gauge = assessment.remarks.find(({ code }) => gaugeRemarks.includes(code));
  const opensGauge = assessment.verdict === 'undecided' && gauge !== undefined;
  const setsRelief =
    assessment.criteria.find(({ id }) => id === 'operating-pressure')?.verdict === 'fail' &&
    assessment.verdict === 'fail';
  const relief = (
    <button
      key="relief"
      type="button"
      className={`button${setsRelief && next === undefined ? ' first' : ''}`}
      onClick={() => desk.goTo('relief')}
    >
      Set the relief <kbd>R</kbd>
    </button>
  );
  const record = (
    <button
      key="record"
      type="button"
      className={`button${passes ? ' first' : ''}`}
      onClick={() => desk.goTo('record')}
    >
      Make the delivery record <kbd>D</kbd>
    </button>
  );
  const bring = (
    <button
      key="bring"
      type="button"
      className={`button${passes || opensGauge || setsRelief || next !== undefined ? '' : ' first'}`}
      onClick={chooseLogs}
    >
      Bring in a log <kbd>N</kbd>
    </button>
  );
  return (
    <div className="foot run-foot" role="group" aria-label="What to do next">
      {next !== undefined && (
        <button type="button" className={`button${passes ? '' : ' first'}`} onClick={() => desk.askNext()}>
          Next: {filesText(next)}
        </button>
      )}
      {opensGauge && (
        <button
          type="button"
          className="button first"
          onClick={() => {
            const remark = document.getElementById(`remark-${gauge.code}`);
            remark?.scrollIntoView({ block: 'center' });
            remark?.focus();
          }}
        >
          What gauge would do
        </button>
      )}
      {passes ? [record, bring, relief] : setsRelief ? [relief, bring, record] : [bring, relief, record]}
      {assessment.verdict === 'fail' && (
        <button type="button" className="link" onClick={() => toConcession(desk)}>
          Deliver with a concession… <kbd>C</kbd>
        </button>
      )}
    </div>
  );
}
