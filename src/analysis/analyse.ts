import type { LoggedRun, Phase, Quantities } from '#formats/assessment.ts';
import type { Remark } from '#formats/remark.ts';
import type { Result } from '#formats/problem.ts';
import type { Choice } from '#formats/judge.ts';
import type { Smoothing } from '#formats/spec.ts';
import type { Series, SeriesChannel } from '#formats/series.ts';
import type { PressureUnit } from '#units/pressure.ts';
import { factsOf, type AnalysisFacts } from './analysis-facts.ts';
import { withoutDoubted } from './doubted-quantities.ts';
import { withGapsForSteps } from './judge-choices.ts';
import { readingsOf, type LogReadings } from './log-readings.ts';
import { COVERAGE_PROBABILITY } from './operating-pressure.ts';
import { phasesOf } from './phases.ts';
import type { GraveFinding } from './finding.ts';
import { plausibility } from './plausibility.ts';
import { quantitiesOf } from './quantities.ts';
import { holdQuestion } from './quantities-apart.ts';
import { remarksOf, type Doubts } from './remarks.ts';
import { traceFacts, type TraceFacts } from './sign-facts.ts';
import { situate } from './situate.ts';
import type { AnalysisInput, Situation } from './situation.ts';
import { at } from './timeline.ts';

export type { AnalysisInput } from './situation.ts';

/** What was found about a run, before anything is decided. Plain data. */
export interface Analysis {
  unit: PressureUnit;
  /** The log as judged: with gaps in the place of clock steps where the reviewer chose so. */
  log: Pick<LoggedRun, 'gaps' | 'clockSteps' | 'duration_s'>;
  channels: LoggedRun['channels'];
  judged: {
    start_s: number | null;
    end_s: number | null;
    shareOfLog: number;
    joined: number;
    choices: Choice[];
  };
  phases: Phase[];
  quantities: Quantities;
  settings: AnalysisSettings;
  facts: AnalysisFacts;
  grave: GraveFinding[];
  trace: TraceFacts;
  remarks: Remark[];
  series: Series;
}

/** Defaults and choices that were used. */
export interface AnalysisSettings {
  smoothing: Smoothing;
  settlingTolerance: { value: number | null; unit: PressureUnit };
  pressureBehaviour: 'raised-on-engage' | 'held-charged';
  coverageProbability: number;
  engagedLevel: { value: number | null; unit: PressureUnit };
}

/**
 * Analyses a run: what is set aside, phases, every quantity, and what a reader should know.
 * @param given roles and units checked: one pressure column with a pressure unit
 * @param atHand what was read out of this log with this rig, where that was done before
 * @returns the problems of hand-made choices that can't be followed
 * Cost: about n log n in the readings; some 60 bytes a row beside the log.
 */
export function analyse(given: AnalysisInput, atHand?: LogReadings): Result<Analysis> {
  const changed = withGapsForSteps(given.log, given.choices);
  if (!changed.ok) return changed;
  const input: AnalysisInput = { ...given, log: changed.value };
  const readings =
    atHand !== undefined && atHand.log === input.log && atHand.rig === input.rig
      ? atHand
      : readingsOf(input.log, input.rig);
  const found = situate(input, readings);
  if (!found.ok) return found;
  const situation = found.value;
  const awaitApart = situation.hold === null ? () => null : readings.beginHold(holdQuestion(situation));
  // What another thread does not do is done meanwhile.
  readings.listed(input.pressure, situation.reading.flags);
  const results = quantitiesOf(situation, awaitApart),
    plausible = plausibility(situation, results);
  const doubts = doubtsOf(plausible.grave);
  const { run, hold, timeline, reading, unit, tolerance } = situation;
  const last_s = at(timeline.time_s, timeline.time_s.length - 1);
  return {
    ok: true,
    value: {
      unit,
      log: {
        gaps: input.log.gaps,
        clockSteps: input.log.clockSteps.map(({ at_s, step_s }) => ({ at_s, step_s })),
        duration_s: input.log.duration_s,
      },
      channels: input.log.channels.map((channel, index) =>
        readings.listed(channel, situation.flags[index] ?? channel.flags),
      ),
      judged: {
        start_s: run?.start_s ?? null,
        end_s: run?.end_s ?? null,
        shareOfLog: run === null || !(last_s > 0) ? 0 : Math.min(1, (run.end_s - run.start_s) / last_s),
        joined: run?.engagements.length ?? 0,
        choices: [...given.choices],
      },
      phases: phasesOf({
        timeline,
        run,
        hold,
        engagements: reading.pressured,
        leftOut: situation.leftOut,
        leaksDown: situation.held,
        countedOver: reading.countedOver,
      }),
      quantities: withoutDoubted(results.quantities, plausible.grave),
      settings: {
        smoothing: situation.smoothing,
        settlingTolerance: { value: tolerance, unit },
        pressureBehaviour: situation.held ? 'held-charged' : 'raised-on-engage',
        coverageProbability: COVERAGE_PROBABILITY,
        engagedLevel: { value: reading.level.level, unit },
      },
      facts: factsOf(situation, results),
      grave: plausible.grave,
      trace: traceFacts(situation, results),
      remarks: [...plausible.remarks, ...remarksOf(situation, results, doubts)],
      series: seriesOf(situation, doubts.pressure ? null : results.driftAtHoldEnd),
    },
  };
}

function doubtsOf(grave: readonly GraveFinding[]): Doubts {
  const reached = (reach: GraveFinding['reach']): boolean => grave.some((finding) => finding.reach === reach);
  return { pressure: reached('pressure'), column: reached('run-length'), oil: reached('oil-temperature') };
}

/** The run as judged, for drawing and for the CSV. Shares arrays with the log where nothing changed. */
function seriesOf(situation: Situation, driftAtHoldEnd: number | null): Series {
  const { timeline, input, reading, smoothed, oil, unit } = situation;
  const { log } = input;
  return {
    time_s: timeline.time_s,
    start: log.start,
    medianInterval_s: log.medianInterval_s,
    gaps: log.gaps,
    ...(situation.hold === null || driftAtHoldEnd === null
      ? {}
      : { driftLine: { end_s: situation.hold.end_s, value: driftAtHoldEnd } }),
    pressure: {
      column: reading.channel.column,
      role: 'pressure',
      unit,
      values: reading.judged,
      flags: reading.flags,
      smoothed,
    },
    oil: oil && {
      column: oil.channel.column,
      role: oil.channel.role,
      unit: oil.unit,
      values: oil.values,
      flags: oil.flags,
      smoothed: oil.smoothed,
    },
    others: situation.readings
      .filter(({ channel }) => channel.role !== 'ignored' && channel !== oil?.channel)
      .map(({ channel, values, flags }): SeriesChannel => ({
        column: channel.column,
        role: channel.role,
        unit: channel.unit,
        values,
        flags,
      })),
  };
}
