/** Gauge pressure units that logs, specs and rigs may use, by the name the files write. */
export const pressureUnits = [
  'psi',
  'kPa',
  'MPa',
  'bar',
  'mbar',
  'kgf/cm2',
  'Pa',
  'mH2O',
  'cmH2O',
  'inHg',
  'mmHg',
  'atm',
] as const;
export type PressureUnit = (typeof pressureUnits)[number];

/** Pound-force per square inch from its definition: 0.453 592 37 kg × 9.806 65 m/s² over (0.0254 m)². */
const psi_Pa = (0.45359237 * 9.80665) / (0.0254 * 0.0254);

/**
 * Pascals in one unit.
 * Source: NIST Guide to the SI (SP 811), Appendix B.8, by way of a package that names it as its source; exact values computed
 * from the definitions (the guide prints psi to seven digits: 6.894 757 E+03). Conventional columns of water and mercury
 * (1000 kg/m³, 13 595.1 kg/m³, standard gravity) as there.
 */
export const pascalsIn: Readonly<Record<PressureUnit, number>> = {
  Pa: 1,
  kPa: 1e3,
  MPa: 1e6,
  mbar: 100,
  bar: 1e5,
  psi: psi_Pa,
  'kgf/cm2': 98066.5,
  mH2O: 9806.65,
  cmH2O: 98.0665,
  inHg: 13595.1 * 9.80665 * 0.0254,
  mmHg: 13595.1 * 9.80665 * 0.001,
  atm: 101325,
};

/** Factor that takes a pressure, or a difference of pressures, from one unit to another. Gauge stays gauge: no atmosphere is added. */
export function pressureFactor(from: PressureUnit, to: PressureUnit): number {
  return from === to ? 1 : pascalsIn[from] / pascalsIn[to];
}
