/** One contribution to a combined standard uncertainty. */
export interface UncertaintyPart {
  standardUncertainty: number;
  /** Above 0; Infinity where the contribution is known without doubt. */
  degreesOfFreedom: number;
}

/**
 * Combined standard uncertainty of independent contributions and its effective degrees of freedom.
 * Source: JCGM 100:2008, 5.1.2 and G.4.1, Eq. (G.2b). Not truncated to a whole number, since Student's t takes any.
 * @param parts each in the unit of the result, sensitivity already multiplied in
 * @returns degrees of freedom Infinity where every part that counts has infinite ones
 * @example welchSatterthwaite([{ standardUncertainty: 3, degreesOfFreedom: 4 }, { standardUncertainty: 4, degreesOfFreedom: Infinity }]) // { combined: 5, effectiveDegreesOfFreedom: 30.86… }
 */
export function welchSatterthwaite(parts: readonly UncertaintyPart[]): {
  combined: number;
  effectiveDegreesOfFreedom: number;
} {
  let variance = 0;
  let sum = 0;
  for (const { standardUncertainty: u, degreesOfFreedom } of parts) {
    variance += u * u;
    sum += (u * u * u * u) / degreesOfFreedom;
  }
  return {
    combined: Math.sqrt(variance),
    effectiveDegreesOfFreedom: sum > 0 ? (variance * variance) / sum : Infinity,
  };
}
