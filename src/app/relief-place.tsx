import { useEffect, useEffectEvent, useState } from 'react';
import type { Advice, AdviceOption } from '#formats/advice.ts';
import { offersSomething } from '#formats/advice-words.ts';
import {
  adviceTitle,
  instruction,
  noBreak,
  perMillimetreText,
  readingText,
  stackText,
  statedText,
  unitLabel,
  withUnit,
} from './shown-numbers.ts';
import type { PressureUnit } from '#units/pressure.ts';
import { AdjustmentSlip } from './adjustment-slip.tsx';
import { adviceInUnit } from './advice-in-unit.ts';
import { AdjustmentTrail, changeText, EarlierChanges, pressureText } from './adjustment-trail.tsx';
import { GiveTo } from './book-list.tsx';
import { dayText } from './book-words.ts';
import { Cautions } from './cautions.tsx';
import { useAround } from './habits.ts';
import { useRelief } from './relief-around.ts';
import type { ReliefState } from './relief-desk.ts';
import { ReliefForm } from './relief-form.tsx';
import { optionName, OTHER_LIMITS, ReliefOptions, ReliefRemarks } from './relief-options.tsx';
import { changedSince } from './relief-stock.ts';
import { logKey } from './run-words.ts';
import type { Run } from './state.ts';
import { TroubleLine } from './trouble.tsx';
import { hasReliefDraft } from './use-relief-draft.ts';
import { shownUnit } from './viewing-unit.ts';
import { useUndoKeys } from './use-undo-keys.ts';

/** What is being noted in the foot: an option, or something else. */
type Noting = { option: AdviceOption | null };

