import type { UnitLine } from '#book/search.ts';
import type { BookRun } from '#formats/book.ts';
import { verdictWords } from './shown-numbers.ts';
import { logName } from '#book/new-run.ts';
import { kindText, runDay, runsText, verdictSentence } from './book-words.ts';
import { RunStrip } from './book-strip.tsx';
import { useAround } from './habits.ts';
import { Mark } from './marks/mark.tsx';

/** A text with what was looked for underlined. */
export function Underlined({ text, words }: { text: string; words: readonly string[] }): React.ReactElement {
  const lower = text.toLowerCase();
  const hits = words.filter((word) => word !== '' && lower.includes(word));
  const [word] = hits;
  if (word === undefined) return <>{text}</>;
  const at = lower.indexOf(word);
  return (
    <>
      {text.slice(0, at)}
      <mark>{text.slice(at, at + word.length)}</mark>
      {text.slice(at + word.length)}
    </>
  );
}

/** One unit as a line; the whole line leads to it. */
export function UnitRow({ line, words }: { line: UnitLine; words: readonly string[] }): React.ReactElement {
  const { book } = useAround();
  const { unit, runs } = line;
  const serial = unit.record.unit?.serial ?? 'No serial';
  const about = [unit.record.unit?.type, unit.record.customer].filter(
    (part) => part !== undefined && part !== '',
  );
  return (
    <li>
      <a
        className="book-line"
        href={`#/unit/${unit.id}`}
        onClick={(event) => {
          event.preventDefault();
          book.showUnit(unit.id);
        }}
      >
        <span className="who">
          <b className="serial">
            <Underlined text={serial} words={words} />
          </b>
          <span className="second">
            <Underlined text={[...about, runsText(runs.length)].join(', ')} words={words} />
          </span>
        </span>
        <LineEnd run={runs.at(-1) ?? null} />
      </a>
    </li>
  );
}

/** A run that is not yet given to a unit, or one of a unit on its page. */
export function RunRow({ run, byUnit }: { run: BookRun; byUnit: boolean }): React.ReactElement {
  const { openRun } = useAround();
  return (
    <a
      className="book-line"
      href="#/run"
      onClick={(event) => {
        event.preventDefault();
        openRun(run.id);
      }}
    >
      <span className="who">
        <b className={byUnit ? 'run-kind' : 'serial'}>
          {byUnit ? kindText(run.kind) : (logName(run) ?? 'Run')}
        </b>
        {byUnit && <span className="second">{logName(run) ?? 'unnamed log'}</span>}
      </span>
      <LineEnd run={run} />
    </a>
  );
}

function LineEnd({ run }: { run: BookRun | null }): React.ReactElement {
  const { bookState } = useAround();
  if (run === null) return <span className="second no-run">No run yet.</span>;
  const kept = run.assessments.at(-1) ?? null;
  const day = runDay(run, bookState.today);
  return (
    <>
      <RunStrip run={run} />
      {kept === null ? (
        <span className="said second">No verdict. {day}</span>
      ) : (
        <>
          <Mark verdict={kept.verdict} criterion={kept.deciding ?? null} />
          <span className="said">
            <b className={`word ${kept.verdict}`}>{verdictWords[kept.verdict]}</b>
            <span className="second sentence-and-day">
              <span>{verdictSentence(kept, run)}</span>
              <span>{day}</span>
            </span>
          </span>
        </>
      )}
    </>
  );
}
