import { SetAside, type Role } from '#formats/log.ts';
import type { Result } from '#formats/problem.ts';
import type { Smoothing, Spec } from '#formats/spec.ts';
import { smooth } from '#signal/smooth.ts';
import { convertTemperature } from '#units/temperature.ts';
import { convert, convertDifference, isTemperatureUnit } from '#units/unit.ts';
import { upToTheEnd, type ChannelReading } from './channel-reading.ts';
import { holdOf, steadyTime_s, type Hold } from './hold.ts';
import { choicesOf, refused, type Choices } from './judge-choices.ts';
import { applyLine, judgedUnit } from './judged-pressure.ts';
import type { LogReadings } from './log-readings.ts';
import { lostPressureOf } from './lost-pressure.ts';
import { isAtUpperEnd } from './set-aside.ts';
import type { PressureReading } from './pressure-reading.ts';
import { stretchOf, trimmedRun, type Run } from './run.ts';
import { DEFAULT_TOLERANCE_SHARE, settlingOf } from './settling.ts';
import { stopRow, type Shaft } from './shaft.ts';
import type { AnalysisInput, Oil, Situation, Unjudged } from './situation.ts';
import { solenoidOf } from './solenoid.ts';
import { at, span_s, type Timeline } from './timeline.ts';
import type { Band } from './time-in-band.ts';

/** Smoothing where the spec gives none. */
const DEFAULT_SMOOTHING: Smoothing = { method: 'median', window_s: 30 };

/** How a run is smoothed for judging. */
export const smoothingOf = (spec: Spec | null): Smoothing => spec?.smoothing ?? DEFAULT_SMOOTHING;

/** Finds what is judged: what is set aside, engagements, the run, when it settled, its hold. */
export function situate(input: AnalysisInput, readings: LogReadings): Result<Situation> {
  const { log, spec, pressure } = input;
  const { timeline } = readings;
  const sorted = choicesOf(log, input.choices);
  if (!sorted.ok) return sorted;
  const choices = sorted.value;
  const unit = judgedUnit(pressure, spec) ?? 'psi';
  const held = spec?.pressureBehaviour === 'held-charged';
  const smoothing = smoothingOf(spec);
  const band: Band | null =
    spec === null ? null : { low: spec.pressureBand.low ?? null, high: spec.pressureBand.high ?? null };
  const withRole = (role: Role): ChannelReading | null => {
    const found = log.channels.find((channel) => channel !== pressure && channel.role === role);
    return found === undefined ? null : readings.channel(found);
  };
  const current = withRole('solenoid-current'),
    command = withRole('solenoid-command');
  const solenoid =
    (command && solenoidOf(timeline, command.kept)) ??
    (current && solenoidOf(timeline, upToTheEnd(current).kept, current.kept));
  let turning: { speed: ChannelReading | null; shaft: Shaft | null } | null = null;
  const ofShaft = (): { speed: ChannelReading | null; shaft: Shaft | null } => {
    if (turning === null) {
      const speed = withRole('shaft-speed');
      turning = { speed, shaft: speed && readings.shaft(speed) };
    }
    return turning;
  };
  const reading = readings.pressure(pressure, { unit, low: band?.low ?? null, held }, () => ({
    solenoid,
    shaft: ofShaft().shaft,
  }));
  const awaitCurrent =
    current === null || reading.engagements.length === 0
      ? () => null
      : readings.beginCurrent({
          about: 'current',
          current,
          timeline,
          smoothing,
          solenoid,
          reading: { engagements: reading.engagements },
        });
  const { speed, shaft } = ofShaft();
  const stretch = stretchOf(timeline, reading.pressured, choices.joins, choices.leftOut);
  const stop = shaft && stretch ? stopRow(shaft, stretch.rows) : null;
  const run =
    stretch &&
    trimmedRun(
      timeline,
      stretch,
      reading.kept,
      held && !shaft,
      stop === null ? null : at(timeline.time_s, stop),
      reading.kept === reading.keptReading,
    );
  const smoothed = smoothedPressure(timeline, reading, smoothing, run);
  // What may still be being read on another thread comes last.
  const oil = oilOf(input, readings, withRole('oil-temperature'), smoothing);
  const others = log.channels.map((channel) => (channel === pressure ? null : readings.channel(channel)));
  const ambientReading = withRole('ambient-temperature');
  const ambient =
    ambientReading && isTemperatureUnit(ambientReading.channel.unit)
      ? { ...ambientReading, unit: ambientReading.channel.unit }
      : null;
  const base = {
    input,
    timeline,
    unit,
    held,
    smoothing,
    band,
    reading,
    oil,
    ambient,
    speed,
    shaft,
    current,
    awaitCurrent,
    solenoid,
    readings: others.filter((other) => other !== null),
    flags: others.map((other) => other?.flags ?? reading.flags),
    leftOut: choices.leftOut,
  };
  if (!run && choices.leftOut.length > 0 && reading.pressured.length > 0)
    return { ok: false, problems: [refused(choices.lastBorder, 'it leaves nothing of the run')] };
  if (!run)
    return {
      ok: true,
      value: {
        ...base,
        smoothed,
        run: null,
        tolerance: null,
        settling: null,
        hold: null,
        unjudged: whyNoRun(reading),
        lost: null,
      },
    };
  const tolerance = toleranceOf(input, unit, run);
  const settling = settlingOf(
    timeline,
    run,
    smoothed,
    tolerance,
    rowsAbove(reading, run.finalValue + tolerance),
  );
  const hold = holdOf({
    timeline,
    run,
    smoothed,
    tolerance,
    oil: oil?.smoothed ?? null,
    operatingLow: oil?.operating.low ?? null,
    start_s: choices.holdStart_s,
    end_s: choices.holdEnd_s,
  });
  const tooLittle = tooLittleHold(timeline, run, hold, choices);
  if (tooLittle !== null) return { ok: false, problems: [refused(choices.lastBorder, tooLittle)] };
  return {
    ok: true,
    value: {
      ...base,
      smoothed,
      run,
      tolerance,
      settling,
      hold: typeof hold === 'string' ? null : hold,
      unjudged: typeof hold === 'string' ? hold : null,
      lost: lostPressureOf({
        timeline,
        reading,
        run,
        hold: typeof hold === 'string' ? null : hold,
        held,
        solenoid,
        shaft,
        leftOut: choices.leftOut,
        endByHand: choices.holdEnd_s !== null,
        releasedAtMost:
          spec?.releasedPressure === undefined
            ? null
            : convert(spec.releasedPressure.atMost, spec.releasedPressure.unit, unit),
      }),
    },
  };
}