/** What to fit next, how it should come out and how sure that is; and what became of earlier changes. */
export function ReliefPlace({ run }: { run: Run }): React.ReactElement {
  const { desk, book, bookState, chooseLogs, habits } = useAround();
  const { relief: reliefDesk, card } = useRelief();
  const log = logKey(run);
  const [formShown, setFormShown] = useState(() => hasReliefDraft(log));
  const [noting, setNoting] = useState<Noting | null>(null);
  useUndoKeys(reliefDesk);
  const unitOfRun = bookState.runs.find(({ id }) => id === run.id)?.unitId ?? null;
  const { key } = run.file;
  useEffect(() => {
    void reliefDesk.open(run);
    // The card is read anew when the run came into the book, got a unit, or was judged otherwise; not at every change of its sheet.
    // oxlint-disable-next-line react-hooks/exhaustive-deps
  }, [reliefDesk, key, run.id, run.judging, unitOfRun]);

  const own = card.run === key;
  const advised = own ? card.advice : null;
  const judgedUnit = run.judged.assessment.quantities.operatingPressure.unit;
  const viewed = shownUnit(habits.unit, judgedUnit);
  const advice = advised === null ? null : adviceInUnit(advised, viewed);
  const { trail, made } = card;
  const unit = own ? (trail?.unit ?? null) : null;
  const unsaid = own && !card.loading && card.relief === null;
  const shown = formShown || unsaid || (own && card.trouble !== null);
  const best = advice !== null && offersSomething(advice) ? (advice.options[0] ?? null) : null;
  const fittable = best !== null && !best.leave && unit !== null && made === null && !shown;
  const note = (option: AdviceOption | null): void => setNoting({ option });
  useEnter(() => {
    if (!fittable || noting !== null) return false;
    note(best);
    return true;
  });
  useEffect(() => {
    if (unsaid) document.querySelector<HTMLElement>('.relief-form input[type=radio]:checked')?.focus();
  }, [unsaid]);

  return (
    <>
      <article className="sheet relief" aria-labelledby="relief-title">
        <ReliefHead
          card={card}
          own={own}
          advice={advice}
          unit={viewed}
          judged={advised?.target.unit ?? viewed}
        />
        {own && card.told !== null && (
          <p
            className={`aside-line relief-told${card.told.wrong ? ' not-kept' : ''}`}
            role={card.told.wrong ? 'alert' : 'status'}
          >
            {card.told.text}{' '}
            {card.told.canPutBack && card.canUndo && (
              <button type="button" className="link" onClick={() => void reliefDesk.undo()}>
                Put back
              </button>
            )}
          </p>
        )}
        {own && !card.loading && unit === null && (
          <div className="aside-line">
            <p>
              {run.id === null
                ? 'The run is not in the book, so nothing of this card is kept.'
                : 'Say which unit this is: its setting and every change of it are kept with the unit.'}
            </p>
            {run.id !== null && <GiveTo runId={run.id} />}
          </div>
        )}
        {own && card.trouble !== null && <TroubleLine trouble={card.trouble} />}
        {advice !== null && advice.heldBack === null && card.relief !== null && (
          <ReliefOptions
            advice={advice}
            assessment={run.judged.assessment}
            fitted_mm={card.relief.screw === undefined ? (card.relief.fitted_mm ?? []) : null}
            since={made !== null || changedSince(trail)}
            onFit={unit !== null && made === null ? note : null}
          />
        )}
        {shown && own && (
          <ReliefForm
            // What is typed stays, whatever else of the unit is kept meanwhile.
            key={`${key} ${trail?.alike?.serial ?? ''} ${JSON.stringify(card.relief)}`}
            relief={card.relief ?? trail?.alike?.relief ?? null}
            drawer={card.relief?.stock ?? trail?.shop?.stock ?? trail?.alike?.relief.stock ?? []}
            unit={judgedUnit}
            moved={changedSince(trail)}
            from={card.relief === null ? (trail?.alike?.serial ?? null) : null}
            log={log}
            onKeep={async (relief) => {
              const kept = await reliefDesk.setRelief(relief);
              if (!kept) return false;
              setFormShown(false);
              document.querySelector<HTMLElement>('h1')?.focus();
              window.scrollTo(0, 0);
              return true;
            }}
            onLeave={unsaid ? null : () => setFormShown(false)}
          />
        )}
        <Cautions />
        {advice !== null && (
          <div className="reasons opens">
            <div className="beside">
              <ReliefRemarks advice={advice} />
            </div>
            <div className="beside">
              <EarlierChanges advice={advice} />
              <ReliefFiles />
            </div>
          </div>
        )}
        {own && trail !== null && unit !== null && <AdjustmentTrail trail={trail} unit={viewed} />}
        <div className="below" />
      </article>
      {noting !== null && card.relief !== null ? (
        <AdjustmentSlip
          key={noting.option === null ? 'else' : optionName(noting.option)}
          option={noting.option}
          // What is kept says the reading as it was judged, whatever unit is shown.
          advice={advised}
          screw={card.relief.screw !== undefined}
          fitted_mm={card.relief.fitted_mm ?? []}
          onLeave={() => setNoting(null)}
          onKeep={(fitting) => {
            void reliefDesk.fit(fitting).then((kept) => {
              if (!kept) return;
              setNoting(null);
              void book.refresh();
              window.scrollTo(0, 0);
              document.querySelector<HTMLElement>('h1')?.focus();
            });
          }}
        />
      ) : (
        <div className="foot" role="group" aria-label="What to do next">
          {fittable && (
            <button type="button" className="button first" onClick={() => note(best)}>
              {best.fit_mm === null ? 'Turned' : 'Fitted'} {optionName(best)} <kbd>Enter</kbd>
            </button>
          )}
          {made !== null && (
            <button type="button" className="button first" onClick={chooseLogs}>
              Bring in a log <kbd>N</kbd>
            </button>
          )}
          {unit !== null && card.relief !== null && made === null && !shown && (
            <button type="button" className="button" onClick={() => note(null)}>
              {card.relief.screw === undefined ? 'I fitted something else…' : 'I turned it otherwise…'}
            </button>
          )}
          {!shown && card.relief !== null && (
            <button type="button" className="link" onClick={() => setFormShown(true)}>
              Relief and shims in stock…
            </button>
          )}
          {advice !== null && (
            <button type="button" className="link foot-aside" onClick={() => window.print()}>
              Print this card
            </button>
          )}
          <button type="button" className="link" onClick={() => desk.goTo('run')}>
            Back to the run sheet
          </button>
        </div>
      )}
    </>
  );
}

/**
 * Enter anywhere but on something that takes it itself.
 * @param act says whether anything was done
 */
function useEnter(act: () => boolean): void {
  const press = useEffectEvent((event: KeyboardEvent): void => {
    if (event.key !== 'Enter' || event.defaultPrevented || event.repeat) return;
    if (event.ctrlKey || event.metaKey || event.altKey || event.shiftKey) return;
    const { target } = event;
    if (target instanceof Element && target.closest('a, button, summary, input, select, textarea, dialog'))
      return;
    if (act()) event.preventDefault();
  });
  useEffect(() => {
    const hear = (event: KeyboardEvent): void => press(event);
    window.addEventListener('keydown', hear);
    return () => window.removeEventListener('keydown', hear);
  }, []);
}

