import type { CriterionId, Phase } from './assessment.ts';
import { criterionNames } from './criterion-names.ts';
import { asSentence, decimalsForStep, durationText, fixedText, withUnit } from '#units/number-text.ts';

/** A run that is still being logged, as somebody at the bench wants to hear of it. Numbers rounded as our files hold them. */
export interface SoFar {
  /** The last row, seconds from the first; 0 without a row. */
  at_s: number;
  /** Smoothed readings of the last row that has one; null without. */
  pressure: { value: number; unit: string } | null;
  oil: { value: number; unit: string } | null;
  phase: Phase['kind'] | null;
  /** How long the unit has been running, and how long it is still to run; null where no length is asked for. */
  run_s: number | null;
  toGo_s: number | null;
  hold_s: number | null;
  /** The oil temperature at which the hold begins, where the oil has not reached it yet. */
  oilWanted: { value: number; unit: string } | null;
  drift: SoFarDrift | null;
  /** Why there is no line of the drift yet. */
  noDrift: string | null;
  /** Criteria that fail, whatever still comes. */
  fails: CriterionId[];
}

/** The line of the drift, and where it leads. */
export interface SoFarDrift {
  slope: number;
  low: number | null;
  high: number | null;
  unit: string;
  trend: 'rising' | 'falling' | 'none';
  /** Hours from now until the line leaves the band; 0 outside already, null where it stays inside for long enough, or without a band. */
  bandExit_h: number | null;
  /** Where the line stands when the run asked for is over; null where that is not known or reached. */
  atRunEnd: { value: number; unit: string } | null;
}

/** Said wherever a run is followed. */
export const notAnAlarm =
  'This is no alarm and no safety device: it reads what the logger has written, some seconds late, and nothing stops the bench. Stay with the unit and watch the gauge.';
/** Why nothing is judged yet. */
export const stillOpenText =
  'What time can still change is not assessed. When the run is over, judge the whole log.';

/** Said when the file is shorter than before, or another one of the same name. */
export const beganAnew = 'The file was begun anew; what was read before is of another run and is left out.';

/** Without a new row for so long, or for ten intervals of a slower log, it is said. */
const QUIET_s = 30;
const QUIET_INTERVALS = 10;
/** That no row came for long; null as long as that is nothing unusual. */
export function quietText(quiet_s: number, interval_s: number): string | null {
  return quiet_s >= Math.max(QUIET_s, QUIET_INTERVALS * interval_s)
    ? `No new row for ${durationText(Math.round(quiet_s))}: see whether the logger still writes.`
    : null;
}

const digits = (value: number): string => fixedText(value, Math.abs(value) >= 100 ? 1 : 2);
const read = ({ value, unit }: { value: number; unit: string }): string =>
  withUnit(fixedText(value, 1), unit);

/** A reading of the gauge; where the unit is a large one, with digits enough to see it move. */
const readPressure = ({ value, unit }: { value: number; unit: string }): string =>
  withUnit(fixedText(value, largeUnits[unit] ?? 1), unit);
const largeUnits: Readonly<Record<string, number>> = { bar: 2, 'kgf/cm2': 2, MPa: 3 };

const phaseWords: Readonly<Record<Phase['kind'], string>> = {
  idle: 'idle',
  'warm-up': 'warm-up',
  hold: 'hold',
  'run-down': 'run-down',
  'not-judged': 'not judged',
  gap: 'no record',
};

/** "411.2 psi, oil 61.3 °C, hold". */
export function nowText({ pressure, oil, phase }: SoFar): string {
  return [
    pressure === null ? 'no pressure reading yet' : readPressure(pressure),
    ...(oil === null ? [] : [`oil ${read(oil)}`]),
    ...(phase === null ? [] : [phaseWords[phase]]),
  ].join(', ');
}

/** "3 h 10 min run, 2 h 50 min to go". */
export function timeToGoText({ run_s, toGo_s }: SoFar): string {
  const run = run_s === null ? 'no run yet' : `${durationText(run_s)} run`;
  if (toGo_s === null) return run;
  return toGo_s > 0 ? `${run}, ${durationText(toGo_s)} to go` : `${run}, as long as was asked for`;
}

/** "drift −0.42 psi/h, falling: at the end of the run 409.8 psi, out of the band in 22 h". */
export function driftLeadsText({ drift, noDrift }: SoFar): string {
  if (drift === null) return `no drift line yet${noDrift === null ? '' : `: ${noDrift}`}`;
  const { slope, low, high, unit, trend, bandExit_h, atRunEnd } = drift;
  const decimals =
    low === null || high === null || !(high > low)
      ? 2
      : Math.min(2, Math.max(0, decimalsForStep((high - low) / 20)));
  const line = `drift ${withUnit(fixedText(slope, decimals), unit)}, ${trend === 'none' ? 'no trend' : trend}`;
  const leads = [
    ...(atRunEnd === null
      ? []
      : [`at the end of the run ${withUnit(digits(atRunEnd.value), atRunEnd.unit)}`]),
    ...(bandExit_h === null
      ? []
      : [
          bandExit_h > 0
            ? `out of the band in ${durationText(bandExit_h * 3600)} if it goes on so`
            : 'outside of the band already',
        ]),
  ];
  return leads.length === 0 ? line : `${line}: ${leads.join(', ')}`;
}

/** The sentences of a run so far, for a page or a terminal. */
export function soFarSentences(soFar: SoFar): string[] {
  const { oil, oilWanted, fails } = soFar;
  return [
    `Now ${nowText(soFar)}.`,
    asSentence(timeToGoText(soFar)),
    ...(oilWanted === null || oil === null
      ? []
      : [`The hold begins when the oil reaches ${read(oilWanted)}; it is at ${read(oil)}.`]),
    asSentence(driftLeadsText(soFar)),
    ...(fails.length === 0
      ? []
      : [`Fails already, whatever still comes: ${fails.map((id) => criterionNames[id].plain).join(', ')}.`]),
  ];
}

/** The same on one line, for a pipe or a file. */
export function soFarLine(soFar: SoFar): string {
  return [
    nowText(soFar),
    timeToGoText(soFar),
    driftLeadsText(soFar),
    ...(soFar.fails.length === 0
      ? []
      : [`fails already: ${soFar.fails.map((id) => criterionNames[id].plain).join(', ')}`]),
  ].join('; ');
}