function oilOf(
  { spec }: AnalysisInput,
  readings: LogReadings,
  reading: ChannelReading | null,
  smoothing: Smoothing,
): Oil | null {
  const unit = reading?.channel.unit ?? null;
  if (!reading || !isTemperatureUnit(unit) || reading.kept.every((value) => Number.isNaN(value))) return null;
  const limits = spec?.operatingTemperature;
  const limit = (value: number | null | undefined): number | null =>
    value === null || value === undefined || !limits ? null : convertTemperature(value, limits.unit, unit);
  return {
    ...reading,
    unit,
    smoothed: readings.smoothed(reading, smoothing),
    operating: { low: limit(limits?.low), high: limit(limits?.high) },
  };
}

/** Smoothed on the column's own digits, which is faster and gives the same; at the run's borders it shrinks as at a gap. */
function smoothedPressure(
  { time_s, gaps }: Timeline,
  reading: PressureReading,
  smoothing: Smoothing,
  run: Run | null,
): Float64Array {
  const rows = run ? run.pieces.flatMap(({ from, to }) => [from, to]) : [];
  const borders = rows
    .filter((row) => row > 0 && row < time_s.length)
    .map((row) => ({ start_s: at(time_s, row - 1), end_s: at(time_s, row) }));
  const all = [...gaps, ...borders].sort((a, b) => a.start_s - b.start_s);
  const { spare } = reading;
  reading.spare = null;
  return applyLine(smooth(time_s, reading.keptReading, smoothing, all, spare ?? undefined), reading.line);
}

/** Rows whose reading stood at the upper end of the gauge's range, where that end lies above a level. */
function rowsAbove(
  { range, line, flags, channel }: PressureReading,
  level: number,
): ((row: number) => boolean) | null {
  if (range === null || !(line.slope * range.high + line.offset > level)) return null;
  return (row) => flags[row] === SetAside.outOfRange && isAtUpperEnd(at(channel.values, row), range, 0);
}

function whyNoRun(reading: PressureReading): Unjudged {
  if (reading.level.sustained === null) return 'no-readings';
  return reading.pressured.length === 0 ? 'no-engagement' : 'no-run';
}

/** The spec's settling tolerance in the judged unit, else 2 % of the final value. */
function toleranceOf({ spec }: AnalysisInput, unit: Situation['unit'], run: Run): number {
  const { tolerance, unit: stated } = spec?.settling ?? {};
  if (tolerance !== undefined && stated !== undefined) return convertDifference(tolerance, stated, unit);
  return DEFAULT_TOLERANCE_SHARE * Math.abs(run.finalValue);
}

/** Why hand-made borders leave too little; null where they leave enough, or where there are none. */
function tooLittleHold(timeline: Timeline, run: Run, hold: Hold | Unjudged, choices: Choices): string | null {
  if (choices.lastBorder < 0) return null;
  const need_s = steadyTime_s(run);
  // A run that never got warm has no hold with or without a span left out; only moving a border of it makes no sense.
  if (hold === 'never-warm')
    return choices.holdStart_s === null && choices.holdEnd_s === null
      ? null
      : 'the oil never reached operating temperature, so there is no hold to move a border of';
  const left_s = typeof hold === 'string' ? 0 : span_s(timeline, hold.pieces);
  return left_s < need_s
    ? `it leaves ${Math.round(left_s)} s of the hold; at least ${Math.round(need_s)} s must be left`
    : null;
}
