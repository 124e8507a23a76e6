import type { LoggedRun } from '#formats/assessment.ts';
import { SetAside, type Channel } from '#formats/log.ts';
import { mean } from '#statistics/mean.ts';
import { median } from '#statistics/median.ts';
import { keptValues } from './set-aside.ts';

/** One channel as the assessment and the inspection list it: counts of what was set aside, and the valid readings in short. */
export function loggedChannelOf(channel: Channel, flags: Uint8Array): LoggedRun['channels'][number] {
  const counts = new Uint32Array(Object.keys(SetAside).length);
  for (let i = 0; i < flags.length; i++) {
    const flag = flags[i] ?? 0;
    counts[flag] = (counts[flag] ?? 0) + 1;
  }
  const kept = keptValues(channel.values, flags);
  let min = Infinity,
    max = -Infinity;
  for (let i = 0; i < kept.length; i++) {
    const value = kept[i] ?? NaN;
    if (value < min) min = value;
    if (value > max) max = value;
  }
  const valid = counts[SetAside.kept] ?? 0;
  return {
    column: channel.column,
    role: channel.role,
    unit: channel.unit,
    unitFrom: channel.unitFrom,
    samples: flags.length,
    valid,
    missing: counts[SetAside.missing] ?? 0,
    faultTokens: counts[SetAside.faultToken] ?? 0,
    outOfRange: counts[SetAside.outOfRange] ?? 0,
    stuck: counts[SetAside.stuck] ?? 0,
    spikes: counts[SetAside.spike] ?? 0,
    min: valid === 0 ? null : min,
    max: valid === 0 ? null : max,
    mean: valid === 0 ? null : mean(kept),
    median: valid === 0 ? null : median(kept),
  };
}
