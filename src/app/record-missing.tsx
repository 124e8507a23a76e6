import { beforeIssue } from '#formats/before-issue.ts';
import type { Assessment } from '#formats/assessment.ts';
import type { RecordChoices } from '#worker/record-messages.ts';

/** What the record lacks before it goes out; nothing of it stops the saving. */
export function RecordMissing({
  assessment,
  choices,
}: {
  assessment: Assessment;
  choices: RecordChoices;
}): React.ReactElement {
  const found = beforeIssue(assessment, choices.unitRecord, choices.date);
  return (
    <section className="part missing" aria-labelledby="before-issue">
      <h2 id="before-issue">Before it goes out</h2>
      {found.length === 0 ? (
        <p className="second">Nothing is missing.</p>
      ) : (
        <>
          <p className="second">
            It can be saved as it is: what is missing is left out, nothing is filled in.
          </p>
          <ul>
            {found.map(({ code, text }) => (
              <li key={code}>{text}</li>
            ))}
          </ul>
        </>
      )}
    </section>
  );
}
