import { rigSchema, type Rig } from '#formats/rig.ts';
import { fixedText, statedText, withUnit } from '#units/number-text.ts';
import type { PressureUnit } from '#units/pressure.ts';
import { convert } from '#units/unit.ts';
import { ambiguousText, plainNumber } from './typed-number.ts';

/** A gauge as its dial and data sheet say it, as typed. */
export interface GaugeFields {
  low: string;
  high: string;
  unit: PressureUnit;
  /** Limits of error, ± per cent of the span. */
  percent: string;
}

const number = (text: string): number | null => {
  const trimmed = plainNumber(text);
  const value = Number(trimmed);
  return trimmed === '' || !Number.isFinite(value) ? null : value;
};

type Channel = NonNullable<Rig['channels']>[number];

/** A bench's channels with another gauge on the pressure: what the old one had for itself (correction, calibration) does not hold for it. */
function withGauge(base: Rig | null, column: string, gauge: Partial<Channel>): Channel[] {
  const channels = base?.channels ?? [];
  const at = channels.findIndex((channel) => channel.column === column);
  if (at < 0) return [...channels, { column, ...gauge }];
  const { role, unit, signal, resolution, subtractZeroAtRest } = channels[at] ?? {};
  const reading: Partial<Channel> = {
    ...(role === undefined ? {} : { role }),
    ...(unit === undefined ? {} : { unit }),
    ...(signal === undefined ? {} : { signal }),
    ...(resolution === undefined ? {} : { resolution }),
    ...(subtractZeroAtRest === undefined ? {} : { subtractZeroAtRest }),
  };
  const plain: Channel = { column, ...reading, ...gauge };
  return channels.with(at, plain);
}

/** The bench without a word of how good its pressure gauge is; its range still tells a clipped reading. */
export function rigWithoutGauge(base: Rig, column: string): Rig {
  const channel = base.channels?.find((each) => each.column === column);
  const range = channel?.range;
  return {
    ...base,
    name: `${base.name}, accuracy of the gauge not known`,
    channels: withGauge(base, column, range === undefined ? {} : { range }),
  };
}

/**
 * A rig that says how good the pressure gauge is, and of the columns what the bench says, if there is one.
 * @param column the pressure column
 * @param columnUnit unit of its readings, in which a rig states the range
 * @param base the bench whose columns hold
 * @returns null while something is missing; a sentence where something cannot be
 */
export function rigOfGauge(
  fields: GaugeFields,
  column: string,
  columnUnit: PressureUnit,
  base: Rig | null = null,
): { rig: Rig } | { wrong: string } | null {
  const ambiguous = ambiguousText(fields.low, fields.high, fields.percent);
  if (ambiguous !== null) return { wrong: ambiguous };
  const low = number(fields.low),
    high = number(fields.high),
    percent = number(fields.percent);
  if (low === null || high === null || percent === null) return null;
  if (low >= high) return { wrong: `The range ends at ${statedText(high)}, which is not above its start.` };
  if (percent <= 0) return { wrong: 'No gauge is without error: give its accuracy as a number above 0.' };
  const inColumn = (value: number): number => convert(value, fields.unit, columnUnit);
  const gauge = `${statedText(low)} to ${withUnit(statedText(high), fields.unit)}, ± ${fixedText(percent, 2).replace(/\.?0+$/u, '')} % of span, as stated`;
  const checked = rigSchema.safeParse({
    ...(base ?? { format: 'overdrive-bench/rig', version: 1 }),
    name: base === null ? `Gauge ${gauge}` : `${base.name}, gauge ${gauge}`,
    channels: withGauge(base, column, {
      range: { low: inColumn(low), high: inColumn(high) },
      uncertainty: { percentOfSpan: percent },
    }),
  });
  return checked.success
    ? { rig: checked.data }
    : { wrong: checked.error.issues.map((issue) => issue.message).join(' ') };
}
