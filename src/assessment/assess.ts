import { analyse } from '#analysis/analyse.ts';
import type { LogReadings } from '#analysis/log-readings.ts';
import { bandRule, guardFactorOf } from '#decision/rule.ts';
import { decide } from '#decision/decide.ts';
import { signsOf } from '#decision/signs.ts';
import type { Assessment } from '#formats/assessment.ts';
import type { Judge } from '#formats/judge.ts';
import type { Log } from '#formats/log.ts';
import { roundedData } from '#formats/number.ts';
import type { Result } from '#formats/problem.ts';
import type { Rig } from '#formats/rig.ts';
import type { Series } from '#formats/series.ts';
import type { Spec } from '#formats/spec.ts';
import { pressureColumn } from './check-roles.ts';
import { loggedRunOf } from './logged-run.ts';

export { readingsOf, type Apart, type LogReadings } from '#analysis/log-readings.ts';
export { smoothingOf } from '#analysis/situate.ts';

/** What an assessment is made from. */
export interface AssessInput {
  log: Log;
  /** As used when the log was read. */
  rig: Rig | null;
  /** null: the run is described, nothing is judged. */
  spec: Spec | null;
  judge: Judge | null;
  programVersion: string;
  /** What was read out of this log with this rig, where it is at hand. */
  readings?: LogReadings;
  /** false while following a log that still grows; true unless said. */
  complete?: boolean;
}

/** An assessment and the readings behind it. */
export interface Assessed {
  assessment: Assessment;
  series: Series;
}

/**
 * Judges a run: the one door that app and command line use, so that both say the same. Numbers are rounded to 12 digits before
 * they are decided on.
 * @returns problems where a role or a unit is missing, or a hand-made choice can't be followed
 */
export function assess(input: AssessInput): Result<Assessed> {
  const { log, rig, spec, judge } = input;
  const complete = input.complete ?? true;
  const pressure = pressureColumn(log);
  if (!pressure.ok) return pressure;
  const choices = judge?.choices ?? [];
  const analysed = analyse({ log, pressure: pressure.value, rig, spec, choices }, input.readings);
  if (!analysed.ok) return analysed;
  const { series, facts, grave, trace, ...analysis } = analysed.value;
  const quantities = roundedData(analysis.quantities);
  const decision = spec
    ? decide(quantities, spec, roundedData({ ...facts, grave, complete }))
    : { criteria: [], verdict: 'not-assessed' as const, remarks: [] };
  const pressureInDoubt = grave.some(({ reach }) => reach === 'pressure');
  const assessment: Assessment = {
    format: 'overdrive-bench/assessment',
    version: 1,
    program: { version: input.programVersion },
    complete,
    log: loggedRunOf(log, { ...analysis.log, channels: analysis.channels }),
    settings: {
      ...analysis.settings,
      decisionRule: spec ? bandRule(spec, facts.pressure.stated) : 'simple',
      guardFactor: spec ? guardFactorOf(spec) : 1,
    },
    spec,
    rig,
    judged: analysis.judged,
    phases: analysis.phases,
    quantities,
    criteria: decision.criteria,
    verdict: decision.verdict,
    signs: signsOf(quantities, spec, roundedData({ ...trace, pressureInDoubt })),
    remarks: [...log.remarks, ...analysis.remarks, ...decision.remarks],
  };
  return { ok: true, value: { assessment: roundedData(assessment), series } };
}
