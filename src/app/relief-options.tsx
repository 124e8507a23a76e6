import type { Advice, AdviceOption } from '#formats/advice.ts';
import { ADVICE_COVERAGE, optionReason } from '#formats/advice-words.ts';
import type { Assessment } from '#formats/assessment.ts';
import {
  asSentence,
  chanceText,
  noBreak,
  placeText,
  predictedText,
  readingText,
  stackText,
  statedText,
  withUnit,
} from './shown-numbers.ts';
import { pressureFactor } from '#units/pressure.ts';
import {
  ReliefCurve,
  ReliefGround,
  reliefScale,
  ReliefWhisker,
  StackPicture,
  type ReliefScale,
} from './relief-picture.tsx';
import { inUnit } from './viewing-unit.ts';

/** What is in it now, and what could be fitted, best first, on one common scale down the page. */
export function ReliefOptions(props: {
  advice: Advice;
  assessment: Assessment;
  fitted_mm: readonly number[] | null;
  /** It was changed since. */
  since: boolean;
  /** null: nothing can be said to be fitted from here. */
  onFit: ((option: AdviceOption) => void) | null;
}): React.ReactElement {
  const { advice, assessment, fitted_mm, onFit } = props;
  const { options, target } = advice;
  const criterion = assessment.criteria.find(({ id }) => id === 'operating-pressure') ?? null;
  const guarded = criterion?.decisionRule === 'guarded';
  const band = assessment.spec?.pressureBand;
  const { expandedUncertainty } = advice.operatingPressure;
  const near = guarded ? (assessment.settings.guardFactor ?? 1) * (expandedUncertainty ?? 0) : 0;
  const factor = band === undefined ? 1 : pressureFactor(band.unit, target.unit);
  const limit = (value: number | null | undefined): number | null =>
    value === null || value === undefined ? null : value * factor;
  const scale = reliefScale(advice, { low: limit(band?.low), high: limit(band?.high) }, near);
  const surest = Math.min(
    ...options.flatMap(({ leave, predicted }) =>
      leave || predicted.standardUncertainty === 0 ? [] : [predicted.standardUncertainty],
    ),
  );
  const place =
    criterion === null || criterion.value === null ? '' : placeText(inUnit(criterion, target.unit));
  return (
    <section className="relief-list" aria-label="What could be fitted">
      <div className="relief-axis" aria-hidden="true">
        <span className="relief-pic">
          {[scale.low, scale.high].map(
            (each) =>
              each !== null && (
                <b key={each} style={{ left: `${scale.at(each)}%` }}>
                  {statedText(Number(each.toPrecision(5)))}
                </b>
              ),
          )}
          <span style={{ left: `${scale.at(scale.aim)}%` }}>
            aim {withUnit(statedText(Number(target.value.toPrecision(5))), target.unit)}
          </span>
        </span>
      </div>
      <div className="relief-row now">
        <div className="relief-fit">
          {fitted_mm !== null && <StackPicture shims={fitted_mm} />}
          <p>
            <b>{fitted_mm === null ? 'As it is set' : stackText(fitted_mm)}</b>
            <span className="second">
              {onFit === null && props.since ? 'in it at this run' : fitted_mm === null ? 'now' : 'in it now'}
            </span>
          </p>
        </div>
        <div className="relief-pic" aria-hidden="true">
          <ReliefGround scale={scale} />
          {advice.operatingPressure.value !== null && (
            <ReliefWhisker
              value={advice.operatingPressure.value}
              expanded={expandedUncertainty ?? 0}
              scale={scale}
              verdict={criterion?.verdict ?? 'not-assessed'}
            />
          )}
        </div>
        <p className="relief-result">
          <b>{readingText(advice) || 'no reading'}</b>
          <span className="second">
            {noBreak(['as read', place].filter((part) => part !== '').join(', '))}
          </span>
        </p>
      </div>
      {options.length > 0 && (
        <ol>
          {options.map((option, index) => (
            <OptionRow
              key={option.leave ? 'leave' : (option.fit_mm?.join('+') ?? option.turns)}
              {...{ option, advice, scale, surest, onFit }}
              best={index === 0}
            />
          ))}
        </ol>
      )}
    </section>
  );
}

