import type { Assessment } from '#formats/assessment.ts';
import { signMeaning, signText } from '#formats/sign-text.ts';
import { asSentence, inReadersForm, noBreak } from './shown-numbers.ts';

/** What a reader of the verdict should know beside it, and what the trace suggests. */
export function Remarks({ assessment }: { assessment: Assessment }): React.ReactElement {
  const { remarks, signs } = assessment;
  return (
    <>
      <section aria-labelledby="remarks">
        <h2 id="remarks">Remarks</h2>
        <ul className="remarks">
          {remarks.length === 0 && <li>None.</li>}
          {remarks.map((remark) => (
            <li key={remark.code + remark.text} id={`remark-${remark.code}`} tabIndex={-1}>
              {noBreak(inReadersForm(remark.text))}
            </li>
          ))}
        </ul>
      </section>
      {signs.length > 0 && (
        <section aria-labelledby="signs">
          <h2 id="signs">What the trace suggests</h2>
          <p className="second">Suggestions, no proof; none of them decided anything.</p>
          <ul className="remarks">
            {signs.map((sign) => (
              <li key={sign.id}>
                {noBreak(asSentence(signText(sign)))}
                <p className="second">{signMeaning(sign)}</p>
              </li>
            ))}
          </ul>
        </section>
      )}
    </>
  );
}
