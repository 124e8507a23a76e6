// Unit factors against the NIST Guide to the SI (SP 811), Appendix B.8. The seven printed digits were read second-hand, in an open package
// that names the guide as its source; the full values were computed from the definitions with an independent units program.
// Temperature pairs and formulas: the same package; interval against point: SI Brochure, 9th ed., 2.3.1 (read).
import { describe, expect, it } from 'vitest';
import { pascalsIn, pressureFactor, pressureUnits } from '#units/pressure.ts';
import { convertTemperature, temperatureDifferenceFactor } from '#units/temperature.ts';
import { convert, convertDifference, unitKind, unitNames } from '#units/unit.ts';
import { matchingDigits } from './matching-digits.ts';

describe('pressure in pascals', () => {
  it.each([
    ['bar', '1.000000e+5', 100000],
    ['psi', '6.894757e+3', 6894.757293168361],
    ['kgf/cm2', '9.806650e+4', 98066.5],
    ['atm', '1.013250e+5', 101325],
    ['inHg', '3.386389e+3', 3386.388640341],
    ['mmHg', '1.333224e+2', 133.322387415],
    ['mH2O', '9.806650e+3', 9806.65],
    ['cmH2O', '9.806650e+1', 98.0665],
    ['mbar', '1.000000e+2', 100],
    ['kPa', '1.000000e+3', 1000],
    ['MPa', '1.000000e+6', 1e6],
    ['Pa', '1.000000e+0', 1],
  ] as const)('%s = %s as printed', (unit, printed, full) => {
    expect(pascalsIn[unit].toExponential(6)).toBe(printed);
    expect(matchingDigits(pascalsIn[unit], full)).toBeGreaterThan(12.5);
  });
  it('is there for each unit that the files may name', () => {
    expect(Object.keys(pascalsIn).toSorted()).toEqual([...pressureUnits].toSorted());
  });
  it.each([
    ['bar', 'psi', 14.503773773020923],
    ['psi', 'bar', 0.0689475729316836],
    ['kgf/cm2', 'bar', 0.980665],
    ['kgf/cm2', 'psi', 14.223343307119563],
    ['MPa', 'psi', 145.03773773020922],
    ['atm', 'bar', 1.01325],
  ] as const)('1 %s in %s', (from, to, factor) => {
    expect(matchingDigits(pressureFactor(from, to), factor)).toBeGreaterThan(14);
  });
  it('is not the six-digit factor: 420 psi in bar and back is 420 psi', () => {
    expect(Number((420 * pressureFactor('psi', 'bar') * pressureFactor('bar', 'psi')).toPrecision(14))).toBe(
      420,
    );
    expect(Math.abs(1000 * pressureFactor('bar', 'psi') - 14503.77)).toBeGreaterThan(0.003);
  });
  it('stays gauge pressure: nothing is nothing in any unit', () => {
    for (const unit of pressureUnits) expect(convert(0, unit, 'psi')).toBe(0);
  });
});

describe('temperature', () => {
  it.each([
    [-40, -40],
    [0, 32],
    [20, 68],
    [60, 140],
    [90, 194],
    [100, 212],
  ])('%d °C is %d °F, both ways', (celsius, fahrenheit) => {
    expect(convertTemperature(celsius, 'degC', 'degF')).toBeCloseTo(fahrenheit, 12);
    expect(convertTemperature(fahrenheit, 'degF', 'degC')).toBeCloseTo(celsius, 12);
    expect(convertTemperature(fahrenheit, 'degF', 'K')).toBeCloseTo((fahrenheit + 459.67) / 1.8, 11);
  });
  it('a difference of 1 °F is 5/9 K, and 1 °C is 1 K', () => {
    expect(temperatureDifferenceFactor('degF', 'K')).toBeCloseTo(5 / 9, 15);
    expect(temperatureDifferenceFactor('degC', 'K')).toBe(1);
    expect(convertDifference(1, 'degF', 'degC')).toBeCloseTo(5 / 9, 15);
    expect(convert(1, 'degF', 'degC')).toBeCloseTo(-155 / 9, 13);
  });
});

describe('flow, speed, time', () => {
  it('1 US gallon a minute is 3.785 411 784 l/min (6.309 020 E−05 m³/s as printed)', () => {
    expect(matchingDigits(convert(1, 'gal/min', 'L/min'), 3.785411784)).toBeGreaterThan(14);
    expect((convert(1, 'gal/min', 'm3/h') / 3600).toExponential(6)).toBe('6.309020e-5');
  });
  it('milli is a thousandth (SI Brochure, 9th ed., the prefixes; number of the table not read)', () => {
    expect(convert(450, 'mV', 'V')).toBe(0.45);
    expect(convert(0.45, 'A', 'mA')).toBe(450);
    expect(convert(250, 'ms', 's')).toBe(0.25);
  });
  it('1 Hz is 60 rpm, 1 h is 3600 s', () => {
    expect(convert(1, 'Hz', 'rpm')).toBe(60);
    expect(convert(1, 'h', 's')).toBe(3600);
  });
  it('refuses kinds that do not fit, and knows the kind of each unit', () => {
    expect(convert(1, 'psi', 'degC')).toBeNaN();
    expect(convert(1, 'A', 'V')).toBeNaN();
    expect(new Set(unitNames.map(unitKind)).size).toBe(8);
  });
});
