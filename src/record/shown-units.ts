import type { Assessment, Criterion } from '#formats/assessment.ts';
import { decimalsOf } from '#formats/criterion-text.ts';
import { rounded } from '#formats/number.ts';
import type { RecordUnits } from '#formats/record-data.ts';
import type { Series } from '#formats/series.ts';
import type { Spec } from '#formats/spec.ts';
import type { Adjustment, UnitRecord } from '#formats/unit-record.ts';
import { pressureFactor } from '#units/pressure.ts';
import { temperatureDifferenceFactor } from '#units/temperature.ts';
import { convert, convertDifference, isPressureUnit, isTemperatureUnit, type UnitName } from '#units/unit.ts';
import type { RecordedTest } from './record-input.ts';
import { decimalsAsFine, reworded, rewordedSlopes } from './shown-text.ts';

/** A scale and the one that it is shown in. */
interface Change {
  to: string;
  level: (value: number) => number;
  difference: (value: number) => number;
}

/** What is to be shown in other units. */
interface Shown {
  assessment: Assessment;
  series: Series;
  earlier?: RecordedTest | null;
  unitRecord?: UnitRecord | null;
  adjustment?: Adjustment | null;
  units?: RecordUnits;
}

/**
 * A record's content in the units that the shop chose: numbers, limits, curves and the sentences with them. Nothing is judged anew: the
 * verdicts are those of the limits as stated, and what is attached stays as it was judged.
 * @returns with the assessment as it was, where anything was changed
 */
export function inRecordUnits<T extends Shown>(input: T): T & { stated: Assessment | null } {
  const { units } = input;
  if (!units || !changes(input.assessment, units)) return { ...input, stated: null };
  const test = <Test extends Pick<RecordedTest, 'assessment' | 'series'>>(of: Test): Test => ({
    ...of,
    assessment: shownAssessment(of.assessment, units),
    series: shownSeries(of.series, units),
  });
  return {
    ...test(input),
    ...(input.earlier ? { earlier: test(input.earlier) } : {}),
    ...(input.unitRecord ? { unitRecord: shownUnitRecord(input.unitRecord, units) } : {}),
    stated: input.assessment,
  };
}

function changes({ quantities, spec, log }: Assessment, units: RecordUnits): boolean {
  const oil = log.channels.some(({ role }) => role === 'oil-temperature');
  const used = [
    quantities.operatingPressure.unit,
    ...(oil ? [quantities.holdTemperature.unit] : []),
    ...(spec?.operatingTemperature ? [spec.operatingTemperature.unit] : []),
  ];
  return used.some((unit) => changeOf(unit, units) !== null);
}

/** What takes a unit to the record's; null where it stays. Slopes ("psi/h", "psi/degC") change by both of their units. */
function changeOf(unit: string, units: RecordUnits): Change | null {
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
function shownQuantity<T extends object>(quantity: T, units: RecordUnits, above: Change | null = null): T {
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
const decimalsOfText = (text: string): number =>
  text.includes('.') ? text.length - text.indexOf('.') - 1 : 0;

/** Limits by the unit that they are stated in, with what is shown for them. */
type Limits = Map<string, Map<number, number>>;

function shownAssessment(assessment: Assessment, units: RecordUnits): Assessment {
  const limits: Limits = new Map();
  const shownOf = (limit: number, unit: string, values: readonly number[]): number => {
    const change = changeOf(unit, units);
    if (!change) return limit;
    const known = limits.get(unit) ?? new Map<number, number>();
    limits.set(unit, known);
    const shown = known.get(limit) ?? shownLimit(limit, change, values);
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
  };
}

/** Remarks that ask whether the unit is the right one: in another they would ask nothing. */
const aboutUnits = new Set(['unit-looks-wrong', 'bar-or-kgf']);
/** Criteria whose value is a size and no place on a scale. */
const sizes: ReadonlySet<Criterion['id']> = new Set(['drift', 'ripple', 'plateau-spread']);

function shownCriterion(
  criterion: Criterion,
  units: RecordUnits,
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
  units: RecordUnits,
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
  units: RecordUnits,
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

function shownSeries(series: Series, units: RecordUnits): Series {
  const { pressure, oil, driftLine } = series;
  const by = pressure && changeOf(pressure.unit, units);
  const oilBy = oil?.unit ? changeOf(oil.unit, units) : null;
  return {
    ...series,
    ...(driftLine && by ? { driftLine: { ...driftLine, value: by.level(driftLine.value) } } : {}),
    pressure:
      pressure && by && isPressureUnit(by.to)
        ? {
            ...pressure,
            unit: by.to,
            values: pressure.values.map(by.level),
            smoothed: pressure.smoothed.map(by.level),
          }
        : pressure,
    oil:
      oil && oilBy && isTemperatureUnit(oilBy.to)
        ? {
            ...oil,
            unit: oilBy.to,
            values: oil.values.map(oilBy.level),
            smoothed: oil.smoothed.map(oilBy.level),
          }
        : oil,
  };
}

/** The pressures that the shop wrote down, to digits as fine as it wrote. */
function shownUnitRecord(record: UnitRecord, units: RecordUnits): UnitRecord {
  const reading = (of: Adjustment['pressureBefore']): Adjustment['pressureBefore'] => {
    const change = changeOf(of.unit, units);
    if (!change || !isPressureUnit(change.to)) return of;
    const { value, standardUncertainty } = of;
    const decimals = decimalsAsFine(decimalsOfText(String(value)), change.difference);
    return {
      value: standardUncertainty ? change.level(value) : Number(change.level(value).toFixed(decimals)),
      unit: change.to,
      ...(standardUncertainty === undefined
        ? {}
        : { standardUncertainty: change.difference(standardUncertainty) }),
    };
  };
  const { adjustments, asFound } = record;
  return {
    ...record,
    ...(adjustments
      ? {
          adjustments: adjustments.map((step) => ({
            ...step,
            pressureBefore: reading(step.pressureBefore),
            pressureAfter: reading(step.pressureAfter),
          })),
        }
      : {}),
    ...(asFound?.pressure ? { asFound: { ...asFound, pressure: reading(asFound.pressure) } } : {}),
  };
}
