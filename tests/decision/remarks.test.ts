import { describe, expect, it } from 'vitest';
import { decide } from '#decision/decide.ts';
import type { DecisionFacts } from '#decision/facts.ts';
import type { Quantities } from '#formats/assessment.ts';
import type { Spec } from '#formats/spec.ts';
import { tidyQuantities } from './sample-quantities.ts';
import { factsWithoutRig } from '#decision/facts.ts';

const spec = (more: Partial<Spec> = {}): Spec => ({
  format: 'overdrive-bench/spec',
  version: 1,
  name: 'made up',
  pressureBand: { low: 400, high: 420, unit: 'psi' },
  ...more,
});
const decided = (quantities: Partial<Quantities>, given: Spec, facts: Partial<DecisionFacts> = {}) =>
  decide(tidyQuantities(quantities), given, { ...factsWithoutRig(), ...facts });
const codes = (result: ReturnType<typeof decided>): string[] => result.remarks.map(({ code }) => code);

describe('what is said beside the verdict', () => {
  it('a risk is shared whether the gauge states it or its steps alone make it', () => {
    const { operatingPressure } = tidyQuantities();
    const coarse = {
      operatingPressure: { ...operatingPressure, expandedUncertainty: 29, standardUncertainty: 14.5 },
    };
    expect(codes(decided(coarse, spec({ decisionRule: 'simple' })))).toContain('risk-is-shared');
    expect(codes(decided({}, spec({ decisionRule: 'simple' })))).not.toContain('risk-is-shared');
  });
  it('a reading that was not judged was not judged alone either', () => {
    const limits = spec({ solenoidCurrent: { atMost: 2, unit: 'A' } });
    const current = (max: number | null) =>
      decided(
        {
          solenoidCurrent: {
            mean: max,
            max,
            unit: 'A',
            ...(max === null ? { reason: 'no such column' } : {}),
          },
        },
        limits,
      );
    expect(codes(current(1.2))).toContain('solenoid-current-uncertainty-not-stated');
    expect(codes(current(null))).not.toContain('solenoid-current-uncertainty-not-stated');
  });
  it('limits drawn in by the resolution alone are not the gauge’s', () => {
    const made = (stated: boolean): string =>
      decided({}, spec({ decisionRule: 'guarded', timeInBand: { atLeast: 0.95 } }), {
        pressure: { ...factsWithoutRig().pressure, stated, typeBExpanded: 0.058 },
        shareInNarrowedBand: 0.99,
        shareInWidenedBand: 1,
      }).criteria.find(({ id }) => id === 'time-in-band')?.reason ?? '';
    expect(made(false)).toContain("the resolution's ±");
    expect(made(true)).toContain("the gauge's ±");
  });
});
