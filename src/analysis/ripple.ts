import type { Quantities } from '#formats/assessment.ts';
import { welch } from '#signal/welch.ts';
import { windowSpans } from '#signal/window-spans.ts';
import { log } from '#statistics/elementary.ts';
import { median } from '#statistics/median.ts';
import { convert, type UnitName } from '#units/unit.ts';
import { weightedMean } from './pieces.ts';
import type { Situation } from './situation.ts';
import { at, type Rows } from './timeline.ts';
import { whyNoHold, type JudgedOrNot } from './why-not.ts';

/** Ripple needs so many samples a second (definitions, "Quantities"). */
const RATE_NEEDED_Hz = 20;
/** Sampling clocks are not exact. */
const RATE_TOLERANCE = 0.99;
const WINDOW_s = 1;
/** A window counts with at least half of its readings. */
const WINDOW_SHARE = 0.5;
/** Frequency and order only where the rate exceeds so many times the shaft's turns a second. */
const ALIAS_FACTOR = 2.5;
/** Segments of about so long, and at most so many samples of the hold, for the spectrum. */
const SEGMENT_s = 8;
const SPECTRUM_SAMPLES = 262_144;
/** Below this lies hunting and noise that is red, no ripple. */
const LOWEST_Hz = 0.5;
/** A line counts where its density is so many times the middle one. */
const LINE_FACTOR = 10;

/** What ripple is found from. */
export type RippleSource = Pick<Situation, 'hold' | 'timeline' | 'unit'> &
  JudgedOrNot & {
    reading: { kept: Float64Array };
    speed: { channel: { unit: UnitName | null }; kept: Float64Array } | null;
  };

/** Ripple, and whether its frequency may be an alias because no shaft speed is known. */
export interface RippleFound {
  ripple: Quantities['ripple'];
  mayBeAliased: boolean;
}

/** Ripple over the hold: median peak-to-peak within windows of 1 s; its frequency by Welch's spectrum, its order by the shaft. */
export function rippleOf(situation: RippleSource): RippleFound {
  const { hold, timeline, reading, unit, speed } = situation;
  const none = (reason: string): RippleFound => ({
    ripple: { peakToPeak: null, unit, frequency_Hz: null, order: null, reason },
    mayBeAliased: false,
  });
  const rate_Hz = 1 / timeline.medianInterval_s;
  if (!(rate_Hz >= RATE_NEEDED_Hz * RATE_TOLERANCE))
    return none(
      `sampled every ${Number(timeline.medianInterval_s.toPrecision(3))} s; ripple needs ${RATE_NEEDED_Hz} samples a second`,
    );
  if (!hold) return none(whyNoHold(situation) ?? 'there is no hold');
  const spans = windowSpans({
    time_s: timeline.time_s,
    values: reading.kept,
    pieces: hold.pieces,
    window_s: WINDOW_s,
    fewest: WINDOW_SHARE * WINDOW_s * rate_Hz,
  });
  if (spans.length === 0) return none('the hold has no second with enough readings');
  const peakToPeak = median(spans);
  const shaft = speed && shaftTurns_Hz(situation);
  if (shaft !== null && !(rate_Hz > ALIAS_FACTOR * shaft))
    return {
      ripple: {
        peakToPeak,
        unit,
        frequency_Hz: null,
        order: null,
        reason: `sampled ${Math.round(rate_Hz)} times a second with the shaft at ${Number(shaft.toPrecision(3))} turns a second: a frequency would be an alias`,
      },
      mayBeAliased: false,
    };
  const frequency_Hz = lineFrequency_Hz(reading.kept, hold.pieces, rate_Hz);
  if (frequency_Hz === null)
    return {
      ripple: { peakToPeak, unit, frequency_Hz, order: null, reason: 'no frequency stands out of the noise' },
      mayBeAliased: false,
    };
  if (shaft === null)
    return {
      ripple: { peakToPeak, unit, frequency_Hz, order: null, reason: 'the log has no shaft speed' },
      mayBeAliased: true,
    };
  return { ripple: { peakToPeak, unit, frequency_Hz, order: frequency_Hz / shaft }, mayBeAliased: false };
}

/** Mean turns of the shaft a second over the hold; null where it is not known. */
function shaftTurns_Hz({ speed, hold, timeline }: RippleSource): number | null {
  const unit = speed?.channel.unit;
  if (!speed || !hold || (unit !== 'rpm' && unit !== 'Hz')) return null;
  const mean = weightedMean(timeline, speed.kept, hold.pieces)?.mean ?? 0;
  return mean > 0 ? convert(mean, unit, 'Hz') : null;
}

/** Frequency of the strongest line of the hold's longest piece; null where none stands out. */
function lineFrequency_Hz(kept: Float64Array, pieces: readonly Rows[], rate_Hz: number): number | null {
  const longest = pieces.reduce((a, b) => (b.to - b.from > a.to - a.from ? b : a));
  const from = Math.max(longest.from, longest.to - SPECTRUM_SAMPLES);
  let segment = 4;
  while (2 * segment <= SEGMENT_s * rate_Hz && 4 * segment <= longest.to - from) segment *= 2;
  const spectrum = welch(kept.subarray(from, longest.to), rate_Hz, segment);
  if (!spectrum) return null;
  const { density, frequency_Hz } = spectrum;
  let best = 0;
  for (let k = 1; k < density.length - 1; k++)
    if (at(frequency_Hz, k) >= LOWEST_Hz && at(density, k) > (best === 0 ? -1 : at(density, best))) best = k;
  if (best === 0 || !(at(density, best) >= LINE_FACTOR * median(density.subarray(1)))) return null;
  // A parabola through the logarithms of three bins: the peak of a Hann-windowed line, to a small part of a bin.
  const [a, b, c] = [log(at(density, best - 1)), log(at(density, best)), log(at(density, best + 1))];
  const curve = a - 2 * b + c;
  const shift = curve < 0 ? (0.5 * (a - c)) / curve : 0;
  return ((best + shift) * rate_Hz) / segment;
}