/** The title says what to do; its sentence always ends with stopping and letting the pressure off where something is to be done. */
function ReliefHead(props: {
  card: ReliefState;
  own: boolean;
  /** In the unit for viewing. */
  advice: Advice | null;
  unit: PressureUnit;
  judged: PressureUnit;
}): React.ReactElement {
  const { card, own, advice, unit, judged } = props;
  const { bookState } = useAround();
  const [title, sentence] = own ? headOf(card, advice, bookState.today, unit) : ['Relief card', ''];
  const { target } = advice ?? {};
  // What shims do not mend stands where the shims are advised, not among the remarks below.
  const others = advice?.remarks.find(({ code }) => code === OTHER_LIMITS) ?? null;
  return (
    <div className="relief-head">
      <div>
        <h1 id="relief-title" tabIndex={-1}>
          {title}
        </h1>
        <p className="sentence" role="status">
          {noBreak(sentence)}
        </p>
        {others !== null && <p>{noBreak(others.text)}</p>}
        {unit !== judged && (
          <p className="second">
            Shown in {unitLabel(unit)}, advised in {unitLabel(judged)}.
          </p>
        )}
      </div>
      {advice !== null && target !== undefined && (
        <dl className="form-line">
          <div>
            <dt>Reading</dt>
            <dd>
              <b>{readingText(advice) || 'none'}</b>
            </dd>
          </div>
          <div>
            <dt>Aim</dt>
            <dd>
              <b>{withUnit(statedText(Number(target.value.toPrecision(5))), target.unit)}</b>
            </dd>
          </div>
          {advice.pressurePerShim !== null && (
            <div>
              <dt>One mm gives</dt>
              <dd>{perMillimetreText(advice)}</dd>
            </div>
          )}
        </dl>
      )}
    </div>
  );
}

function headOf(card: ReliefState, advice: Advice | null, today: Date, unit: PressureUnit): [string, string] {
  const { made, relief } = card;
  if (made !== null) {
    const { adjustment, change } = made;
    const { predicted } = adjustment;
    const should = predicted === null ? '' : ` It should read ${pressureText(predicted, unit)}.`;
    const found = change === null ? '' : ` The re-test read ${pressureText(change.pressureAfter, unit)}.`;
    return [
      adjustment.turns === undefined ? `Fitted ${stackText(adjustment.after_mm)}` : changeText(adjustment),
      `${dayText(adjustment.date, today)}${adjustment.by === '' ? '' : `, ${adjustment.by}`}.${should}${found === '' ? ' Waiting for the re-test: same oil, same speed, equally warm.' : found}`,
    ];
  }
  if (advice !== null) {
    const [best] = advice.options;
    const text =
      advice.heldBack?.text ??
      (offersSomething(advice) && best !== undefined
        ? instruction(best, relief?.screw === undefined ? (relief?.fitted_mm ?? null) : null)
        : (advice.remarks.find(({ code }) => code === 'nothing-reaches-the-band')?.text ?? ''));
    return [adviceTitle(advice), text];
  }
  if (card.trouble !== null) return ['Something is missing', 'Put it right below.'];
  if (card.loading || card.working) return ['Relief card', 'Working it out …'];
  return [
    'What is fitted now?',
    'Say what is in the unit, what lies in the drawer and what a millimetre does; the rest is worked out.',
  ];
}

/** The card's data as files, the same bytes as the command line reads and writes. */
function ReliefFiles(): React.ReactElement {
  const { relief, card } = useRelief();
  return (
    <section aria-labelledby="relief-files">
      <h2 id="relief-files">As files</h2>
      <ul className="relief-files">
        <li>
          <button type="button" className="link" onClick={() => relief.save('advice')}>
            Save the advice as JSON
          </button>{' '}
          <span className="second">
            predictions against what was found are in it; the command line writes the same bytes
          </span>
        </li>
        <li>
          <button type="button" className="link" onClick={() => relief.save('relief')}>
            Save the relief as JSON
          </button>
        </li>
        {card.trail?.history !== null && card.trail !== null && (
          <li>
            <button type="button" className="link" onClick={() => relief.save('adjustments')}>
              Save the trail as JSON
            </button>
          </li>
        )}
      </ul>
    </section>
  );
}
