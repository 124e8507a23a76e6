import { seriesLevels, type DrawnSeries } from '#drawing/drawn-series.ts';
import type { Series, SeriesChannel } from '#formats/series.ts';

/**
 * A copy whose arrays can be handed over: a series shares arrays with the log it came from, and an array that is handed over is
 * gone here, where the record and the next judging still need it. With it goes what its drawing needs: on the page's own thread a long
 * log would take a hundred milliseconds for that.
 */
export function seriesToPost(series: Series): { series: DrawnSeries; transfer: ArrayBuffer[] } {
  const transfer: ArrayBuffer[] = [];
  const handed = <T extends Float64Array | Uint8Array>(array: T): T => {
    const copy = array.slice() as T;
    transfer.push(copy.buffer as ArrayBuffer);
    return copy;
  };
  const channel = <C extends SeriesChannel>(from: C): C => ({
    ...from,
    values: handed(from.values),
    flags: handed(from.flags),
  });
  const levels = seriesLevels(series);
  for (const each of [levels.pressure, levels.oil]
    .flatMap((of) => (of === null ? [] : [of.raw, of.line]))
    .concat(levels.others))
    for (const { lowest, highest } of each)
      transfer.push(lowest.buffer as ArrayBuffer, highest.buffer as ArrayBuffer);
  const copy: DrawnSeries = {
    ...series,
    time_s: handed(series.time_s),
    pressure:
      series.pressure === null
        ? null
        : { ...channel(series.pressure), smoothed: handed(series.pressure.smoothed) },
    oil: series.oil === null ? null : { ...channel(series.oil), smoothed: handed(series.oil.smoothed) },
    others: series.others.map(channel),
    levels,
  };
  return { series: copy, transfer };
}
