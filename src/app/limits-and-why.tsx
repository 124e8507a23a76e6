import type { Assessment, Criterion } from '#formats/assessment.ts';
import { criterionNames } from '#formats/criterion-names.ts';
import { allowedText, asSentence, fixedText, noBreak, valueText, verdictWords } from './shown-numbers.ts';
import type { Shown } from './chart/strip-props.ts';
import { workingOf, type Working } from './criterion-working.ts';
import { Mark } from './marks/mark.tsx';
import { verdictOrder } from './run-words.ts';

/** Each limit that was set, and why it came out as it did: what failed first. In the units that the assessment is given in. */
export function LimitsAndWhy(props: {
  assessment: Assessment;
  /** Shows a part of the run on the strip; left out where there is none to look at. */
  onLook?: (part: Shown) => void;
}): React.ReactElement {
  const { assessment, onLook } = props;
  const sorted = verdictOrder.flatMap((verdict) =>
    assessment.criteria.filter((criterion) => criterion.verdict === verdict),
  );
  return (
    <section aria-labelledby="limits" className="limits">
      <h2 id="limits" tabIndex={-1}>
        Each limit, and why
      </h2>
      {sorted.length === 0 && <p>No limit was given, so nothing was judged.</p>}
      <ul>
        {sorted.map((criterion) => (
          <Limit
            key={criterion.id}
            criterion={criterion}
            working={workingOf(assessment, criterion.id)}
            onLook={onLook}
          />
        ))}
      </ul>
    </section>
  );
}

function Limit(props: {
  criterion: Criterion;
  working: Working;
  onLook: ((part: Shown) => void) | undefined;
}): React.ReactElement {
  const { criterion, working, onLook } = props;
  const { formula, numbers, part } = working;
  const found = valueText(criterion);
  return (
    <li className={`limit ${criterion.verdict}`}>
      <Mark verdict={criterion.verdict} criterion={criterion} />
      <span className="verdict-word">{verdictWords[criterion.verdict]}</span>
      <div>
        <h3>{sentenceCase(criterionNames[criterion.id].engineer)}</h3>
        <p className="numbers">
          {noBreak(
            found === ''
              ? `${sentenceCase(allowedText(criterion))} allowed`
              : `${found}; allowed ${allowedText(criterion)}`,
          )}
        </p>
        <p className="second">
          {noBreak(asSentence(criterion.reason))} {asSentence(`${criterion.decisionRule} rule`)}
          {criterion.probabilityOfConformity === null
            ? ''
            : ` ${asSentence(`chance that it conforms: ${chance(criterion.probabilityOfConformity)}`)}`}
        </p>
        <details className="working">
          <summary>How it was worked out</summary>
          <p>{formula}</p>
          {numbers.length > 0 && (
            <dl className="facts">
              {numbers.map(([name, value]) => (
                <div key={name}>
                  <dt>{name}</dt>
                  <dd>{value}</dd>
                </div>
              ))}
            </dl>
          )}
          {part !== null && onLook !== undefined && (
            <button type="button" className="link" onClick={() => onLook(part)}>
              Show it on the strip
            </button>
          )}
        </details>
      </div>
    </li>
  );
}

const sentenceCase = (text: string): string => text.slice(0, 1).toUpperCase() + text.slice(1);
/** Four decimals, in words where they would round to certainty. */
const chance = (probability: number): string =>
  probability > 0.9999
    ? `over ${fixedText(0.9999, 4)}`
    : probability < 0.0001
      ? `under ${fixedText(0.0001, 4)}`
      : fixedText(probability, 4);
