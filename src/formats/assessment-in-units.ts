import { pressureFactor, type PressureUnit } from '#units/pressure.ts';
import { temperatureDifferenceFactor, type TemperatureUnit } from '#units/temperature.ts';
import { convert, convertDifference, isPressureUnit, isTemperatureUnit, type UnitName } from '#units/unit.ts';
import type { Assessment, Criterion } from './assessment.ts';
import { decimalsOf } from './criterion-text.ts';
import { rounded } from './number.ts';
import { decimalsAsFine, reworded, rewordedSlopes } from './reworded.ts';
import type { SoFar } from './so-far.ts';
import type { Spec } from './spec.ts';

/** Units that pressures and temperatures are shown in; left out: as judged. */
export interface ShownUnits {
  pressure?: PressureUnit | undefined;
  temperature?: TemperatureUnit | undefined;
}

/** A scale and the one that it is shown in. */
export interface Change {
  to: string;
  level: (value: number) => number;
  difference: (value: number) => number;
}

/** What takes a unit to the shown one; null where it stays. Slopes ("psi/h", "psi/degC") change by both of their units. */
export function changeOf(unit: string, units: ShownUnits): Change | null {
  const [above = '', below] = unit.split('/');
  if (below !== undefined && isPressureUnit(above)) {
    const top = units.pressure ?? above,
      bottom = isTemperatureUnit(below) ? (units.temperature ?? below) : below;
    const factor =
      pressureFactor(above, top) /
      (isTemperatureUnit(below) && isTemperatureUnit(bottom)
        ? temperatureDifferenceFactor(below, bottom)
        : 1);
    const scaled = (value: number): number => rounded(value * factor);
    return top === above && bottom === below
      ? null
      : { to: `${top}/${bottom}`, level: scaled, difference: scaled };
  }
  const to = isPressureUnit(unit) ? units.pressure : isTemperatureUnit(unit) ? units.temperature : undefined;
  if (to === undefined || to === unit) return null;
  const from = unit as UnitName;
  return {
    to,
    level: (value) => rounded(convert(value, from, to)),
    difference: (value) => rounded(convertDifference(value, from, to)),
  };
}

/** Numbers that stand beside a unit of pressure or temperature and are in another one. */
const others =
  /_s$|_h$|_Hz$|^(?:confidence|coverageFactor|effectiveDegreesOfFreedom|degreesOfFreedom|share|order|probability|engagements|overshoot|dip)$/;
const differences = /[uU]ncertainty$|^(?:size|tolerance)$/;

/** Every number of a quantity in its unit, and in what it holds without a unit of its own. */
function shownQuantity<T extends object>(quantity: T, units: ShownUnits, above: Change | null = null): T {
  const own = 'unit' in quantity && typeof quantity.unit === 'string';
  const change = own ? changeOf(String(quantity.unit), units) : above;
  const copy = new Map<string, unknown>();
  const shown = (key: string, value: unknown): unknown => {
    if (Array.isArray(value)) return value.map((each: unknown) => shown(key, each));
    if (typeof value === 'object' && value !== null) return shownQuantity(value, units, change);
    if (typeof value !== 'number' || change === null || others.test(key)) return value;
    return differences.test(key) ? change.difference(value) : change.level(value);
  };
  for (const [key, value] of Object.entries(quantity)) copy.set(key, shown(key, value));
  if (own && change) copy.set('unit', change.to);
  return { ...quantity, ...Object.fromEntries(copy) };
}

/** How a run that is still going on stands, in other units. */
export const soFarInUnits = (soFar: SoFar, units: ShownUnits): SoFar => shownQuantity(soFar, units);

/**
 * A limit as it is shown: rounded to steps as fine as the stated one's, finer where a value would else seem to lie on its other side. No
 * verdict hangs on it, but a reader compares.
 */
function shownLimit(limit: number, change: Change, values: readonly number[]): number {
  const exact = change.level(limit);
  for (
    let decimals = decimalsAsFine(decimalsOfText(String(limit)), change.difference);
    decimals < 9;
    decimals++
  ) {
    const shown = Number(exact.toFixed(decimals));
    const tells = (value: number): boolean =>
      value === limit || Math.sign(change.level(value) - shown) === Math.sign(value - limit);
    if (values.every(tells)) return shown;
  }
  return exact;
}
/** Decimals that a number is written with: 2 of "0.25". */
export const decimalsOfText = (text: string): number =>
  text.includes('.') ? text.length - text.indexOf('.') - 1 : 0;

/** Limits by the unit that they are stated in, with what is shown for them. */
type Limits = Map<string, Map<number, number>>;

/**
 * An assessment in other units: quantities, limits and the sentences with them. Nothing is judged anew: the verdicts are those of the
 * limits as stated.
 * @param asShown how a limit reads in the other unit
 */
export function assessmentInUnits(
  assessment: Assessment,
  units: ShownUnits,
  asShown: typeof shownLimit = shownLimit,
): Assessment {
  const limits: Limits = new Map();
  const shownOf = (limit: number, unit: string, values: readonly number[]): number => {
    const change = changeOf(unit, units);
    if (!change) return limit;
    const known = limits.get(unit) ?? new Map<number, number>();
    limits.set(unit, known);
    const shown = known.get(limit) ?? asShown(limit, change, values);
    known.set(limit, shown);
    return shown;
  };
  const criteria = assessment.criteria.map((criterion) => shownCriterion(criterion, units, shownOf));
  const { spec, quantities } = assessment;
  const shownSpec = spec && withShownLimits(spec, shownOf, units);
  const words = rewording(assessment, units, limits);
  const operating = shownQuantity(quantities.operatingPressure, units);
  return {
    ...assessment,
    spec: shownSpec,
    quantities: {
      ...shownQuantity(quantities, units),
      operatingPressure:
        operating.reason === undefined ? operating : { ...operating, reason: words(operating.reason, null) },
    },
    criteria: criteria.map((criterion, index) => ({
      ...criterion,
      reason: words(criterion.reason, { stated: assessment.criteria[index] ?? criterion, shown: criterion }),
    })),
    remarks: assessment.remarks.map((remark) =>
      aboutUnits.has(remark.code) ? remark : { ...remark, text: words(remark.text, null) },
    ),
    signs: assessment.signs.map((sign) => ({ ...sign, feature: shownFeature(sign, units) })),
  };
}

