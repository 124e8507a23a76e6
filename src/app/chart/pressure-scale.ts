import { multiples, roundStepAtLeast } from './round-steps.ts';

/** The low part of a folded scale is pressed into so many px. */
export const FOLD_PX = 28;
/** Nearer ticks with numbers would touch. */
const TICK_PX = 30;
/** The scale is folded where the band takes less than this share of it. */
const FOLD_BELOW = 0.25;
/** A single limit has no width to choose a window by: a twentieth of it takes the place of the band. */
const SHARE_OF_SINGLE_LIMIT = 0.05;

/** Share of the scale that readings may lie below zero without moving its foot. */
const BELOW_NOTHING = 0.02;

export interface PressureFacts {
  /** Limits; null on a side without. */
  low: number | null;
  high: number | null;
  /** Lowest and highest kept reading of the log. */
  lowest: number;
  highest: number;
  /** Lowest and highest smoothed pressure of the judged part; null without one. */
  judged: { lowest: number; highest: number } | null;
  /** The judged value; null without one. */
  value: number | null;
}

/** Pressure as a place on the paper: px from the foot of the pane, the fold pressed together, the rest linear. */
export interface PressureScale {
  size: number;
  /** Values of the folded part; null where nothing is folded. */
  fold: { from: number; to: number } | null;
  /** Whether folding would help. */
  foldable: boolean;
  /** Ends of what is shown at full scale. */
  bottom: number;
  top: number;
  ticks: { value: number; shown: number }[];
  /** Between two ticks, printed only. */
  halfTicks: number[];
  px: (value: number) => number;
  value: (px: number) => number;
}

/**
 * @param facts in the judged unit
 * @param factor judged unit to the unit for viewing: ticks are round in the latter
 * @param size of the pane in px
 * @param wanted whether the fold is wanted where it helps
 */
export function pressureScale(
  facts: PressureFacts,
  factor: number,
  size: number,
  wanted: boolean,
): PressureScale {
  const whole = wholeScale(facts, factor, size);
  const window = foldWindow(facts, factor, size, whole);
  const folded = wanted ? window : null;
  const { step, bottom, top } = folded ?? whole;
  const foot = folded === null ? 0 : FOLD_PX;
  const from = Math.min(0, whole.bottom);
  const perPx = (top - bottom) / (size - foot);
  const foldPerPx = folded === null ? perPx : (bottom - from) / FOLD_PX;
  const tick = (shown: number): { value: number; shown: number } => ({ value: shown / factor, shown });
  const ticks = multiples(step, bottom * factor, top * factor).map(tick);
  if (folded !== null) ticks.unshift(tick(Number((from * factor).toPrecision(12)) + 0));
  return {
    size,
    fold: folded === null ? null : { from, to: bottom },
    foldable: window !== null,
    bottom,
    top,
    ticks,
    halfTicks: multiples(step, bottom * factor + step / 2, top * factor)
      .map((shown) => (shown - step / 2) / factor)
      .filter((value) => value > bottom),
    px: (value) =>
      folded !== null && value < bottom ? (value - from) / foldPerPx : foot + (value - bottom) / perPx,
    value: (px) => (folded !== null && px < foot ? from + px * foldPerPx : bottom + (px - foot) * perPx),
  };
}

interface Window {
  bottom: number;
  top: number;
  /** Between labelled ticks, in the unit for viewing. */
  step: number;
}

/** Everything that was read, from zero (or below), and the limits. */
function wholeScale(facts: PressureFacts, factor: number, size: number): Window {
  const high = Math.max(facts.highest, facts.high ?? -Infinity, facts.low ?? -Infinity);
  // An idle gauge that trembles a little below nothing needs no room of its own.
  const low = facts.lowest < -BELOW_NOTHING * high ? facts.lowest : 0;
  return rounded(low, high > low ? high : low + 1, factor, size);
}

/** Widened to ticks that are round in the unit for viewing. */
function rounded(low: number, high: number, factor: number, size: number): Window {
  const step = roundStepAtLeast(((high - low) * factor * TICK_PX) / size);
  const bottom = Math.floor((low * factor) / step + 1e-6) * step,
    top = Math.ceil((high * factor) / step - 1e-6) * step;
  return {
    bottom: Number(bottom.toPrecision(12)) / factor,
    top: Number(top.toPrecision(12)) / factor,
    step,
  };
}

/**
 * What stays at full scale when the rest is folded: half a band beyond the far limit, one and a half beyond the limit nearer to the
 * reading, and all of the judged part. Null where the band is large enough without.
 */
function foldWindow(facts: PressureFacts, factor: number, size: number, whole: Window): Window | null {
  const band = bandOf(facts);
  if (band === null) return null;
  const { low, high } = band;
  const width = high - low,
    tall = whole.top - whole.bottom;
  if (!(width < FOLD_BELOW * tall)) return null;
  const above = facts.value !== null && Math.abs(facts.value - high) < Math.abs(facts.value - low);
  let bottom = low - (facts.value === null ? 1 : above ? 0.5 : 1.5) * width,
    top = high + (facts.value === null ? 1 : above ? 1.5 : 0.5) * width;
  if (facts.judged !== null) {
    bottom = Math.min(bottom, facts.judged.lowest);
    top = Math.max(top, facts.judged.highest);
  }
  const window = rounded(bottom, top, factor, size - FOLD_PX);
  // A fold that saves little, or reaches to zero, only costs.
  return window.bottom - whole.bottom < (1 - 2 * FOLD_BELOW) * tall ? null : window;
}

/** The band, or what stands for it where a side or both are missing. */
function bandOf({ low, high, judged }: PressureFacts): { low: number; high: number } | null {
  if (low !== null && high !== null) return { low, high };
  const single = low ?? high;
  if (single !== null) {
    const width = Math.abs(single) * SHARE_OF_SINGLE_LIMIT || 1;
    return low === null ? { low: single - width, high: single } : { low: single, high: single + width };
  }
  if (judged === null) return null;
  const middle = (judged.lowest + judged.highest) / 2;
  const half = Math.max(judged.highest - judged.lowest, Math.abs(middle) * SHARE_OF_SINGLE_LIMIT) / 2;
  return half > 0 ? { low: middle - half, high: middle + half } : null;
}
