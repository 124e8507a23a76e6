import { describe, expect, test } from 'vitest';
import { readHeading } from '#log/header-unit.ts';

describe('the unit in a heading', () => {
  test.each<[string, string]>([
    ['Pressure [bar]', 'bar'],
    ['P (psi)', 'psi'],
    ['Temp (°C) probe 20', 'degC'],
    ['Temp, °F (probe 20)', 'degF'],
    ['RH, % (probe 20)', 'percent'],
    ['pressure_psi', 'psi'],
    ['oil_degC', 'degC'],
    ['oil_temp_C', 'degC'],
    ['T_oil_K', 'K'],
    ['Pressure bar(g)', 'bar'],
    ['line_psi(g)', 'psi'],
    ['Pressure.mbar', 'mbar'],
    ['TempC', 'degC'],
    ['oilF', 'degF'],
    ['Druck bar', 'bar'],
    ['Oil temperature deg F', 'degF'],
    ['Line pressure kgf/cm²', 'kgf/cm2'],
    ['P/psi', 'psi'],
    ['n [1/min]', 'rpm'],
    ['shaft rpm', 'rpm'],
    ['solenoid_A', 'A'],
    ['Solenoid current mA', 'mA'],
    ['Flow L/min', 'L/min'],
    ['Temperature[\uFFFDC]', 'degC'],
    ['Pressure[cmH2O]', 'cmH2O'],
    ['2. Temperature [oC]', 'degC'],
    ['psi', 'psi'],
    ['Pressure [psi(g)]', 'psi'],
    ['Pressure psi (V)', 'psi'],
    ['Pressure (V)', 'V'],
    ['P (bar(rel))', 'bar'],
    ['PressurePSI', 'psi'],
    ['LinePressBar', 'bar'],
    ['Давление, бар', 'bar'],
    ['oil [deg_C]', 'degC'],
    ['t_s', 's'],
    ['Time (min)', 'min'],
  ])('%s', (heading, unit) => {
    expect(readHeading(heading).unit).toBe(unit);
  });

  test.each([
    'Sensor A',
    'P 1',
    'Phase_A',
    'VS1_mm_s',
    'Pump 1',
    'Line F',
    'Date/time',
    'State 1',
    'Channel V',
    'constructor',
    '',
    '#',
    'Time',
    'oil',
    'A',
    'min',
    '1. SWP [-bar]',
  ])('none in "%s"', (heading) => {
    expect(readHeading(heading).unit).toBe(null);
  });

  test('an unknown unit is told as written, an absolute one as such', () => {
    expect(readHeading('Conductivity [mS/cm]')).toEqual({ unit: null, unitText: 'mS/cm', absolute: false });
    expect(readHeading('Line pressure (psia)')).toEqual({ unit: null, unitText: 'psia', absolute: true });
    expect(readHeading('p_bara')).toEqual({ unit: null, unitText: 'bara', absolute: true });
  });
});

test.each([
  'Pressure psi / bar',
  'Line psi (kPa)',
  'Pressure x10 [bar]',
  'P*100 kPa',
  '10 x P [psi]',
  'P/10 [psi]',
])('which unit the numbers under "%s" are in is not told', (name) => {
  expect(readHeading(name).unit).toBeNull();
  expect(readHeading(name).absolute).toBe(false);
});
test.each(['Pressure bar(a)', 'Pressure kPa(abs)'])('"%s" counts from vacuum', (name) => {
  expect(readHeading(name)).toMatchObject({ unit: null, absolute: true });
});
