import { useEffect, useState } from 'react';
import { smoothingMethods, type Smoothing, type Spec } from '#formats/spec.ts';
import { fieldNumber, verdictWords } from './shown-numbers.ts';
import type { PressureUnit } from '#units/pressure.ts';
import type { Judged } from '#worker/messages.ts';
import { useAround } from './habits.ts';
import { headOf } from './run-words.ts';
import type { Run } from './state.ts';
import { ambiguousText, typedNumber } from './typed-number.ts';

export const methodWords: Readonly<Record<Smoothing['method'], string>> = {
  median: 'running median',
  mean: 'running mean',
  'savitzky-golay': 'Savitzky–Golay',
  none: 'none',
};

/** What another smoothing or another rule would say. It is a trial: the verdict stays, and nothing of it is kept. */
export function WhatIf(props: {
  run: Run;
  unit: PressureUnit;
  /** The trial that is drawn on the strip; null: none. */
  onTrial: (judged: Judged | null) => void;
}): React.ReactElement | null {
  const { run, unit, onTrial } = props;
  const { desk } = useAround();
  const { settings, spec } = run.judged.assessment;
  const own = {
    method: settings.smoothing.method,
    window: fieldNumber(settings.smoothing.window_s),
    rule: settings.decisionRule,
  };
  const [wished, setWished] = useState<typeof own | null>(null);
  const [found, setFound] = useState<{ of: string; judged: Judged | null; wrong: string | null } | null>(
    null,
  );
  const now = wished ?? own;
  const window_s = typedNumber(now.window) ?? NaN;
  const same = now.method === own.method && now.window === own.window && now.rule === own.rule;
  const usable = Number.isFinite(window_s) && window_s > 0;
  const key = JSON.stringify(now);
  const { file, reading, judging } = run;

  useEffect(() => {
    if (same || !usable || spec === null) {
      onTrial(null);
      return undefined;
    }
    const tried: Spec = {
      ...spec,
      smoothing: { method: now.method, window_s },
      decisionRule: now.rule,
    };
    const asked = desk.tryBy({ file, reading, judging: { ...judging, spec: tried } });
    let left = false;
    void asked.outcome.then((outcome) => {
      if (left) return;
      const judged = outcome.kind === 'answer' ? outcome.answer : null;
      setFound({ of: key, judged, wrong: judged === null ? 'It cannot be judged so.' : null });
      onTrial(judged);
    });
    return () => {
      left = true;
      asked.stop();
    };
    // The parts of `now` are in its key; a trial belongs to what is judged.
    // oxlint-disable-next-line react/exhaustive-deps
  }, [key, run.judged]);

  if (spec === null) return null;
  const trial = !same && found?.of === key ? found : null;
  const head = trial?.judged ? headOf(trial.judged.assessment, unit) : null;
  return (
    <details className="what-if">
      <summary>
        <h2>Try another smoothing or rule</h2>
      </summary>
      <div className="band-fields">
        <label>
          <span className="field-name">smoothing</span>
          <select
            value={now.method}
            onChange={(event) => {
              const method = smoothingMethods.find((each) => each === event.currentTarget.value);
              if (method !== undefined) setWished({ ...now, method });
            }}
          >
            {smoothingMethods.map((method) => (
              <option key={method} value={method}>
                {methodWords[method]}
              </option>
            ))}
          </select>
        </label>
        <label>
          <span className="field-name">over, in seconds</span>
          <input
            inputMode="decimal"
            value={now.window}
            aria-invalid={!usable}
            onChange={(event) => setWished({ ...now, window: event.currentTarget.value })}
          />
        </label>
        <label>
          <span className="field-name">rule</span>
          <select
            value={now.rule}
            onChange={(event) =>
              setWished({ ...now, rule: event.currentTarget.value === 'simple' ? 'simple' : 'guarded' })
            }
          >
            <option value="guarded">guarded</option>
            <option value="simple">simple</option>
          </select>
        </label>
        {!same && (
          <button
            type="button"
            className="button"
            onClick={() => {
              setWished(null);
              onTrial(null);
            }}
          >
            End the trial
          </button>
        )}
      </div>
      <p role="status">
        {same
          ? 'As the limits say. Change something to see what it would do; the verdict does not change with it.'
          : !usable
            ? (ambiguousText(now.window) ?? 'Write the seconds as a number above 0.')
            : trial === null
              ? 'Working it out …'
              : (trial.wrong ??
                `A trial, not kept: ${verdictWords[trial.judged?.assessment.verdict ?? 'not-assessed'].toLowerCase()}${head?.found ? `, ${head.found}` : ''}. The verdict stays: ${verdictWords[run.judged.assessment.verdict].toLowerCase()}. To judge by it, keep limits that say so, and judge the run by them.`)}
      </p>
    </details>
  );
}
