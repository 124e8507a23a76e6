import { pressureFactor, pressureUnits, type PressureUnit } from './pressure.ts';
import {
  convertTemperature,
  temperatureDifferenceFactor,
  temperatureUnits,
  type TemperatureUnit,
} from './temperature.ts';

export const speedUnits = ['rpm', 'Hz'] as const;
export const currentUnits = ['A', 'mA'] as const;
export const voltageUnits = ['V', 'mV'] as const;
export const flowUnits = ['L/min', 'm3/h', 'gal/min'] as const;
export const timeUnits = ['s', 'min', 'h', 'ms'] as const;
/** `1`: a share or a state (solenoid command); `count`: raw counts without meaning of their own. */
export const plainUnits = ['1', 'percent'] as const;

export type UnitKind =
  'pressure' | 'temperature' | 'speed' | 'current' | 'voltage' | 'flow' | 'time' | 'plain';
export const unitNames = [
  ...pressureUnits,
  ...temperatureUnits,
  ...speedUnits,
  ...currentUnits,
  ...voltageUnits,
  ...flowUnits,
  ...timeUnits,
  ...plainUnits,
] as const;
/** Every unit name that the files use (contract: psi kPa MPa bar mbar kgf/cm2, degC degF, rpm, A mA, V, s min h, 1 …). */
export type UnitName = (typeof unitNames)[number];

const kinds: readonly (readonly [UnitKind, readonly string[]])[] = [
  ['pressure', pressureUnits],
  ['temperature', temperatureUnits],
  ['speed', speedUnits],
  ['current', currentUnits],
  ['voltage', voltageUnits],
  ['flow', flowUnits],
  ['time', timeUnits],
  ['plain', plainUnits],
];

/** What a unit measures. */
export function unitKind(unit: UnitName): UnitKind {
  for (const [kind, names] of kinds) if (names.includes(unit)) return kind;
  return 'plain';
}
/** Whether a unit's name is one of pressure. */
export const isPressureUnit = (unit: string | null): unit is PressureUnit =>
  unit !== null && (pressureUnits as readonly string[]).includes(unit);
/** Whether a unit's name is one of temperature. */
export const isTemperatureUnit = (unit: string | null): unit is TemperatureUnit =>
  unit !== null && (temperatureUnits as readonly string[]).includes(unit);

/** Base-unit size of the units whose conversion is a plain factor. gal/min: US gallon of 231 in³ (SP 811 B.8, exact). */
const sizeOf: Readonly<Partial<Record<UnitName, number>>> = {
  rpm: 1,
  Hz: 60,
  A: 1,
  mA: 0.001,
  V: 1,
  mV: 0.001,
  'L/min': 1,
  'm3/h': 1000 / 60,
  'gal/min': 231 * 0.0254 * 0.0254 * 0.0254 * 1000,
  s: 1,
  min: 60,
  h: 3600,
  ms: 0.001,
  '1': 1,
  percent: 0.01,
};

/** A value in another unit of the same kind; NaN when the kinds differ (a mistake of ours: check kinds at the door). */
export function convert(value: number, from: UnitName, to: UnitName): number {
  if (from === to) return value;
  if (isPressureUnit(from) && isPressureUnit(to)) return value * pressureFactor(from, to);
  if (isTemperatureUnit(from) && isTemperatureUnit(to)) return convertTemperature(value, from, to);
  const a = sizeOf[from],
    b = sizeOf[to];
  return unitKind(from) === unitKind(to) && a !== undefined && b !== undefined ? value * (a / b) : NaN;
}

/** A difference (an uncertainty, a tolerance, a slope's numerator) in another unit of the same kind. */
export function convertDifference(value: number, from: UnitName, to: UnitName): number {
  if (isTemperatureUnit(from) && isTemperatureUnit(to)) return value * temperatureDifferenceFactor(from, to);
  return convert(value, from, to);
}
