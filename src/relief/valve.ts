import { pascalsIn, type PressureUnit } from '#units/pressure.ts';
import type { Relief } from '#formats/relief.ts';

type Valve = NonNullable<Relief['valve']>;

/** Newtons a metre and square metres in one unit. Pound-force and inch by definition (0.453 592 37 kg × 9.806 65 m/s²; 0.0254 m). */
const newtonsPerMetreIn = { 'N/mm': 1000, 'N/m': 1, 'lbf/in': (0.45359237 * 9.80665) / 0.0254 } as const;
const squareMetresIn = { mm2: 1e-6, cm2: 1e-4, in2: 0.0254 * 0.0254 } as const;

/**
 * What a millimetre of spring travel does to the pressure at which a poppet opens: Δp/Δx = k/A.
 * Derived from the balance of spring and seat (p = F/A, F = F0 + k·x); proportional until the coils touch.
 * @param unit pressure unit of the result
 * @returns pressure per millimetre, and its standard uncertainty from those of rate and area (JCGM 100:2008, 5.1.6: relative variances add);
 *   0 where neither is stated
 * @example 12.5 N/mm on 80 mm²: 0.15625 MPa/mm = 22.66 psi/mm
 */
export function pressurePerMillimetre(
  valve: Valve,
  unit: PressureUnit,
): { value: number; standardUncertainty: number } {
  const rate = valve.springRate.value * newtonsPerMetreIn[valve.springRate.unit];
  const area = valve.pressureArea.value * squareMetresIn[valve.pressureArea.unit];
  const value = ((rate / area) * 0.001) / pascalsIn[unit];
  const relativeRate = (valve.springRate.standardUncertainty ?? 0) / valve.springRate.value;
  const relativeArea = (valve.pressureArea.standardUncertainty ?? 0) / valve.pressureArea.value;
  return {
    value,
    standardUncertainty: value * Math.sqrt(relativeRate * relativeRate + relativeArea * relativeArea),
  };
}

/**
 * Rate of a helical compression spring of round wire, k = G·d⁴ / (8·D³·n), in N/mm.
 * Source: formula as spring makers print it (read on a page that gives G ≈ 80 GPa for music wire).
 * @param wire_mm wire diameter d
 * @param coil_mm mean coil diameter D
 * @param activeCoils n
 * @param shearModulus_GPa G, 79.3 for music wire unless a data sheet says otherwise (from memory)
 */
export function springRate_NPerMm(
  wire_mm: number,
  coil_mm: number,
  activeCoils: number,
  shearModulus_GPa = 79.3,
): number {
  const wire4 = wire_mm * wire_mm * wire_mm * wire_mm;
  return (shearModulus_GPa * 1000 * wire4) / (8 * coil_mm * coil_mm * coil_mm * activeCoils);
}
