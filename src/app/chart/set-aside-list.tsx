import { useEffect, useMemo, useRef } from 'react';
import { fixedText, unitLabel, withUnit } from '#app/shown-numbers.ts';
import type { SetAsideKind } from '#formats/log.ts';
import type { Frame } from './frame.ts';
import { figureDecimals, timeWords } from './read-out.ts';
import type { RunView } from './run-view.ts';
import { countOf, setAsideWords, type SetAsideRun } from './set-aside-runs.ts';

/** Each kind lists so many by themselves. */
const LISTED = 60;

interface Group {
  channel: SetAsideRun['channel'];
  kind: SetAsideKind;
  runs: SetAsideRun[];
}

function groups(runs: readonly SetAsideRun[]): Group[] {
  const found: Group[] = [];
  for (const run of runs) {
    const group = found.find(({ channel, kind }) => channel === run.channel && kind === run.kind);
    if (group === undefined) found.push({ channel: run.channel, kind: run.kind, runs: [run] });
    else group.runs.push(run);
  }
  return found;
}

/** What was set aside, by kind: count, first time, and each in its place. Choosing one moves the cursor there. */
export function SetAsideList(props: {
  view: RunView;
  frame: Frame;
  onChoose: (at_s: number) => void;
}): React.ReactElement {
  const { view, frame, onChoose } = props;
  const all = useMemo(() => groups(view.setAside), [view]);
  const box = useRef<HTMLDivElement>(null);
  // It opens beneath the strip, where the foot may lie.
  useEffect(() => {
    // What it gives back, in some browsers, is nothing to call later.
    box.current?.scrollIntoView({ block: 'nearest' });
  }, []);
  return (
    <div ref={box} className="strip-set-aside" role="group" aria-label="Readings set aside">
      {all.map(({ channel, kind, runs }) => {
        const count = countOf(runs);
        const words = setAsideWords[kind];
        return (
          <details
            key={`${channel} ${kind}`}
            open={all.length === 1}
            onToggle={() => box.current?.scrollIntoView({ block: 'nearest' })}
          >
            <summary>
              {channel === 'pressure' ? 'Pressure' : 'Oil'}: {count} {count === 1 ? words.one : words.many},
              first at {timeWords(view, runs[0]?.start_s ?? 0)}{' '}
              <span className="tone-ink2">({words.means})</span>
            </summary>
            <ul>
              {runs.slice(0, LISTED).map((run) => (
                <li key={run.from}>
                  <button type="button" className="link" onClick={() => onChoose(run.start_s)}>
                    {timeWords(view, run.start_s)}
                  </button>{' '}
                  {valueWords(run, view, frame)}
                </li>
              ))}
              {runs.length > LISTED && <li>and {runs.length - LISTED} more, all marked in the lane</li>}
            </ul>
          </details>
        );
      })}
    </div>
  );
}

function valueWords(run: SetAsideRun, view: RunView, frame: Frame): string {
  const rows = run.to - run.from;
  if (rows > 1) return `${rows} readings`;
  if (run.channel === 'oil') return '';
  const value = view.pressure?.values[run.from] ?? NaN;
  if (Number.isNaN(value)) return '';
  return withUnit(fixedText(value * frame.factor, figureDecimals(frame.unit)), unitLabel(frame.unit));
}
