import type { Series } from '#formats/series.ts';
import { levelsOf, type Level } from './blocks.ts';

/** Levels of what is drawn of a series, channel by channel. */
export interface SeriesLevels {
  pressure: { raw: Level[]; line: Level[] } | null;
  oil: { raw: Level[]; line: Level[] } | null;
  others: Level[][];
}

/** A series with the levels that its drawing needs, worked out where nobody waits for the page; without them the drawing works them out. */
export interface DrawnSeries extends Series {
  levels?: SeriesLevels;
}

/** The levels of every channel of a series. Cost: about two walks along each list. */
export function seriesLevels({ pressure, oil, others }: Series): SeriesLevels {
  const smoothed = (channel: NonNullable<Series['oil']>): SeriesLevels['oil'] => ({
    raw: levelsOf(channel.values, channel.flags),
    line: levelsOf(channel.smoothed, null),
  });
  return {
    pressure: pressure === null ? null : smoothed(pressure),
    oil: oil === null ? null : smoothed(oil),
    others: others.map(({ values, flags }) => levelsOf(values, flags)),
  };
}
