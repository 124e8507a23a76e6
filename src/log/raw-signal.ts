import { SetAside } from '#formats/log.ts';
import { rounded } from '#formats/number.ts';
import type { RigChannel } from '#formats/rig.ts';
import { unitKind, type UnitName } from '#units/unit.ts';

type Signal = NonNullable<RigChannel['signal']>;

/** Ends of the live range and the levels beyond which the signal says a fault, in mA or V. */
interface SignalRange {
  low: number;
  high: number;
  faultBelow: number | null;
  faultAbove: number | null;
  unit: 'mA' | 'V';
}

/**
 * 4–20 mA: NAMUR NE 43 as commonly cited: failure at or below 3.6 mA and at or above 21 mA (from memory; the recommendation was not read).
 * 1–5 V is that signal over 250 ohm. 0.5–4.5 V ratiometric: open or shorted wire below 0.25 V or above 4.75 V (common practice,
 * no source). 0–10 V and 0–5 V have no live zero, so no fault level.
 */
const ranges: Readonly<Record<Signal['kind'], SignalRange>> = {
  '4-20mA': { low: 4, high: 20, faultBelow: 3.6, faultAbove: 21, unit: 'mA' },
  '1-5V': { low: 1, high: 5, faultBelow: 0.9, faultAbove: 5.25, unit: 'V' },
  '0.5-4.5V': { low: 0.5, high: 4.5, faultBelow: 0.25, faultAbove: 4.75, unit: 'V' },
  '0-10V': { low: 0, high: 10, faultBelow: null, faultAbove: null, unit: 'V' },
  '0-5V': { low: 0, high: 5, faultBelow: null, faultAbove: null, unit: 'V' },
};

/** Whether a column in this unit can carry a signal: a current is no voltage. Any other unit is what the heading promises of the scaled one. */
export const carriesSignal = (unit: UnitName | null, { kind }: Signal): boolean =>
  unit === null ||
  unitKind(unit) === unitKind(ranges[kind].unit) ||
  (unitKind(unit) !== 'current' && unitKind(unit) !== 'voltage');
/** What a raw signal is carried by. */
export const signalUnit = (signal: Signal): 'mA' | 'V' => ranges[signal.kind].unit;

/** How many readings a raw signal marked as its own faults. */
export interface SignalFaults {
  below: number;
  above: number;
  limits: { below: number; above: number; unit: 'mA' | 'V' } | null;
}

/**
 * Turns a raw sensor signal into the quantity, in place; readings at a fault level are set aside as out of range and keep the value
 * that the line would give, so that the chart shows them where they are.
 * @param unit of the column in the file: A and mV are brought to mA and V
 */
export function scaleSignal(
  values: Float64Array,
  flags: Uint8Array,
  signal: Signal,
  unit: UnitName | null,
): SignalFaults {
  const range = ranges[signal.kind];
  const factor = unit === 'A' && range.unit === 'mA' ? 1000 : unit === 'mV' && range.unit === 'V' ? 0.001 : 1;
  const slope = (signal.high - signal.low) / (range.high - range.low);
  let below = 0,
    above = 0;
  for (let i = 0; i < values.length; i++) {
    const raw = (values[i] ?? NaN) * factor;
    if (Number.isNaN(raw)) continue;
    if (range.faultBelow !== null && raw <= range.faultBelow) {
      flags[i] = SetAside.outOfRange;
      below++;
    } else if (range.faultAbove !== null && raw >= range.faultAbove) {
      flags[i] = SetAside.outOfRange;
      above++;
    }
    values[i] = rounded(signal.low + (raw - range.low) * slope);
  }
  const limits =
    range.faultBelow === null || range.faultAbove === null
      ? null
      : { below: range.faultBelow, above: range.faultAbove, unit: range.unit };
  return { below, above, limits };
}
