import type { Advice } from '#formats/advice.ts';
import { ADVICE_COVERAGE } from '#formats/advice-words.ts';
import {
  asSentence,
  decimalsForStep,
  earlierFigures,
  earlierSentence,
  fixedText,
  millimetres,
  noBreak,
  stackText,
  turnsText,
  uncertainText,
  withUnit,
} from './shown-numbers.ts';
import { pressureFactor, type PressureUnit } from '#units/pressure.ts';
import type { BookAdjustment } from '#formats/book.ts';
import type { Trail, TrailStep } from '#worker/messages.ts';
import { AdjustmentOver } from './adjustment-over.tsx';
import { logName } from '#book/new-run.ts';
import { dayText, kindText, runDay } from './book-words.ts';
import { useAround } from './habits.ts';
import { useRelief } from './relief-around.ts';

/** Every change of the unit's setting, oldest first: what, when, why, who, what it did, and its re-test. */
export function AdjustmentTrail({
  trail,
  unit,
}: {
  trail: Trail;
  /** For viewing. */
  unit: PressureUnit;
}): React.ReactElement {
  const { card } = useRelief();
  return (
    <section className="part opens trail" aria-labelledby="trail">
      <h2 id="trail">Changes of this unit’s setting</h2>
      {trail.steps.length === 0 && <p className="second">None yet.</p>}
      <ol>
        {trail.steps.map((step) => (
          <TrailRow key={step.adjustment.id} step={step} trail={trail} unit={unit} />
        ))}
      </ol>
      {card.over !== null && <AdjustmentOver over={card.over} trail={trail} unit={unit} />}
      {trail.takenOut.length > 0 && <TakenOut changes={trail.takenOut} />}
    </section>
  );
}

/** What was taken out of the trail, until the bin is emptied. */
function TakenOut({ changes }: { changes: BookAdjustment[] }): React.ReactElement {
  const { bookState } = useAround();
  const { relief } = useRelief();
  return (
    <details className="taken-out">
      <summary>
        {changes.length === 1 ? 'One change was' : `${changes.length} changes were`} taken out of the trail
      </summary>
      <ul>
        {changes.map((change) => (
          <li key={change.id}>
            {changeText(change)}{' '}
            <span className="second">
              {[dayText(change.date, bookState.today), change.by].filter((part) => part !== '').join(', ')}
            </span>{' '}
            <button type="button" className="link" onClick={() => void relief.putBackChange(change)}>
              Put back<span className="unseen">: {changeText(change)}</span>
            </button>
          </li>
        ))}
      </ul>
    </details>
  );
}

/** "1.00 + 0.45 mm to 0.50 + 0.25 mm", "Screw 1.5 turns out". */
export const changeText = ({ before_mm, after_mm, turns }: BookAdjustment): string =>
  turns === undefined
    ? `${stackText(before_mm)} to ${stackText(after_mm)}`
    : `Screw ${turnsText(turns)} ${turns > 0 ? 'in' : 'out'}`;

/** A pressure with its ±, in the unit for viewing. */
export function pressureText(
  found: { value: number; unit: PressureUnit; standardUncertainty?: number | undefined },
  unit: PressureUnit,
): string {
  const factor = pressureFactor(found.unit, unit);
  const value = found.value * factor,
    u = (found.standardUncertainty ?? 0) * factor;
  return u === 0
    ? withUnit(fixedText(value, decimalsForStep(0.1 * factor)), unit)
    : uncertainText(value, ADVICE_COVERAGE * u, unit);
}

