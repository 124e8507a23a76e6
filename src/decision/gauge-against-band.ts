import { rounded } from '#formats/number.ts';
import { pressureFactor, type PressureUnit } from '#units/pressure.ts';
import { passZone, type Limits } from './rule.ts';

/** A gauge as its dial and data sheet say it. */
export interface GaugeStatement {
  range: { low: number; high: number; unit: PressureUnit };
  /** Limits of error as ± per cent of the span, taken as a rectangular distribution. */
  accuracyPercentOfSpan: number;
}

/** What a gauge leaves of a band. All pressures in `unit`, the band's. */
export interface GaugeAgainstBand {
  unit: PressureUnit;
  /** U of the gauge alone, k = 2. */
  expandedUncertainty: number;
  /** Ends of what still passes under the guarded rule; null for an open side, both null where nothing can pass. */
  passFrom: number | null;
  passTo: number | null;
  canPass: boolean;
  /** Width of what is left, null for a one-sided band. */
  room: number | null;
  /** The coarsest class of accuracy over the same range that leaves half of the band or more; null for a one-sided band, for a range that ends below the band's end, or where none does. */
  classThatWouldDo: number | null;
}

/**
 * Accuracy classes of pressure gauges, ± per cent of span, coarsest first. Source: EN 837-1:1996, Table 11, read in a transcription of
 * the text; 0.05 is not of that table but common for reference gauges (common practice, no source).
 */
export const accuracyClasses = [4, 2.5, 1.6, 1, 0.6, 0.25, 0.1, 0.05] as const;

/** Share of a band that a gauge should leave for a pass before it is called good enough; our choice, no source. */
export const ROOM_WANTED = 0.5;

/** Half-width of a rectangular distribution whose expanded uncertainty (k = 2) is U: a = U·√3/2 (JCGM 100:2008, Eq. 7). */
export const halfWidthFor = (expanded: number): number => (expanded * Math.sqrt(3)) / 2;

/** Expanded uncertainty, k = 2, of an error known to lie within ± a: 2a/√3 (JCGM 100:2008, Eq. 7). */
export const expandedFrom = (halfWidth: number): number => (2 * halfWidth) / Math.sqrt(3);

/** The coarsest class whose error over a span stays within a half-width; null where even the finest is too coarse. */
export function classWithin(halfWidth: number, span: number): number | null {
  return accuracyClasses.find((percent) => rounded((percent / 100) * span) <= rounded(halfWidth)) ?? null;
}

/**
 * What is left of a band for a pass when a gauge reads it, before any run: U = 2·a/√3, pass from L + gU to H − gU.
 * @param guardFactor g of the spec, 1 unless it says otherwise
 * @example a gauge of 0 to 500 psi, 1 % of span, against 400 to 420 psi: U 5.77, passes from 405.77 to 414.23
 */
export function gaugeAgainstBand(
  gauge: GaugeStatement,
  band: Limits & { unit: PressureUnit },
  guardFactor = 1,
): GaugeAgainstBand {
  const factor = pressureFactor(gauge.range.unit, band.unit);
  const span = (gauge.range.high - gauge.range.low) * factor;
  const expanded = rounded(expandedFrom((gauge.accuracyPercentOfSpan / 100) * span));
  const zone = passZone(band, rounded(guardFactor * expanded));
  // A reading at or beyond an end of the range is none: what the gauge cannot show cannot pass.
  const bottom = rounded(gauge.range.low * factor),
    top = rounded(gauge.range.high * factor);
  const from = zone.low === null ? null : Math.max(zone.low, bottom),
    to = zone.high === null ? null : Math.min(zone.high, top);
  const canPass = !zone.empty && !(from !== null && from >= top) && !(to !== null && to <= bottom);
  const width = band.low === null || band.high === null ? null : band.high - band.low;
  const reaches = band.high === null ? top > (band.low ?? bottom) : top >= band.high;
  return {
    unit: band.unit,
    expandedUncertainty: expanded,
    passFrom: canPass ? from : null,
    passTo: canPass ? to : null,
    canPass,
    room: width === null ? null : canPass && from !== null && to !== null ? rounded(to - from) : 0,
    classThatWouldDo:
      width === null || !reaches
        ? null
        : classWithin(halfWidthFor(((1 - ROOM_WANTED) * width) / (2 * guardFactor)), span),
  };
}
