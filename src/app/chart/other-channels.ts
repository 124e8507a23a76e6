import { roleWords } from '#app/role-words.ts';
import type { DrawnSeries, SeriesLevels } from '#drawing/drawn-series.ts';
import { fixedText, unitLabel, withUnit } from '#app/shown-numbers.ts';
import { extentOf, type Blocks, type Extent } from '#drawing/blocks.ts';
import { multiples, roundStepAtLeast } from './round-steps.ts';

/** A channel besides pressure and oil: its readings as they are, nothing is judged by drawing them. */
export interface OtherChannel {
  name: string;
  unit: string;
  raw: Blocks;
  extent: Extent;
}

/** A pane under the oil with its own scale, in px from the plot's foot. */
export interface OtherPane {
  from: number;
  size: number;
  channel: OtherChannel;
  ticks: number[];
  px: (value: number) => number;
}

const PANE_PX = 58,
  BETWEEN_PX = 12,
  TICK_PX = 22;
/** What the panes of so many channels take below the oil. */
export const otherPanesPx = (count: number): number => count * (PANE_PX + BETWEEN_PX);

/** The channels that hold a reading, in the order of the log. */
export function otherChannels({ others }: DrawnSeries, levels: SeriesLevels): OtherChannel[] {
  return others.flatMap(({ column, role, unit, values, flags }, index) => {
    if (role === 'ignored') return [];
    const raw: Blocks = { values, flags, levels: levels.others[index] ?? [] };
    const extent: Extent = { lowest: 0, highest: 0 };
    if (!extentOf(raw, 0, values.length, extent)) return [];
    const name = role === null ? column : roleWords[role];
    return [{ name, unit: unit === null ? '' : unitLabel(unit), raw, extent }];
  });
}

/** Panes from the foot up: the first channel stands highest. */
export function otherPanes(channels: readonly OtherChannel[]): OtherPane[] {
  return channels.map((channel, index) => {
    const from = otherPanesPx(channels.length - 1 - index);
    const { lowest, highest } = channel.extent;
    const room = Math.max((highest - lowest) * 0.1, Math.abs(highest) * 0.01, 1e-9);
    const low = lowest - room,
      high = highest + room;
    const perPx = (high - low) / PANE_PX;
    const step = roundStepAtLeast(perPx * TICK_PX);
    return {
      from,
      size: PANE_PX,
      channel,
      ticks: multiples(step, low, high),
      px: (value) => from + (value - low) / perPx,
    };
  });
}

/** Decimals that a channel's readings are shown with: a thousandth of their range. */
export function otherDecimals({ extent }: OtherChannel): number {
  const range = extent.highest - extent.lowest || Math.abs(extent.highest) || 1;
  return Math.max(0, Math.min(4, Math.ceil(2 - Math.log10(range))));
}

/** "shaft speed 1000 rpm" at a row; null where nothing counts there. */
export function otherWords(channel: OtherChannel, row: number): string | null {
  const { raw, name, unit } = channel;
  if (raw.flags !== null && raw.flags[row] !== 0) return null;
  const value = raw.values[row] ?? NaN;
  if (Number.isNaN(value)) return null;
  return `${name} ${withUnit(fixedText(value, otherDecimals(channel)), unit)}`;
}