function TrailRow({
  step,
  trail,
  unit,
}: {
  step: TrailStep;
  trail: Trail;
  unit: PressureUnit;
}): React.ReactElement {
  const { bookState } = useAround();
  const { relief, card } = useRelief();
  const { adjustment, change } = step;
  const { predicted, runBefore, runAfter } = adjustment;
  const later = trail.runs.filter(({ id }) => id !== runBefore);
  const said = [
    ...(predicted === null ? ['no prediction'] : [`predicted ${pressureText(predicted, unit)}`]),
    ...(change === null
      ? [runAfter === null ? 'waiting for the re-test' : 'no pressure found']
      : [`found ${pressureText(change.pressureAfter, unit)}`]),
  ];
  const laid = card.over?.step === adjustment.id;
  return (
    <li className={change === null ? 'waiting' : ''}>
      <div>
        <b>{changeText(adjustment)}</b>{' '}
        <span className="second">
          {[dayText(adjustment.date, bookState.today), adjustment.by, adjustment.why]
            .filter((part) => part !== '')
            .join(', ')}
        </span>
        <p>
          {change !== null && `${pressureText(change.pressureBefore, unit)} before, `}
          {noBreak(said.join(', '))}.
          {change?.notAlike !== undefined && (
            <span className="second"> {asSentence(`Not like for like: ${change.notAlike}`)}</span>
          )}
        </p>
      </div>
      <div className="trail-actions">
        <label>
          <span className="field-name">
            Re-test<span className="unseen"> of {changeText(adjustment)}</span>
          </span>
          <select
            value={runAfter ?? ''}
            onChange={(event) => {
              const { value } = event.currentTarget;
              void relief.setReTest(adjustment, value === '' ? null : value);
            }}
          >
            <option value="">not yet</option>
            {later.map((run) => (
              <option key={run.id} value={run.id}>
                {kindText(run.kind)}, {runDay(run, bookState.today)}, {logName(run) ?? 'run'}
              </option>
            ))}
          </select>
        </label>
        {runBefore !== null && runAfter !== null && (
          <button
            type="button"
            className="link"
            aria-expanded={laid}
            onClick={() => (laid ? relief.foldOver() : void relief.layOver(adjustment))}
          >
            {laid ? 'Fold test and re-test' : 'Lay test and re-test over'}
          </button>
        )}
        <button type="button" className="link second" onClick={() => void relief.removeChange(adjustment)}>
          Take out of the trail<span className="unseen">: {changeText(adjustment)}</span>
        </button>
      </div>
    </li>
  );
}

/** What earlier changes, of this unit and of its type, did against what was predicted: a bar of ± for prediction and re-test together, a dot where it was found. */
export function EarlierChanges({ advice }: { advice: Advice }): React.ReactElement | null {
  const { bookState } = useAround();
  const earlier = advice.earlier ?? [];
  if (earlier.length === 0) return null;
  const reach = Math.max(
    ...earlier.map(({ found, predicted, standardUncertainty: u }) =>
      Math.max(Math.abs(found - predicted), ADVICE_COVERAGE * u),
    ),
  );
  const at = (difference: number): string => `${(50 + (difference / (reach * 1.15 || 1)) * 50).toFixed(2)}%`;
  return (
    <section aria-labelledby="earlier">
      <h2 id="earlier">What earlier changes did</h2>
      <p className="second">
        Found less predicted. Bar: ± of prediction and re-test together. Dot: found by the re-test; open where
        test and re-test are not like for like.
      </p>
      <ul className="earlier">
        {earlier.map((each, index) => {
          const { date, serial, change_mm, predicted, found, standardUncertainty: u } = each;
          const outside = Math.abs(found - predicted) > ADVICE_COVERAGE * u;
          return (
            <li key={`${date ?? ''} ${serial ?? ''} ${index}`}>
              <span>
                {change_mm > 0 ? '+' : ''}
                {millimetres(change_mm)}{' '}
                <span className="second">
                  {[date === undefined ? '' : dayText(date, bookState.today), serial ?? '']
                    .filter((part) => part !== '')
                    .join(', ')}
                </span>
              </span>
              <span className="earlier-bar" aria-hidden="true">
                <i
                  className="whisker"
                  style={{ left: at(-ADVICE_COVERAGE * u), right: `calc(100% - ${at(ADVICE_COVERAGE * u)})` }}
                />
                <i className="earlier-zero" />
                <i
                  className={`earlier-dot${outside ? ' outside' : ''}${each.notAlike === undefined ? '' : ' open'}`}
                  style={{ left: at(found - predicted) }}
                />
              </span>
              <span>
                {earlierFigures(each)}
                {each.outlier && <span className="second"> left out of what is learned</span>}
                {!each.outlier && outside && <span className="second"> outside</span>}
              </span>
            </li>
          );
        })}
      </ul>
      <p>{noBreak(earlierSentence(advice))}</p>
    </section>
  );
}
