import { useRef, useState } from 'react';
import { recordDifferenceSentence, recordSubjects, type Verification } from '#formats/verification.ts';
import { useAround } from './habits.ts';
import type { Trouble } from './state.ts';
import { TroubleLine } from './trouble.tsx';
import { troubleOf } from './trouble-of.ts';

const results = { agrees: 'agrees', differs: 'does not agree', 'not-checked': 'not checked' } as const;

/** A record that went out, held against the log in it, and against a log that lies beside it. */
export function RecordCheck(): React.ReactElement {
  const { desk } = useAround();
  const [state, setState] = useState<'waiting' | 'checking' | Verification | Trouble>('waiting');
  const chooser = useRef<HTMLInputElement>(null);
  async function check(record: File): Promise<void> {
    setState('checking');
    const outcome = await desk.record.checkRecord(record, []);
    setState(outcome.kind === 'answer' ? outcome.answer : troubleOf(outcome));
  }
  return (
    <section className="part check-record" aria-labelledby="check-record">
      <h2 id="check-record">Check a record that went out</h2>
      <p>
        <button type="button" className="button" onClick={() => chooser.current?.click()}>
          Choose a record
        </button>{' '}
        <span className="second">
          the log in it is judged and printed again, and compared with what it says
        </span>
      </p>
      <input
        ref={chooser}
        type="file"
        hidden
        accept=".pdf,application/pdf"
        aria-label="Record to check"
        onChange={(event) => {
          const file = event.currentTarget.files?.[0];
          event.currentTarget.value = '';
          if (file) void check(file);
        }}
      />
      <div role="status">
        {state === 'checking' && <p>Judging and printing it again …</p>}
        {typeof state === 'object' && 'format' in state && <Checked verification={state} />}
      </div>
      {typeof state === 'object' && !('format' in state) && <TroubleLine trouble={state} />}
    </section>
  );
}

function Checked({ verification }: { verification: Verification }): React.ReactElement {
  const { agrees, checks, record, program } = verification;
  return (
    <>
      <p>
        <b>
          {agrees === true
            ? 'Record, log and numbers agree.'
            : agrees === false
              ? 'Something does not agree.'
              : 'Nothing disagrees, but not all could be checked.'}
        </b>{' '}
        {[record.fileName, record.recordNumber, record.serial].filter((each) => each !== null).join(', ')}
        {record.madeBy === program.version
          ? ''
          : `; made by version ${record.madeBy}, this is ${program.version}`}
      </p>
      <ul>
        {checks.map(({ id, result, reason, differences, more }) => (
          <li key={id}>
            {recordSubjects[id]}: <b>{results[result]}</b>
            {reason === undefined ? '' : ` (${reason})`}
            {differences.length > 0 && (
              <ul>
                {differences.map((difference) => (
                  <li key={JSON.stringify(difference)}>{recordDifferenceSentence(difference)}</li>
                ))}
                {more > 0 && <li>and {more} more</li>}
              </ul>
            )}
          </li>
        ))}
      </ul>
    </>
  );
}
