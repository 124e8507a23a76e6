import { filesText } from './files-of-run.ts';
import { startText, runName } from './run-words.ts';
import type { Run } from './state.ts';

/** The card's form line: which unit, which run, on which bench, by whose limits and which rule. */
export function FormLine({ run }: { run: Run }): React.ReactElement {
  const { assessment } = run.judged;
  const { spec, rig, log, settings } = assessment;
  const when = startText(log.start);
  const serial = run.unitRecord?.unit?.serial?.trim() ?? '';
  const fields: readonly (readonly [string, string])[] = [
    serial === '' ? ['Log', runName(run)] : ['Unit', serial],
    ['Run', when ?? (serial === '' || run.file.name === null ? 'no date in the log' : filesText(run.file))],
    ['Bench', rig?.name ?? 'not stated'],
    ['Limits from', spec === null ? 'none given' : spec.name],
    ['Rule', spec === null ? 'none' : settings.decisionRule],
  ];
  return (
    <dl className="form-line">
      {fields.map(([name, value], index) => (
        <div key={name}>
          <dt>{name}</dt>
          <dd className={index === 0 ? 'serial-here' : undefined}>{value}</dd>
        </div>
      ))}
    </dl>
  );
}
