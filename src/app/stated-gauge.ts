import { rigSchema, type Rig } from '#formats/rig.ts';
import { fixedText, statedText, withUnit } from '#units/number-text.ts';
import type { PressureUnit } from '#units/pressure.ts';
import { convert } from '#units/unit.ts';

/** A gauge as its dial and data sheet say it, as typed. */
export interface GaugeFields {
  low: string;
  high: string;
  unit: PressureUnit;
  /** Limits of error, ± per cent of the span. */
  percent: string;
}

const number = (text: string): number | null => {
  const trimmed = text.trim().replace(',', '.');
  const value = Number(trimmed);
  return trimmed === '' || !Number.isFinite(value) ? null : value;
};

/**
 * A rig that says how good the pressure gauge is, and nothing else: the columns keep their roles and units.
 * @param column the pressure column
 * @param columnUnit unit of its readings, in which a rig states the range
 * @returns null while something is missing; a sentence where something cannot be
 */
export function rigOfGauge(
  fields: GaugeFields,
  column: string,
  columnUnit: PressureUnit,
): { rig: Rig } | { wrong: string } | null {
  const low = number(fields.low),
    high = number(fields.high),
    percent = number(fields.percent);
  if (low === null || high === null || percent === null) return null;
  if (low >= high) return { wrong: `The range ends at ${statedText(high)}, which is not above its start.` };
  if (percent <= 0) return { wrong: 'No gauge is without error: give its accuracy as a number above 0.' };
  const inColumn = (value: number): number => convert(value, fields.unit, columnUnit);
  const checked = rigSchema.safeParse({
    format: 'overdrive-bench/rig',
    version: 1,
    name: `Gauge ${statedText(low)} to ${withUnit(statedText(high), fields.unit)}, ± ${fixedText(percent, 2).replace(/\.?0+$/u, '')} % of span, as stated`,
    channels: [
      {
        column,
        range: { low: inColumn(low), high: inColumn(high) },
        uncertainty: { percentOfSpan: percent },
      },
    ],
  });
  return checked.success
    ? { rig: checked.data }
    : { wrong: checked.error.issues.map((issue) => issue.message).join(' ') };
}
