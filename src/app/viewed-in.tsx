import type { Assessment } from '#formats/assessment.ts';
import type { PressureUnit } from '#units/pressure.ts';
import { unitLabel } from './shown-numbers.ts';
import type { ViewingTemperature } from './viewing-unit.ts';

/** Says that the units on the sheet are not those that are judged in, and which those are. */
export function ViewedIn(props: {
  /** As judged. */
  assessment: Assessment;
  unit: PressureUnit;
  temperature: ViewingTemperature | null;
}): React.ReactElement {
  const { assessment, unit, temperature } = props;
  const judged = assessment.quantities.operatingPressure.unit;
  const oil = assessment.quantities.holdTemperature;
  return (
    <>
      {unit !== judged && (
        <p className="aside-line" role="status">
          Shown in {unitLabel(unit)}, judged in {unitLabel(judged)}.
        </p>
      )}
      {temperature !== null && oil.mean !== null && temperature !== oil.unit && (
        <p className="aside-line" role="status">
          Temperatures shown in {unitLabel(temperature)}, judged in {unitLabel(oil.unit)}.
        </p>
      )}
    </>
  );
}
