import { assessmentInUnits, changeOf, decimalsOfText } from '#formats/assessment-in-units.ts';
import type { Assessment } from '#formats/assessment.ts';
import type { RecordUnits } from '#formats/record-data.ts';
import { decimalsAsFine } from '#formats/reworded.ts';
import type { Series } from '#formats/series.ts';
import type { Adjustment, UnitRecord } from '#formats/unit-record.ts';
import { isPressureUnit, isTemperatureUnit } from '#units/unit.ts';
import type { RecordedTest } from './record-input.ts';

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
    assessment: assessmentInUnits(of.assessment, units),
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
