import {
  assessmentSchema,
  type Assessment,
  type Criterion,
  type Phase,
  type Verdict,
} from '#formats/assessment.ts';
import type { Rig } from '#formats/rig.ts';
import type { Series } from '#formats/series.ts';
import type { Spec } from '#formats/spec.ts';
import type { MadeRun } from './made-run.ts';

/** The assessment that goes with a made run: plain sums over its readings, verdicts as its limits give them. */
export function assessmentOf(
  made: MadeRun,
  series: Series,
  from: number,
  to: number,
  factor: number,
): Assessment {
  const { gap } = made;
  const holdFrom = from + made.warmAt_s;
  const phases: Phase[] = [{ kind: 'idle', start_s: 0, end_s: from }];
  const part = (kind: Phase['kind'], start_s: number, end_s: number): void =>
    void (end_s > start_s && phases.push({ kind, start_s, end_s }));
  if (made.hold) {
    part('warm-up', from, holdFrom);
    if (gap && gap.start_s > holdFrom && gap.end_s < to) {
      part('hold', holdFrom, gap.start_s);
      part('gap', gap.start_s, gap.end_s);
      part('hold', gap.end_s, to);
    } else part('hold', holdFrom, to);
  } else part('warm-up', from, to);
  part('run-down', to, series.time_s[series.time_s.length - 1] ?? to);
  const held = [...(series.pressure?.values ?? [])].filter((_, i) => {
    const t = series.time_s[i] ?? 0;
    return t >= holdFrom && t < to && series.pressure?.flags[i] === 0;
  });
  const mean = held.reduce((sum, value) => sum + value, 0) / held.length;
  const value = made.hold ? mean : null;
  const low = made.band?.low == null ? null : made.band.low * factor,
    high = made.band?.high == null ? null : made.band.high * factor;
  const expanded = made.expanded === null ? null : made.expanded * factor;
  const guard = made.rule === 'guarded' ? (expanded ?? 0) : 0;
  const inside = (margin: number): boolean =>
    value !== null && (low === null || value >= low + margin) && (high === null || value <= high - margin);
  const verdict: Verdict =
    made.verdict ??
    (value === null
      ? 'not-assessed'
      : inside(guard)
        ? 'pass'
        : inside(-guard) && guard > 0
          ? 'undecided'
          : 'fail');
  const unit = made.unit;
  const noValue = { value: null, unit, reason: 'not in this made run' };
  const spec: Spec | null = made.band
    ? {
        format: 'overdrive-bench/spec',
        version: 1,
        name: 'Example sheet',
        source: 'Example of an invented shop; not a limit for any real unit',
        pressureBand: { low, high, unit },
        decisionRule: made.rule,
        runLength: { atLeast_h: 6 },
        operatingTemperature: { low: 50, high: 80, unit: 'degC' },
        settling: { tolerance: 5 * factor, unit, within_min: 60 },
        drift: { atMost: 5 * factor, unit },
        timeInBand: { atLeast: 0.98 },
      }
    : null;
  const rig: Rig = {
    format: 'overdrive-bench/rig',
    version: 1,
    name: 'Bench 1',
    channels: [
      {
        column: 'P main',
        role: 'pressure',
        unit,
        range: { low: 0, high: 600 * factor },
        resolution: 0.1 * factor,
        ...(expanded === null ? {} : { uncertainty: { percentOfSpan: 0.25 } }),
        identification: 'G-07',
        calibratedOn: '2025-11-18',
        dueOn: '2026-11-18',
      },
      {
        column: 'Oil',
        role: 'oil-temperature',
        unit: 'degC',
        range: { low: 0, high: 150 },
        uncertainty: { absolute: 1.5 },
        identification: 'T-03',
        calibratedOn: '2025-11-18',
      },
    ],
  };
  const change = made.slopePerHour * made.hours * factor;
  const criteria: Criterion[] = made.band
    ? [
        {
          id: 'operating-pressure',
          value,
          unit,
          expandedUncertainty: expanded,
          limits: { low, high },
          decisionRule: made.rule,
          probabilityOfConformity:
            expanded === null || value === null
              ? null
              : verdict === 'pass'
                ? 0.99996
                : verdict === 'fail'
                  ? 0.00002
                  : 0.62,
          verdict,
          reason: 'as made',
        },
        {
          id: 'settling',
          value: made.hold ? 36 : null,
          unit: 'min',
          expandedUncertainty: null,
          limits: { low: null, high: 60 },
          decisionRule: 'simple',
          probabilityOfConformity: null,
          verdict: made.hold ? 'pass' : 'not-assessed',
          reason: made.hold ? '36 min' : 'the oil did not reach its operating temperature',
        },
        {
          id: 'drift',
          value: made.hold ? change : null,
          unit,
          expandedUncertainty: 0.41 * factor,
          limits: { low: -5 * factor, high: 5 * factor },
          decisionRule: 'guarded',
          probabilityOfConformity: null,
          verdict: made.hold ? 'pass' : 'not-assessed',
          reason: made.hold ? 'inside' : 'no hold',
        },
        {
          id: 'hold-temperature',
          value: made.oil && made.hold ? 60.8 : null,
          unit: 'degC',
          expandedUncertainty: 1.73,
          limits: { low: 50, high: 80 },
          decisionRule: 'guarded',
          probabilityOfConformity: 0.99999,
          verdict: made.oil && made.hold ? 'pass' : 'not-assessed',
          reason: 'as made',
        },
        {
          id: 'time-in-band',
          value: made.hold ? (verdict === 'fail' ? 0.001 : 0.998) : null,
          unit: '1',
          expandedUncertainty: null,
          limits: { low: 0.98, high: null },
          decisionRule: 'simple',
          probabilityOfConformity: null,
          verdict: verdict === 'fail' ? 'fail' : made.hold ? 'pass' : 'not-assessed',
          reason: 'as made',
        },
        {
          id: 'run-length',
          value: made.hours + 2 / 60,
          unit: 'h',
          expandedUncertainty: null,
          limits: { low: 6, high: null },
          decisionRule: 'simple',
          probabilityOfConformity: null,
          verdict: made.hours + 2 / 60 >= 6 ? 'pass' : 'fail',
          reason: 'as made',
        },
        ...made.extraCriteria,
      ]
    : [];
  const overall =
    (['fail', 'not-assessed', 'undecided'] as const).find((name) =>
      criteria.some((c) => c.verdict === name),
    ) ?? (criteria.length > 0 ? 'pass' : 'not-assessed');
  const count = series.time_s.length;
  const spikes = made.spikes.length;
  const piece_s = (to - from) / made.engagements;
  const assessment: Assessment = {
    format: 'overdrive-bench/assessment',
    version: 1,
    program: { version: '0.1.0' },
    complete: true,
    log: {
      fileName: 'run-2026-03-04.csv',
      bytes: 412_345,
      sha256: '7c1e0b52a94d3f68e0d7b6a1c83f5e2491ad06f7b35ce82d40f9a7163be85c0d',
      dialect: { encoding: 'utf-8', delimiter: ',', decimal: '.', headerLine: 1, unitLine: null },
      rows: count,
      skippedRowCount: 0,
      skippedRows: [],
      timeForm: 'iso-8601',
      start: made.start,
      duration_s: series.time_s[count - 1] ?? 0,
      medianInterval_s: made.interval_s,
      gaps: gap ? [gap] : [],
      clockSteps: [],
      channels: [
        {
          column: 'P main',
          role: 'pressure',
          unit,
          unitFrom: 'header',
          samples: count,
          valid: count - spikes,
          missing: 0,
          faultTokens: 0,
          outOfRange: 0,
          stuck: 0,
          spikes,
          min: 17,
          max: 442,
          mean: 410,
          median: 411,
        },
        ...(made.oil
          ? [
              {
                column: 'Oil',
                role: 'oil-temperature' as const,
                unit: 'degC' as const,
                unitFrom: 'header' as const,
                samples: count,
                valid: count,
                missing: 0,
                faultTokens: 0,
                outOfRange: 0,
                stuck: 0,
                spikes: 0,
                min: 18,
                max: 61,
                mean: 58,
                median: 60.8,
              },
            ]
          : []),
      ],
    },
    settings: {
      smoothing: { method: 'median', window_s: 30 },
      settlingTolerance: { value: 5 * factor, unit },
      pressureBehaviour: 'raised-on-engage',
      decisionRule: made.rule,
      guardFactor: 1,
      coverageProbability: 0.9545,
    },
    spec,
    rig,
    judged: { start_s: from, end_s: to, shareOfLog: 0.99, joined: 1, choices: [] },
    phases,
    quantities: {
      operatingPressure: {
        value,
        unit,
        standardUncertainty: expanded === null ? null : expanded / 2,
        expandedUncertainty: expanded,
        coverageFactor: expanded === null ? null : 2,
        effectiveDegreesOfFreedom: null,
        start_s: made.hold ? holdFrom : null,
        end_s: made.hold ? to : null,
        budget:
          expanded === null
            ? []
            : [
                {
                  source: 'accuracy',
                  type: 'B',
                  size: 1.5 * factor,
                  distribution: 'rectangular',
                  standardUncertainty: 0.87 * factor,
                  degreesOfFreedom: null,
                  share: 0.6,
                },
                {
                  source: 'calibration',
                  type: 'B',
                  size: 1 * factor,
                  distribution: 'normal',
                  standardUncertainty: 0.5 * factor,
                  degreesOfFreedom: null,
                  share: 0.2,
                },
                {
                  source: 'resolution',
                  type: 'B',
                  size: 0.1 * factor,
                  distribution: 'rectangular',
                  standardUncertainty: 0.029 * factor,
                  degreesOfFreedom: null,
                  share: 0.01,
                },
                {
                  source: 'scatter',
                  type: 'A',
                  size: null,
                  distribution: 't',
                  standardUncertainty: 0.45 * factor,
                  degreesOfFreedom: 8,
                  share: 0.19,
                },
              ],
        ...(value === null ? { reason: 'the oil did not reach 50 °C' } : {}),
      },
      holdRange: made.hold
        ? { min: Math.min(...held), max: Math.max(...held), unit }
        : { min: null, max: null, unit, reason: 'no hold' },
      peakPressure: { value: 442 * factor, unit },
      timeInBand: made.hold
        ? { inside: 0.998, above: 0.001, below: 0.001 }
        : { inside: null, above: null, below: null, reason: 'no hold' },
      drift: made.hold
        ? {
            slope: made.slopePerHour * factor,
            low: -0.4 * factor,
            high: -0.2 * factor,
            unit: `${unit}/h`,
            confidence: 0.95,
            overHold: { value: change, unit },
            trend: 'falling',
            temperatureCorrectedSlope: null,
            bandExit_h: null,
            reason: 'no temperature span',
          }
        : {
            slope: null,
            low: null,
            high: null,
            unit: `${unit}/h`,
            confidence: 0.95,
            overHold: { value: null, unit },
            trend: null,
            temperatureCorrectedSlope: null,
            bandExit_h: null,
            reason: 'no hold',
          },
      settling: made.hold
        ? { time_s: 2160, tolerance: 5 * factor, unit, finalValue: made.level * factor }
        : { time_s: null, tolerance: 5 * factor, unit, finalValue: null, reason: 'no hold' },
      warmUp: {
        timeConstant_s: 1490,
        low_s: 1460,
        high_s: 1520,
        startTemperature: 18,
        finalTemperature: 61,
        unit: 'degC',
        reachedOperating_s: made.hold ? made.warmAt_s : null,
        reason: 'as made',
      },
      holdTemperature:
        made.oil && made.hold
          ? { mean: 60.8, min: 58.7, max: 61, unit: 'degC' }
          : { mean: null, min: null, max: null, unit: 'degC', reason: 'no hold with oil temperature' },
      temperatureSensitivity: {
        value: null,
        unit: `${unit}/degC`,
        low: null,
        high: null,
        reason: 'not in this made run',
      },
      ripple: { peakToPeak: null, unit, frequency_Hz: null, order: null, reason: 'sampled too slowly' },
      engagements: Array.from({ length: made.engagements }, (_, k) => ({
        start_s: from + k * piece_s,
        end_s: made.engagements === 1 ? to : from + (k + 1) * piece_s - Math.min(60, piece_s / 4),
        rise_s: null,
        riseAtMost_s: 3,
        plateau: { value: made.level * factor, unit },
        peak: { value: 442 * factor, unit },
        overshoot: null,
        fall_s: null,
        fallAtMost_s: 3,
        dip: null,
        recovery_s: null,
        reason: 'sampled too slowly',
      })),
      releasedPressure: noValue,
      zeroAtRest: { value: 0.4 * factor, unit },
      leakDown: { halfTime_s: null, reason: 'not in this made run' },
      plateauSpread: { ...noValue, engagements: 0 },
      solenoidCurrent: { mean: null, max: null, unit: 'A', reason: 'no current channel' },
      runLength: { length_s: to - from },
      recordCoverage: { share: gap ? 0.984 : 1 },
    },
    criteria,
    verdict: overall,
    signs: [],
    remarks: [],
  };
  return assessmentSchema.parse(assessment);
}
