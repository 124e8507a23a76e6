import type { Draft } from './state.ts';
import { numbersText, samplingAndGaps, setAsideText, timeText } from './understood-words.ts';

/** What was understood of the file as a whole, down the margin. */
export function MarginList({ draft }: { draft: Draft }): React.ReactElement | null {
  if (draft.understood === null) return null;
  const { log, remarks } = draft.understood.inspection;
  const pressure = log.channels.find(({ role }) => role === 'pressure');
  const serial = draft.unitRecord?.unit?.serial;
  return (
    <dl className={`margin-list${draft.stage === 'reading' ? ' working' : ''}`}>
      <dt>Time</dt>
      <dd>{timeText(log)}</dd>
      {(log.parts ?? []).length > 0 && (
        <>
          <dt>Files, joined</dt>
          <dd>{(log.parts ?? []).map(({ fileName }) => fileName ?? 'unnamed').join('; ')}</dd>
        </>
      )}
      <dt>Sampling</dt>
      <dd>{samplingAndGaps(log)}</dd>
      <dt>Numbers</dt>
      <dd>{numbersText(log)}</dd>
      <dt>Set aside of the pressure</dt>
      <dd>{setAsideText(pressure)}</dd>
      <dt>Rows left out</dt>
      <dd>
        {log.skippedRowCount === 0 ? (
          'none'
        ) : (
          <details>
            <summary>{log.skippedRowCount} without a usable time, show</summary>
            <ul>
              {log.skippedRows.map((row) => (
                <li key={row.line}>
                  line {row.line}: {row.reason}
                </li>
              ))}
            </ul>
          </details>
        )}
      </dd>
      <dt>Bench</dt>
      <dd>{draft.rig === null ? 'not stated' : draft.rig.rig.name}</dd>
      {serial !== undefined && (
        <>
          <dt>For unit</dt>
          <dd>{serial}</dd>
        </>
      )}
      {(remarks ?? []).length > 0 && (
        <>
          <dt>Remarks</dt>
          {(remarks ?? []).map((remark) => (
            <dd key={remark.code + remark.text}>{remark.text}</dd>
          ))}
        </>
      )}
    </dl>
  );
}
