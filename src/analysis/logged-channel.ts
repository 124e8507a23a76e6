import type { LoggedRun } from '#formats/assessment.ts';
import { SetAside, type Channel } from '#formats/log.ts';
import { levelCounts, levelsOf } from '#signal/levels.ts';
import { mean } from '#statistics/mean.ts';
import { median } from '#statistics/median.ts';
import { medianOfCounts, readingAt } from './grid-median.ts';
import { eachMarked } from './marked-rows.ts';
import { keptValues } from './set-aside.ts';

/** One channel as the assessment and the inspection list it: counts of what was set aside, and the valid readings in short. */
export function loggedChannelOf(channel: Channel, flags: Uint8Array): LoggedRun['channels'][number] {
  const counts = new Uint32Array(Object.keys(SetAside).length);
  let marked = 0;
  eachMarked(flags, 0, flags.length, (row) => {
    const flag = flags[row] ?? 0;
    counts[flag] = (counts[flag] ?? 0) + 1;
    marked++;
  });
  const valid = flags.length - marked;
  return {
    column: channel.column,
    role: channel.role,
    unit: channel.unit,
    unitFrom: channel.unitFrom,
    samples: flags.length,
    valid,
    missing: counts[SetAside.missing] ?? 0,
    faultTokens: counts[SetAside.faultToken] ?? 0,
    ...(channel.faultTokens.length > 0 ? { tokens: mostFrequent(channel.faultTokens) } : {}),
    outOfRange: counts[SetAside.outOfRange] ?? 0,
    stuck: counts[SetAside.stuck] ?? 0,
    spikes: counts[SetAside.spike] ?? 0,
    ...(valid === 0 ? { min: null, max: null, mean: null, median: null } : inShort(channel.values, flags)),
  };
}

/** Texts that are listed. */
const TOKENS_LISTED = 10;
const mostFrequent = (tokens: Channel['faultTokens']): Channel['faultTokens'] =>
  tokens.toSorted((a, b) => b.count - a.count).slice(0, TOKENS_LISTED);

interface InShort {
  min: number;
  max: number;
  mean: number;
  median: number;
}

/** The kept readings of a column, of which there are some, in short. */
function inShort(values: Float64Array, flags: Uint8Array): InShort {
  const levels = levelsOf(values),
    all = levelCounts(values);
  if (levels === null || all === null) {
    const kept = keptValues(values, flags);
    return { ...ends(kept), mean: mean(kept), median: median(kept) };
  }
  // On a grid the counts tell: those of the whole column, less what was set aside.
  const counts = all.slice();
  eachMarked(flags, 0, flags.length, (row) => {
    const value = values[row] ?? NaN;
    if (value !== value) return;
    const level = levels.levelOf(value);
    counts[level] = (counts[level] ?? 0) - 1;
  });
  const readings = counts.reduce((sum, count) => sum + count, 0);
  return {
    min: readingAt(levels, counts, 0),
    max: readingAt(levels, counts, readings - 1),
    mean: mean(values, flags),
    median: medianOfCounts(levels, counts, readings),
  };
}

function ends(values: Float64Array): { min: number; max: number } {
  let min = Infinity,
    max = -Infinity;
  for (let i = 0; i < values.length; i++) {
    const value = values[i] ?? NaN;
    if (value < min) min = value;
    if (value > max) max = value;
  }
  return { min, max };
}
