import { SetAside } from '#formats/log.ts';
import { hampel, type RowRange } from '#signal/hampel.ts';
import { eachMarked } from './marked-rows.ts';
import { keptValues } from './set-aside.ts';
import { at, GAP_INTERVALS, type Rows, type Timeline } from './timeline.ts';

/** A spike is at most so many readings in a row, and from its first to its last at most so long (common practice, no source). */
const LONGEST_READINGS = 3;
const LONGEST_s = 2;
/** Readings further apart show no stretch: one alone is a spike only between neighbours that agree. */
const SLOW_s = 10;
/** Neighbours agree within so many scales, as near as readings that are no spikes. */
const AGREE_SCALES = 6;
/** Where more than this share of the readings would be spikes, and more than so few, none is (common practice, no source). */
const MOST_SHARE = 0.02;
const FEW = 3;
/** The share is looked at over so long, and over so many readings, too: a swing of a few minutes is one in six hours. */
const BLOCK_s = 600;
const BLOCK_READINGS = 300;
/** Times are decimals that a double holds only nearly. */
const TIME_TOLERANCE = 1e-9;

/** Readings far from their neighbours that count all the same (definitions, "Readings set aside"). */
export interface PutBack {
  /** Stretches longer than a spike, their readings, and how long the longest lasts. */
  stretches: number;
  readings: number;
  longest_s: number;
  /** Readings in parts of the log where they are too many for spikes, and all readings of those parts. */
  many: number;
  among: number;
}

/** What spikes are looked for with. */
export interface SpikeSearch {
  timeline: Timeline;
  values: Float64Array;
  /** Least scale, in the column's unit. */
  floor: number;
  /** Rows where nothing is a spike. */
  protect?: readonly RowRange[];
  /** Stretches that are looked at by themselves for too many; in order. */
  pieces: readonly Rows[];
}

/**
 * Sets `spike` for short, rare readings far from their neighbours (Hampel identifier). A unit that really swings, or a noisy gauge,
 * has many or long ones: those are put back, and counted.
 * @param flags changed in place; readings set aside before are left
 */
export function flagSpikes(
  { timeline, values, floor, protect, pieces }: SpikeSearch,
  flags: Uint8Array,
): PutBack {
  const kept = keptValues(values, flags);
  const found = hampel(timeline.time_s, kept, {
    resolution: floor,
    gaps: timeline.gaps,
    protect: protect ?? [],
  });
  const result: PutBack = { stretches: 0, readings: 0, longest_s: 0, many: 0, among: 0 };
  if (!found.includes(1)) return result;
  const crowded = crowdedParts(timeline, kept, found, pieces);
  for (const { from, to } of crowded)
    for (let i = from; i < to; i++) {
      if (found[i] === 1) result.many++;
      if (!Number.isNaN(at(kept, i))) result.among++;
    }
  // A stretch is judged as a whole, whether a part that is crowded ends within it or not.
  putBackStretches(timeline, kept, found, floor, result, crowded);
  for (const { from, to } of crowded) found.fill(0, from, to);
  eachMarked(found, 0, found.length, (row) => (flags[row] = SetAside.spike));
  return result;
}

/** Parts where more would be spikes than spikes can be: the whole log, else stretches, else ten minutes of them; in order. */
function crowdedParts(
  timeline: Timeline,
  kept: Float64Array,
  found: Uint8Array,
  pieces: readonly Rows[],
): Rows[] {
  const whole = { from: 0, to: kept.length };
  if (isCrowded(kept, found, whole)) return [whole];
  const parts: Rows[] = [];
  const rows = Math.max(
    BLOCK_READINGS,
    timeline.medianInterval_s > 0 ? BLOCK_s / timeline.medianInterval_s : 0,
  );
  for (const piece of pieces) {
    if (isCrowded(kept, found, piece)) {
      parts.push(piece);
      continue;
    }
    const length = piece.to - piece.from,
      blocks = Math.max(1, Math.floor(length / rows));
    if (blocks === 1) continue;
    for (let k = 0; k < blocks; k++) {
      const block = {
        from: piece.from + Math.floor((k * length) / blocks),
        to: piece.from + Math.floor(((k + 1) * length) / blocks),
      };
      if (isCrowded(kept, found, block)) parts.push(block);
    }
  }
  return parts;
}

function isCrowded(kept: Float64Array, found: Uint8Array, { from, to }: Rows): boolean {
  let spikes = 0;
  eachMarked(found, from, to, () => spikes++);
  if (spikes <= FEW) return false;
  // As a rule so many readings as make them few are soon counted.
  let readings = 0;
  for (let i = from; i < to; i++) {
    const value = kept[i] ?? NaN;
    if (value === value && spikes <= MOST_SHARE * ++readings) return false;
  }
  return spikes > MOST_SHARE * readings;
}

/** Takes the mark from stretches that are no spikes; those outside of the crowded parts are counted. */
function putBackStretches(
  { time_s, medianInterval_s }: Timeline,
  kept: Float64Array,
  found: Uint8Array,
  floor: number,
  result: PutBack,
  crowded: readonly Rows[],
): void {
  const gap_s = GAP_INTERVALS * medianInterval_s;
  let behind = 0,
    part = 0;
  eachMarked(found, 0, found.length, (from) => {
    // Within a stretch that was looked at already, or no reading.
    if (from < behind || kept[from] !== kept[from]) return;
    // A reading that was put back is a neighbour like any other.
    let before = from - 1;
    while (before >= 0 && (kept[before] !== kept[before] || found[before] === 1)) before--;
    let last = from,
      readings = 1,
      next = from + 1;
    for (; next < found.length; next++) {
      if (kept[next] !== kept[next]) continue;
      if (found[next] !== 1 || at(time_s, next) - at(time_s, last) >= gap_s) break;
      last = next;
      readings++;
    }
    const lasted_s = at(time_s, last) - at(time_s, from);
    const long = readings > LONGEST_READINGS || (readings > 1 && lasted_s > LONGEST_s * (1 + TIME_TOLERANCE));
    const apart_s = Math.max(
      before < 0 ? 0 : at(time_s, from) - at(time_s, before),
      next < found.length ? at(time_s, next) - at(time_s, last) : 0,
    );
    const alone =
      apart_s > SLOW_s * (1 + TIME_TOLERANCE) &&
      !(
        before >= 0 &&
        next < found.length &&
        found[next] !== 1 &&
        Math.abs(at(kept, before) - at(kept, next)) <= AGREE_SCALES * floor
      );
    if (long || alone) {
      while (part < crowded.length && (crowded[part]?.to ?? 0) <= from) part++;
      if (long && !(part < crowded.length && (crowded[part]?.from ?? 0) <= from)) {
        result.stretches++;
        result.readings += readings;
        result.longest_s = Math.max(result.longest_s, lasted_s);
      }
      found.fill(0, from, last + 1);
    }
    behind = last + 1;
  });
}