/** A sign's measured feature: a size, but where it is a reading of the gauge. */
function shownFeature({ id, feature }: Sign, units: ShownUnits): Sign['feature'] {
  const change = changeOf(feature.unit, units);
  if (!change) return feature;
  const value = levels.has(id) ? change.level(feature.value) : change.difference(feature.value);
  return { ...feature, value, unit: change.to };
}
type Sign = Assessment['signs'][number];
const levels = new Set(['pressure-left-when-released', 'zero-off-at-rest']);

/** Remarks that ask whether the unit is the right one: in another they would ask nothing. */
const aboutUnits = new Set(['unit-looks-wrong', 'bar-or-kgf']);
/** Criteria whose value is a size and no place on a scale. */
const sizes: ReadonlySet<Criterion['id']> = new Set(['drift', 'ripple', 'plateau-spread']);

function shownCriterion(
  criterion: Criterion,
  units: ShownUnits,
  shownOf: (limit: number, unit: string, values: readonly number[]) => number,
): Criterion {
  const change = changeOf(criterion.unit, units);
  if (!change) return criterion;
  const { id, value, unit, expandedUncertainty, limits } = criterion;
  const values = value === null ? [] : [value];
  // The limits of a drift are one size with either sign.
  const limit = (stated: number | null): number | null =>
    stated === null
      ? null
      : Math.sign(stated) *
        shownOf(
          Math.abs(stated),
          unit,
          values.map((each) => (id === 'drift' ? Math.abs(each) : each)),
        );
  const low = limit(limits.low),
    high = limit(limits.high);
  const onLimit = value === limits.low ? low : value === limits.high ? high : null;
  return {
    ...criterion,
    unit: change.to,
    value:
      value === null ? null : (onLimit ?? (sizes.has(id) ? change.difference(value) : change.level(value))),
    expandedUncertainty: expandedUncertainty === null ? null : change.difference(expandedUncertainty),
    limits: { low, high },
  };
}

/** Band and operating temperature, which the chart draws; the other limits stand in the criteria alone. */
function withShownLimits(
  spec: Spec,
  shownOf: (limit: number, unit: string, values: readonly number[]) => number,
  units: ShownUnits,
): Spec {
  const { pressureBand: band, operatingTemperature: warm } = spec;
  const ends = (interval: Interval): { low?: number; high?: number } => ({
    ...(interval.low == null ? {} : { low: shownOf(interval.low, interval.unit, []) }),
    ...(interval.high == null ? {} : { high: shownOf(interval.high, interval.unit, []) }),
  });
  const bandBy = changeOf(band.unit, units)?.to ?? null,
    warmBy = warm ? (changeOf(warm.unit, units)?.to ?? null) : null;
  return {
    ...spec,
    ...(isPressureUnit(bandBy) ? { pressureBand: { ...band, ...ends(band), unit: bandBy } } : {}),
    ...(warm && isTemperatureUnit(warmBy)
      ? { operatingTemperature: { ...warm, ...ends(warm), unit: warmBy } }
      : {}),
  };
}
type Interval = Spec['pressureBand'] | NonNullable<Spec['operatingTemperature']>;

function rewording(
  assessment: Assessment,
  units: ShownUnits,
  limits: Limits,
): (text: string, criterion: { stated: Criterion; shown: Criterion } | null) => string {
  const used = new Set([
    assessment.quantities.operatingPressure.unit,
    assessment.quantities.holdTemperature.unit,
    ...assessment.criteria.map(({ unit }) => unit),
    assessment.quantities.temperatureSensitivity.unit,
  ]);
  const exact = exactNumbers(assessment);
  const all = [...used].flatMap((from) => {
    const change = changeOf(from, units);
    return change ? [{ from, change }] : [];
  });
  return (text, criterion) =>
    all.reduce((said, { from, change }) => {
      if (from.includes('/')) return rewordedSlopes(said, from, change.to, change.difference(1));
      const own = criterion !== null && criterion.stated.unit === from ? criterion : null;
      return reworded(said, {
        ...change,
        from,
        limits: limits.get(from) ?? new Map(),
        exact,
        // As many digits as the table gives, and the more that the sentence had to tell two numbers apart.
        decimals: own
          ? (decimals) => decimalsOf(own.shown) + Math.max(0, decimals - decimalsOf(own.stated))
          : null,
      });
    }, text);
}

/** Numbers of the assessment before they were rounded for a sentence, and how far a value lies from its limits. */
function exactNumbers({ quantities, criteria, settings }: Assessment): number[] {
  const found: number[] = [];
  const gather = (value: unknown): void => {
    if (typeof value === 'number') found.push(value);
    else if (typeof value === 'object' && value !== null) Object.values(value).forEach(gather);
  };
  for (const { value, limits, expandedUncertainty } of criteria) {
    if (value !== null)
      for (const limit of [limits.low, limits.high])
        if (limit !== null) found.push(Math.abs(value - limit), Math.abs(value) - limit);
    if (expandedUncertainty !== null)
      found.push(expandedUncertainty, settings.guardFactor * expandedUncertainty);
  }
  gather(quantities);
  return found.filter(Number.isFinite);
}
