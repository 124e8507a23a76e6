/** Temperature units by the name the files write. */
export const temperatureUnits = ['degC', 'degF', 'K'] as const;
export type TemperatureUnit = (typeof temperatureUnits)[number];

/** A point on the scale to kelvin and back. Source: SI Brochure 9th ed., 2.3.1 (K, °C); °F = 1.8 °C + 32 by definition (SP 811 B.8). */
function toCelsius(value: number, from: TemperatureUnit): number {
  if (from === 'degF') return (value - 32) / 1.8;
  return from === 'K' ? value - 273.15 : value;
}

/** A temperature (a point on the scale) in another unit. Use {@link temperatureDifferenceFactor} for a difference. */
export function convertTemperature(value: number, from: TemperatureUnit, to: TemperatureUnit): number {
  if (from === to) return value;
  const celsius = toCelsius(value, from);
  if (to === 'degF') return celsius * 1.8 + 32;
  return to === 'K' ? celsius + 273.15 : celsius;
}

/** Factor for a temperature difference: 1 °C of difference is 1 K and 1.8 °F (SI Brochure 9th ed., 2.3.1). */
export function temperatureDifferenceFactor(from: TemperatureUnit, to: TemperatureUnit): number {
  const per = (unit: TemperatureUnit): number => (unit === 'degF' ? 1.8 : 1);
  return per(to) / per(from);
}
