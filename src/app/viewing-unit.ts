import type { CriterionFacts } from '#formats/criterion-text.ts';
import {
  convertTemperature,
  temperatureDifferenceFactor,
  temperatureUnits,
  type TemperatureUnit,
} from '#units/temperature.ts';
import { isPressureUnit } from '#units/unit.ts';
import { pressureFactor, type PressureUnit } from '#units/pressure.ts';

const usual: readonly PressureUnit[] = ['psi', 'bar', 'kPa', 'kgf/cm2'];

/** Units that the switch offers: the usual four, and the judged one if it is none of them. */
export function viewingUnits(judged: PressureUnit): PressureUnit[] {
  return usual.includes(judged) ? [...usual] : [judged, ...usual];
}

/** The unit that is shown: the one chosen for viewing, else the judged. */
export const shownUnit = (chosen: PressureUnit | null, judged: PressureUnit): PressureUnit =>
  chosen ?? judged;

/** Units of temperature that the switch offers. */
export const viewingTemperatures = ['degC', 'degF'] as const;
export type ViewingTemperature = (typeof viewingTemperatures)[number];

/** Digits with which a converted limit is shown: enough that it does not read as a rounder one than it is. */
const LIMIT_DIGITS = 5;
export const limitAsViewed = (converted: number): number => Number(converted.toPrecision(LIMIT_DIGITS));

/**
 * A criterion's numbers in the unit for viewing; what is not a pressure stays. Nothing is judged on them.
 * Rates of change (psi/h) are none of the limits that a spec sets.
 */
export function inUnit<F extends CriterionFacts>(
  facts: F,
  unit: PressureUnit,
  temperature: TemperatureUnit | null = null,
): F {
  const from = temperatureUnits.find((name) => name === facts.unit);
  if (from !== undefined && temperature !== null) return inTemperature(facts, from, temperature);
  if (!isPressureUnit(facts.unit) || facts.unit === unit) return facts;
  const factor = pressureFactor(facts.unit, unit);
  const converted = (value: number | null): number | null => (value === null ? null : value * factor);
  const limit = (value: number | null): number | null =>
    value === null ? null : limitAsViewed(value * factor);
  return {
    ...facts,
    unit,
    value: converted(facts.value),
    expandedUncertainty: converted(facts.expandedUncertainty),
    limits: { low: limit(facts.limits.low), high: limit(facts.limits.high) },
  };
}

/** A point on the scale and its limits are moved and stretched, what it is uncertain by is stretched alone. */
function inTemperature<F extends CriterionFacts>(facts: F, from: TemperatureUnit, to: TemperatureUnit): F {
  if (from === to) return facts;
  const point = (value: number | null): number | null =>
    value === null ? null : convertTemperature(value, from, to);
  const limit = (value: number | null): number | null => {
    const converted = point(value);
    return converted === null ? null : limitAsViewed(converted);
  };
  const { expandedUncertainty } = facts;
  return {
    ...facts,
    unit: to,
    value: point(facts.value),
    expandedUncertainty:
      expandedUncertainty === null ? null : expandedUncertainty * temperatureDifferenceFactor(from, to),
    limits: { low: limit(facts.limits.low), high: limit(facts.limits.high) },
  };
}
