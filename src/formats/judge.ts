import { z } from 'zod';
import { isoDate, text } from './shared-shapes.ts';

export const choiceKinds = [
  'join-engagements',
  'gap-not-clock-step',
  'hold-start',
  'hold-end',
  'leave-out',
] as const;
/** Who and why must say something. */
const said = text.regex(/\S/, 'must not be blank');
/** One hand-made choice; seconds are log positions from the first row. */
export const choice = z.strictObject({
  what: z.enum(choiceKinds),
  from_s: z.number().nullable().optional(),
  to_s: z.number().nullable().optional(),
  by: said,
  on: isoDate.optional(),
  why: said,
});
export type Choice = z.infer<typeof choice>;

/** Hand-made choices about what is judged, each with who and why (contract, "Judge"). */
export const judgeSchema = z.strictObject({
  format: z.literal('overdrive-bench/judge'),
  version: z.literal(1),
  choices: z.array(choice),
});
export type Judge = z.infer<typeof judgeSchema>;
