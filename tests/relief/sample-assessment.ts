import type { Assessment, Quantities } from '#formats/assessment.ts';
import type { Relief } from '#formats/relief.ts';
import type { Spec } from '#formats/spec.ts';
import { decide } from '#decision/decide.ts';
import { factsWithoutRig, type DecisionFacts } from '#decision/facts.ts';
import { band, statedGauge, tidyQuantities } from '../decision/sample-quantities.ts';

/** An assessment of a tidy run at a pressure, as the assessment room would make it; only what advice looks at is filled in earnest. */
export function assessmentOf(
  quantities: Quantities,
  spec: Spec | null,
  facts: DecisionFacts = factsWithoutRig(),
  change: Partial<Assessment> = {},
): Assessment {
  const decision = spec
    ? decide(quantities, spec, facts)
    : { criteria: [], verdict: 'not-assessed' as const, remarks: [] };
  return {
    format: 'overdrive-bench/assessment',
    version: 1,
    program: { version: '0.1.0' },
    complete: facts.complete,
    log: {
      fileName: 'run.csv',
      bytes: 1,
      sha256: null,
      dialect: { encoding: 'utf-8', delimiter: ',', decimal: '.', headerLine: 1, unitLine: null },
      rows: 21600,
      skippedRowCount: 0,
      skippedRows: [],
      timeForm: 'elapsed-seconds',
      start: null,
      duration_s: 21599,
      medianInterval_s: 1,
      gaps: [],
      clockSteps: [],
      channels: [],
    },
    settings: {
      smoothing: { method: 'median', window_s: 30 },
      settlingTolerance: { value: 8.2, unit: 'psi' },
      pressureBehaviour: 'raised-on-engage',
      decisionRule: 'guarded',
      guardFactor: 1,
      coverageProbability: 0.9545,
    },
    spec,
    rig: null,
    judged: { start_s: 61, end_s: 21541, shareOfLog: 0.99, joined: 1, choices: [] },
    phases: [],
    quantities,
    criteria: decision.criteria,
    verdict: decision.verdict,
    signs: [],
    remarks: decision.remarks,
    ...change,
  };
}

/** A run at a pressure whose uncertainty splits into scatter (Type A) and gauge (Type B). */
export function readAt(value: number, gauge: number, scatter = 0): Quantities {
  const tidy = tidyQuantities();
  const u = Math.sqrt(gauge * gauge + scatter * scatter);
  return {
    ...tidy,
    temperatureSensitivity: {
      value: null,
      unit: 'psi/degC',
      low: null,
      high: null,
      reason: 'spans under 5 °C',
    },
    operatingPressure: {
      ...tidy.operatingPressure,
      value,
      standardUncertainty: u,
      expandedUncertainty: 2 * u,
      effectiveDegreesOfFreedom: null,
      budget: [
        {
          source: 'scatter',
          type: 'A',
          distribution: 't',
          standardUncertainty: scatter,
          degreesOfFreedom: 8,
          share: 0,
        },
        {
          source: 'accuracy',
          type: 'B',
          distribution: 'rectangular',
          standardUncertainty: gauge,
          degreesOfFreedom: null,
          share: 1,
        },
      ],
    },
  };
}

/** Guarded advice on 400 to 420 psi. */
export const assessedAt = (
  value: number,
  gauge = 1.75,
  scatter = 0,
  spec: Spec = band(400, 420),
): Assessment => assessmentOf(readAt(value, gauge, scatter), spec, statedGauge(2 * gauge));

export const relief = (change: Partial<Relief> = {}): Relief => ({
  format: 'overdrive-bench/relief',
  version: 1,
  pressurePerShim: { value: 22, unit: 'psi/mm', standardUncertainty: 1.2 },
  repeatability: { standardUncertainty: 1.5, unit: 'psi' },
  fitted_mm: [0.5, 0.5, 0.25, 0.1, 0.1],
  stock: [
    { thickness_mm: 0.1, count: 3 },
    { thickness_mm: 0.25, count: null },
  ],
  stackAtMost_mm: 2,
  ...change,
});
