import type { Assessment } from '#formats/assessment.ts';
import { adjustmentCautions } from '#formats/cautions.ts';

/** Whether what came out may lead somebody to open or set the unit. */
export function cautionsApply(assessment: Assessment): boolean {
  return assessment.verdict === 'fail' || assessment.signs.length > 0;
}

/** What to mind before anything is opened or set. */
export function Cautions(): React.ReactElement {
  return (
    <section className="cautions part opens" aria-labelledby="cautions">
      <h2 id="cautions">Before anything is opened or set</h2>
      <ol>
        {adjustmentCautions.map((caution) => (
          <li key={caution}>{caution}</li>
        ))}
      </ol>
    </section>
  );
}
