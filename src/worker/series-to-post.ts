import type { Series, SeriesChannel } from '#formats/series.ts';

/**
 * A copy whose arrays can be handed over: a series shares arrays with the log it came from, and an array that is handed over is
 * gone here, where the record and the next judging still need it.
 */
export function seriesToPost(series: Series): { series: Series; transfer: ArrayBuffer[] } {
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
  const copy: Series = {
    ...series,
    time_s: handed(series.time_s),
    pressure:
      series.pressure === null
        ? null
        : { ...channel(series.pressure), smoothed: handed(series.pressure.smoothed) },
    oil: series.oil === null ? null : { ...channel(series.oil), smoothed: handed(series.oil.smoothed) },
    others: series.others.map(channel),
  };
  return { series: copy, transfer };
}
