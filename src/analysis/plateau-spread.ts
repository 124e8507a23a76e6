import type { Engagement, Quantities } from '#formats/assessment.ts';
import type { PressureUnit } from '#units/pressure.ts';

/** Highest less lowest plateau of the engagements. */
export function plateauSpread(
  engagements: readonly Engagement[],
  unit: PressureUnit,
): Quantities['plateauSpread'] {
  const plateaus = engagements.flatMap(({ plateau }) => (plateau.value === null ? [] : [plateau.value]));
  if (plateaus.length < 2)
    return {
      value: null,
      unit,
      engagements: plateaus.length,
      reason:
        plateaus.length === 1
          ? 'there is only one engagement with a plateau: no spread to tell'
          : 'there is no engagement of 10 s or more',
    };
  return { value: Math.max(...plateaus) - Math.min(...plateaus), unit, engagements: plateaus.length };
}
