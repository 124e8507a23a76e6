import type { Quantities } from '#formats/assessment.ts';
import type { Spec } from '#formats/spec.ts';
import { engagementSigns } from './engagement-signs.ts';
import { measurementSigns } from './measurement-signs.ts';
import { pressureSigns } from './pressure-signs.ts';
import type { Seen, Sign, SignFacts } from './sign.ts';

/**
 * What the trace suggests: known signatures (bench practice, gathered from manuals and owners' reports), each only with its measured
 * feature, two or three things it may point to and what else would show it. A log suggests, it never proves; no verdict hangs on a sign.
 * @param spec null where nothing is judged; signs that need a limit are then left out
 */
export function signsOf(quantities: Quantities, spec: Spec | null, facts: SignFacts = {}): Sign[] {
  const seen: Seen = { q: quantities, spec, facts, pressure: quantities.operatingPressure.value };
  const looks =
    facts.pressureInDoubt === true
      ? measurementSigns
      : [...pressureSigns, ...engagementSigns, ...measurementSigns];
  return looks.flatMap((look) => {
    const found = look(seen);
    return found === null ? [] : [found];
  });
}
