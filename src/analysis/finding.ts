import type { CriterionId } from '#formats/assessment.ts';
import type { Remark } from '#formats/remark.ts';
import type { Found } from './quantities.ts';
import type { Words } from './remark-text.ts';
import type { Situation } from './situation.ts';

/** A finding that leaves nothing to judge: what it reaches and why. */
export interface GraveFinding {
  reach: 'pressure' | 'oil-temperature' | 'solenoid-current' | CriterionId;
  reason: string;
}

/** One thing that looks wrong: the remark, and whether it leaves anything to judge. */
export interface Finding {
  remark: Remark;
  grave?: GraveFinding['reach'][];
}

/** Looks for one thing that would make a verdict wrong; null where it is not there. */
export type Check = (situation: Situation, found: Found, words: Words) => Finding | null;
