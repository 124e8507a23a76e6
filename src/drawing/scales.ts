/**
 * Scales of the printed chart. All are whole: so many units to a millimetre, so many millimetres to an hour. They hang on the limits,
 * not on the readings, so that two records of one spec can be laid over each other and held against a rule.
 */

/** 1, 2, 5 times a power of ten, rising, each as its own literal so that no multiplication adds a last bit. */
const roundSteps: readonly number[] = Array.from({ length: 14 }, (_, index) => index - 5).flatMap((power) =>
  [1, 2, 5].map((digit) => Number(`${digit}e${power}`)),
);
const LARGEST_STEP = 5e8;

/** Smallest round step (1, 2, 5 × 10ⁿ) of at least this size. */
export function roundStepAtLeast(size: number): number {
  return roundSteps.find((step) => step >= size) ?? LARGEST_STEP;
}

/** The large pane is 50 tall whatever it shows. */
export const PANE_HEIGHT = 50;
/** The band takes at most half of it, so that there is as much room outside as inside. */
const BAND_AT_MOST = 25;
/** A single limit stands so far from the edge of what it forbids. */
const FORBIDDEN_PART = 15;
/** A single limit has no width to choose a scale by: a twentieth of it takes the place of the band. */
const SHARE_OF_SINGLE_LIMIT = 0.05;

/** A scale of whole units to the millimetre, with its figures and grid. */
export interface PaneScale {
  /** Units to one millimetre. */
  perMillimetre: number;
  bottom: number;
  top: number;
}

/**
 * Scale of the large pane.
 * @param band limits in the judged unit; null: none on that side
 * @param average judged average, which must lie in the pane, or null
 * @param held lowest and highest smoothed pressure of the hold (of the run without one), for a chart without a band; null when there is none
 */
export function paneScale(
  band: { low: number | null; high: number | null },
  average: number | null,
  held: { min: number; max: number } | null,
): PaneScale {
  const { low, high } = band;
  const single = low ?? high;
  if (single === null) return fittedPane(held ?? { min: 0, max: 1 });
  const tall = low !== null && high !== null ? high - low : Math.abs(single) * SHARE_OF_SINGLE_LIMIT;
  let perMillimetre = roundStepAtLeast(tall / BAND_AT_MOST);
  for (;;) {
    const pane = paneAt(perMillimetre, low, high);
    if (average === null || (average >= pane.bottom && average <= pane.top) || perMillimetre >= LARGEST_STEP)
      return pane;
    // Far below the band: as soon as zero, average and band fit into one pane, it may as well start at zero.
    const fromZero = { perMillimetre, bottom: 0, top: PANE_HEIGHT * perMillimetre };
    if (average >= 0 && average < pane.bottom && Math.max(single, high ?? single) <= fromZero.top * 0.9)
      return fromZero;
    perMillimetre = roundStepAtLeast(perMillimetre * 1.5);
  }
}

function paneAt(perMillimetre: number, low: number | null, high: number | null): PaneScale {
  const half = (PANE_HEIGHT / 2) * perMillimetre;
  const middle =
    low !== null && high !== null
      ? (low + high) / 2
      : high !== null
        ? high + FORBIDDEN_PART * perMillimetre - half
        : (low ?? 0) - FORBIDDEN_PART * perMillimetre + half;
  // The edges lie on whole millimetres of the scale, and a pane of gauge pressure has no use for room below zero.
  const edge = Math.round((middle - half) / perMillimetre);
  const bottom = Number((edge * perMillimetre).toPrecision(12));
  const from = bottom < 0 && (low ?? high ?? 0) >= 0 ? 0 : bottom;
  return { perMillimetre, bottom: from, top: Number((from + 2 * half).toPrecision(12)) };
}

/** Without limits: the hold's range and a fifth more on either side. */
function fittedPane(held: { min: number; max: number }): PaneScale {
  const range = held.max - held.min || Math.abs(held.max) * SHARE_OF_SINGLE_LIMIT || 1;
  const perMillimetre = roundStepAtLeast((range * 1.4) / PANE_HEIGHT);
  const figure = perMillimetre * 5;
  const middle = Math.round((held.min + held.max) / 2 / figure) * figure;
  return { perMillimetre, bottom: middle - 25 * perMillimetre, top: middle + 25 * perMillimetre };
}

