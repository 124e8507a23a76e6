import { convertDifference } from '#units/unit.ts';
import { pressureParts } from './hold-quantities.ts';
import { rangeOf, rigChannelOf } from './judged-pressure.ts';
import type { Found } from './quantities.ts';
import { wordsFor } from './remark-text.ts';
import type { Situation } from './situation.ts';
import { bandShares, type Band } from './time-in-band.ts';
import { combinedTypeB, isStated, typeBParts } from './type-b.ts';

/** What the rig says of one channel's trueness; UB is twice the combined Type B standard uncertainty. */
export interface ChannelTrueness {
  stated: boolean;
  typeBExpanded: number | null;
}

/** What a decision needs and only the readings and the rig can tell; plain data. */
export interface AnalysisFacts {
  pressure: ChannelTrueness;
  typeBAtPeak: number | null;
  typeBAtReleased: number | null;
  oilTemperature: ChannelTrueness;
  solenoidCurrent: ChannelTrueness;
  shareInNarrowedBand: number | null;
  shareInWidenedBand: number | null;
  runSpan_s: number | null;
  /** Valid readings of the hold, and the time that they stand for. */
  holdReadings: number;
  holdRecorded_s: number;
  gaugeRange: { low: number; high: number } | null;
  /** Why the operating pressure may not pass, whatever its mean: the pressure was lost. */
  pressureLost: string | null;
}

/** UB is twice the standard uncertainty, as for infinite degrees of freedom (definitions, "Decisions"). */
const EXPANDED = 2;

/** Works the facts out. */
export function factsOf(situation: Situation, { quantities, mean }: Found): AnalysisFacts {
  const { reading, band, run, hold, timeline, smoothed, input, oil, current } = situation;
  const middle = band === null ? 0 : 0.5 * ((band.low ?? band.high ?? 0) + (band.high ?? band.low ?? 0));
  const atLevel = (level: number): number | null => {
    const parts = pressureParts(situation, level);
    return parts.length === 0 ? null : EXPANDED * combinedTypeB(parts);
  };
  const typeB = atLevel(quantities.operatingPressure.value ?? middle);
  const guard = typeB === null ? null : (input.spec?.guardFactor ?? 1) * typeB;
  const moved = ({ low, high }: Band, by: number): Band => ({
    low: low === null ? null : low - by,
    high: high === null ? null : high + by,
  });
  const share = (by: number): number | null => {
    if (!hold || band === null) return null;
    const limits = moved(band, by);
    if (limits.low !== null && limits.high !== null && limits.low > limits.high) return 0;
    return bandShares(timeline, hold, smoothed, limits)?.inside ?? null;
  };
  const range = rangeOf(reading.rigChannel);
  const { line } = reading;
  const { peakPressure, releasedPressure, holdTemperature, solenoidCurrent } = quantities;
  return {
    pressure: { stated: isStated(reading.rigChannel), typeBExpanded: typeB },
    typeBAtPeak: peakPressure.value === null ? typeB : atLevel(peakPressure.value),
    typeBAtReleased: releasedPressure.value === null ? typeB : atLevel(releasedPressure.value),
    oilTemperature: channelTrueness(
      situation,
      oil?.channel.column ?? null,
      holdTemperature.mean,
      holdTemperature.unit,
    ),
    solenoidCurrent: channelTrueness(
      situation,
      current?.channel.column ?? null,
      solenoidCurrent.max,
      solenoidCurrent.unit,
    ),
    shareInNarrowedBand: guard === null ? null : share(-guard),
    shareInWidenedBand: guard === null ? null : share(guard),
    runSpan_s: run === null ? null : run.end_s - run.start_s,
    holdReadings: mean?.readings ?? 0,
    holdRecorded_s: mean?.recorded_s ?? 0,
    gaugeRange: range && {
      low: line.slope * range.low + line.offset,
      high: line.slope * range.high + line.offset,
    },
    pressureLost: pressureLost(situation),
  };
}

function pressureLost(situation: Situation): string | null {
  const { lost, run } = situation;
  const { duration, pressure } = wordsFor(situation);
  if (lost)
    return `the pressure ${lost.kind === 'stays-up' ? 'fell' : 'was lost'} from ${duration(lost.from_s)} on (${pressure(lost.level)}), and no release is logged: a mean does not pass that`;
  return run?.gaveWay === true
    ? 'the pressure gave way before the run ended and did not come back: a mean does not pass that'
    : null;
}

/** Trueness of a channel that is judged in its own unit, or in one of the same kind. */
function channelTrueness(
  { input }: Situation,
  column: string | null,
  level: number | null,
  unit: Parameters<typeof convertDifference>[2],
): ChannelTrueness {
  const rigChannel = column === null ? null : rigChannelOf(input.rig, column);
  const channel = input.log.channels.find((candidate) => candidate.column === column);
  if (!channel?.unit) return { stated: false, typeBExpanded: null };
  const parts = typeBParts({
    rigChannel,
    range: rangeOf(rigChannel),
    resolution: rigChannel?.resolution ?? null,
    reading: level ?? 0,
    factor: convertDifference(1, channel.unit, unit) * (rigChannel?.correction?.slope ?? 1),
  });
  return {
    stated: isStated(rigChannel),
    typeBExpanded: parts.length === 0 ? null : EXPANDED * combinedTypeB(parts),
  };
}
