import type { Criterion, Quantities, Verdict } from '#formats/assessment.ts';
import type { Remark } from '#formats/remark.ts';
import type { Spec } from '#formats/spec.ts';
import { draftCriteria } from './criteria.ts';
import type { Draft } from './draft.ts';
import type { DecisionFacts } from './facts.ts';
import { reasonOf } from './reason.ts';
import { decisionRemarks } from './remarks.ts';
import { stillOpen } from './still-open.ts';

/** What was decided, and why. */
export interface Decision {
  criteria: Criterion[];
  verdict: Verdict;
  remarks: Remark[];
}

/**
 * Judges a run: every limit that the spec sets gives one criterion with its verdict and reason, and all of them the overall verdict
 * (definitions, "Decisions"; JCGM 106:2012; guard bands as ISO 14253-1, read in JCGM 106, 8.3.2.3, for its 1998 edition).
 * Numbers are rounded to 12 digits before they are compared; nothing is judged on numbers rounded for the eye.
 * @param quantities in the units that they name; converted to those of the spec where these differ
 * @param facts what only the analysis knows (see {@link DecisionFacts})
 */
export function decide(quantities: Quantities, spec: Spec, facts: DecisionFacts): Decision {
  const judgement = { quantities, spec, facts };
  const drafts = draftCriteria(judgement);
  const criteria = (facts.complete ? drafts : drafts.map(stillOpen)).map(withReason);
  return { criteria, verdict: overallVerdict(criteria), remarks: decisionRemarks(judgement, criteria) };
}

function withReason(draft: Draft): Criterion {
  const { because: _because, gaugeLeads: _gaugeLeads, ...criterion } = draft;
  return { ...criterion, reason: reasonOf(draft) };
}

/** Fail if any fails; else not assessed if any is; else undecided if any is; else pass. Without a criterion not assessed, never a pass by emptiness. */
export function overallVerdict(criteria: readonly Pick<Criterion, 'verdict'>[]): Verdict {
  for (const verdict of ['fail', 'not-assessed', 'undecided'] as const)
    if (criteria.some((criterion) => criterion.verdict === verdict)) return verdict;
  return criteria.length === 0 ? 'not-assessed' : 'pass';
}
