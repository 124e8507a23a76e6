import { assessmentInUnits } from '#formats/assessment-in-units.ts';
import type { Assessment } from '#formats/assessment.ts';
import type { PressureUnit } from '#units/pressure.ts';
import { limitAsViewed, type ViewingTemperature } from './viewing-unit.ts';

/** An assessment as it is looked at: its numbers, and the sentences with them, in the units for viewing. Nothing is judged on them. */
export function viewedAssessment(
  assessment: Assessment,
  unit: PressureUnit,
  temperature: ViewingTemperature | null,
): Assessment {
  return assessmentInUnits(
    assessment,
    { pressure: unit, temperature: temperature ?? undefined },
    (limit, { level }) => limitAsViewed(level(limit)),
  );
}