/** Steps of the whole-run strip: as above, with 2.5 and 4 so that it is not left half empty. */
const stripSteps: readonly number[] = Array.from({ length: 12 }, (_, index) => index - 4).flatMap((power) =>
  [1, 2, 2.5, 4, 5].map((digit) => Number(`${digit}e${power}`)),
);
/** Units a millimetre at which zero to the highest reading fits the strip. @param height of the strip, 20 or 10 */
export function stripScale(highest: number, height: number): number {
  return stripSteps.find((step) => step * height >= highest) ?? LARGEST_STEP;
}

/** Whole scales of the time axis, millimetres an hour, coarser ones last. Up to 60 for a run of hours, above it for tests of minutes and seconds. */
const timeScales = [
  36000, 18000, 7200, 3600, 1800, 1200, 600, 480, 360, 240, 180, 120, 90, 60, 40, 30, 25, 20, 15, 12, 10, 8,
  6, 5, 4, 3, 2, 1, 0.5, 0.2, 0.1, 0.05, 0.02, 0.01,
] as const;

/** Largest scale at which so many hours fit a width. */
export function timeScale(hours: number, width: number): number {
  return timeScales.find((scale) => hours * scale <= width) ?? 0.01;
}

/** Graduation of the hour rule: seconds between short, middle and long ticks and between figures, and the unit of the figures. */
export interface Graduation {
  short_s: number;
  middle_s: number;
  long_s: number;
  figure_s: number;
  unit: 's' | 'min' | 'h';
}
/** Rows from fine to coarse: holds from so many millimetres an hour. Six hours at 20 mm: 10 min, 30 min, 1 h. */
const graduations: readonly (readonly [number, Graduation])[] = [
  [18000, { short_s: 0.2, middle_s: 1, long_s: 2, figure_s: 2, unit: 's' }],
  [7200, { short_s: 1, middle_s: 5, long_s: 10, figure_s: 5, unit: 's' }],
  [3600, { short_s: 1, middle_s: 5, long_s: 10, figure_s: 10, unit: 's' }],
  [1200, { short_s: 5, middle_s: 30, long_s: 60, figure_s: 60, unit: 'min' }],
  [480, { short_s: 10, middle_s: 30, long_s: 60, figure_s: 120, unit: 'min' }],
  [180, { short_s: 60, middle_s: 300, long_s: 600, figure_s: 300, unit: 'min' }],
  [90, { short_s: 60, middle_s: 300, long_s: 600, figure_s: 600, unit: 'min' }],
  [12, { short_s: 600, middle_s: 1800, long_s: 3600, figure_s: 3600, unit: 'h' }],
  [5, { short_s: 1800, middle_s: 3600, long_s: 7200, figure_s: 7200, unit: 'h' }],
  [2, { short_s: 3600, middle_s: 14400, long_s: 28800, figure_s: 28800, unit: 'h' }],
  [0.5, { short_s: 14400, middle_s: 43200, long_s: 86400, figure_s: 86400, unit: 'h' }],
  [0.1, { short_s: 86400, middle_s: 432000, long_s: 432000, figure_s: 864000, unit: 'h' }],
];
const COARSEST: Graduation = {
  short_s: 864000,
  middle_s: 864000,
  long_s: 8640000,
  figure_s: 8640000,
  unit: 'h',
};
/** Ticks of the hour rule for a time scale of so many millimetres an hour. */
export function graduation(perHour: number): Graduation {
  return graduations.find(([from]) => perHour >= from)?.[1] ?? COARSEST;
}

/** Oil pane: 16 mm, 5 °C (10 °F) a millimetre from zero, coarser or lower where the readings ask for it. */
export const OIL_HEIGHT = 16;
/** Scale of the oil pane, in degrees to the millimetre. */
export function oilScale(min: number, max: number, unit: string): PaneScale {
  const usual = unit === 'degF' ? 10 : 5;
  for (let perMillimetre = usual; ; perMillimetre *= 2) {
    const figure = perMillimetre * 4;
    const bottom = unit === 'K' || min < 0 ? Math.floor(min / figure) * figure : 0;
    const top = bottom + OIL_HEIGHT * perMillimetre;
    if (max <= top || perMillimetre > 1e6) return { perMillimetre, bottom, top };
  }
}