/** "0.50 + 0.25 mm", "1.5 turns in", "Leave it as it is". */
export function optionName({ leave, fit_mm, turns }: AdviceOption): string {
  if (leave) return 'Leave it as it is';
  if (fit_mm !== null) return stackText(fit_mm);
  return `${statedText(Math.abs(turns ?? 0))} ${Math.abs(turns ?? 0) === 1 ? 'turn' : 'turns'} ${(turns ?? 0) > 0 ? 'in' : 'out'}`;
}

function OptionRow(props: {
  option: AdviceOption;
  advice: Advice;
  scale: ReliefScale;
  surest: number;
  best: boolean;
  onFit: ((option: AdviceOption) => void) | null;
}): React.ReactElement {
  const { option, advice, scale, surest, best, onFit } = props;
  const name = optionName(option);
  return (
    <li className={`relief-row${best ? ' best' : ''}`}>
      <div className="relief-fit">
        {option.fit_mm !== null && <StackPicture shims={option.fit_mm} />}
        <p>
          <b>{option.fit_mm === null ? name : name.replace(/ mm$/u, '')}</b>
          <span className="second">{noBreak(optionReason(option, advice))}</span>
        </p>
      </div>
      <div className="relief-pic" aria-hidden="true">
        <ReliefGround scale={scale} />
        {option.leave ? (
          <ReliefWhisker
            value={option.predicted.value}
            expanded={ADVICE_COVERAGE * option.predicted.standardUncertainty}
            scale={scale}
            verdict="not-assessed"
          />
        ) : (
          <ReliefCurve option={option} scale={scale} surest={surest} />
        )}
      </div>
      <div className="relief-result">
        <b>{predictedText(option)}</b>
        <span className="second">{chanceText(option.probabilityOfConformity)} land in the band</span>
        <span>{chanceText(option.probabilityOfPass)} pass the re-test</span>
        {onFit !== null && !option.leave && !best && (
          <button type="button" className="link second" onClick={() => onFit(option)}>
            Fitted this<span className="unseen">: {name}</span>
          </button>
        )}
      </div>
    </li>
  );
}

/** Remark that the card says at its head. */
export const OTHER_LIMITS = 'other-limits-not-met';

/** What is behind the advice: the remarks, and where a millimetre's pressure comes from. */
export function ReliefRemarks({ advice }: { advice: Advice }): React.ReactElement {
  const { pressurePerShim, remarks } = advice;
  return (
    <section aria-labelledby="relief-remarks">
      <h2 id="relief-remarks">What it rests on</h2>
      <ul className="remarks">
        {pressurePerShim !== null && (
          <li>{asSentence(`Pressure per millimetre: ${sourceSentence(pressurePerShim)}`)}</li>
        )}
        {remarks
          .filter(({ code }) => code !== OTHER_LIMITS)
          .map(({ code, text }) => (
            <li key={code + text}>{noBreak(text)}</li>
          ))}
      </ul>
    </section>
  );
}

const sourceWords: Readonly<Record<string, string>> = {
  valve: 'spring rate over pressure area',
  figure: 'the figure that was stated',
  history: 'earlier changes of this unit',
  type: 'earlier changes of its type',
};

function sourceSentence({ from, adjustmentsUsed }: NonNullable<Advice['pressurePerShim']>): string {
  const sources = from.split(' and ').map((source) => sourceWords[source] ?? source);
  const used =
    adjustmentsUsed === 0
      ? ''
      : `, ${adjustmentsUsed === 1 ? 'one change' : `${adjustmentsUsed} changes`} used`;
  return `from ${sources.join(' and ')}${sources.length > 1 ? ', weighed by their uncertainties' : ''}${used}`;
}
