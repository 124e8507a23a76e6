import { describe, expect, test } from 'vitest';
import { isAbsolutePressure, readUnit } from '#units/read-unit.ts';
import { unitNames } from '#units/unit.ts';

describe('units as people write them', () => {
  // Common practice of loggers, meters and people; no source.
  test.each<[string, string]>([
    ['psi', 'psi PSI PSIG psig psi(g) psi_g p.s.i. lb/in2 lbf/in² lbs/sq.in'],
    ['kPa', 'kPa KPA kpag kPa_g kN/m² кПа'],
    ['MPa', 'MPa MPA mPa N/mm² МПа'],
    ['bar', 'bar Bar BARG bar(g) daN/cm² бар'],
    ['mbar', 'mbar mBar millibar hPa'],
    ['kgf/cm2', 'kgf/cm2 kgf/cm² kg/cm2 kg/cm² kg/cm^2 KG/CM2 kp/cm² kg kgf/cm²-g atü кгс/см²'],
    ['mH2O', 'mH2O mH₂O mWS mWC'],
    ['cmH2O', 'cmH2O cmH₂O'],
    ['inHg', 'inHg in.Hg "Hg'],
    [
      'degC',
      '°C °c C degC deg.C DEG_C? Celsius ºC ˚C ℃ Â°C \uFFFDC ?C oC C° °С deg_C øC ¡C ∞C Ã‚Â°C ï¿½C &deg;C'.replace(
        'DEG_C?',
        'DEGC',
      ),
    ],
    ['degF', '°F F degF Fahrenheit ºF ℉ \uFFFDF F° øF'],
    ['K', 'K Kelvin'],
    ['rpm', 'rpm RPM 1/min r/min U/min min-1 min⁻¹ min^-1 rev/min tr/mn Umdr./min об/мин'],
    ['Hz', 'Hz hz 1/s'],
    ['A', 'A a Amp Amps ADC'],
    ['mA', 'mA MA milliamps'],
    ['V', 'V Volt VDC ACV'],
    ['L/min', 'L/min l/min lpm LPM ltr/min'],
    ['gal/min', 'gpm GPM gal/min'],
    ['percent', '% pct percent'],
    ['s', 's sec seconds'],
    ['min', 'min minutes'],
    ['h', 'h hr hours'],
    ['ms', 'ms msec millis'],
  ])('%s', (unit, texts) => {
    expect(texts.split(' ').map((text) => [text, readUnit(text)])).toEqual(
      texts.split(' ').map((text) => [text, unit]),
    );
  });

  test('blanks inside and around do not matter', () => {
    expect(
      ['deg F', ' deg C ', 'kgf / cm²', 'Deg  C', 'in Hg', 'L / min', '\u00a0bar'].map(readUnit),
    ).toEqual(['degF', 'degC', 'kgf/cm2', 'degC', 'inHg', 'L/min', 'bar']);
  });

  test('every name that the files write reads as itself', () => {
    for (const name of unitNames) expect([name, readUnit(name)]).toEqual([name, name]);
  });

  test('what is no unit of ours is none', () => {
    for (const text of [
      '',
      ' ',
      'volume',
      'mm/s',
      '-bar',
      'KWH',
      'm+NAP',
      'psi/h',
      'time',
      'inH2O',
      'barrel',
      'm_s',
      'ø',
      '°',
      'constructor',
      'toString',
      'a'.repeat(50),
    ])
      expect([text, readUnit(text)]).toEqual([text, null]);
  });
});

describe('pressures that count from vacuum', () => {
  test('are no gauge pressures', () => {
    for (const text of [
      'psia',
      'PSIA',
      'bar(a)',
      'bar abs',
      'kPa(abs)',
      'mbar absolute',
      'MPa a',
      'bar abs.',
    ]) {
      expect([text, readUnit(text)]).toEqual([text, null]);
      expect([text, isAbsolutePressure(text)]).toEqual([text, true]);
    }
  });
  test('and gauge pressures, pascals and other words are not taken for them', () => {
    for (const text of ['psi', 'psig', 'bar', 'kPa', 'MPa', 'Pa', 'A', 'mA', 'VA', 'data', 'oila', ''])
      expect([text, isAbsolutePressure(text)]).toEqual([text, false]);
  });
});
