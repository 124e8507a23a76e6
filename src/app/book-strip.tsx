import { memo, useEffect, useId } from 'react';
import type { BookRun } from '#formats/book.ts';
import { useAround } from './habits.ts';

/** The full width of a line's strip is a run of so many hours, so that long and short runs are told apart. */
const FULL_S = 6.2 * 3600;
const WIDTH = 562,
  PEN_HEIGHT = 52,
  HEIGHT = 58;
/** The limits always stand at the same height. */
const HIGH_Y = 15,
  LOW_Y = 38;

/** The last run of a unit as a thin line against its own limits; the pen may leave the paper. */
export function RunStrip({ run }: { run: BookRun }): React.ReactElement {
  const { book, bookState } = useAround();
  const { id } = run;
  useEffect(() => book.wantOutline(run), [book, run]);
  return <DrawnStrip run={run} outline={bookState.outlines.get(id)?.outline ?? run.outline} />;
}

const DrawnStrip = memo(function DrawnStrip(props: {
  run: BookRun;
  outline: BookRun['outline'];
}): React.ReactElement {
  const clip = useId();
  const { run, outline } = props;
  const { log, spec } = run;
  const band = spec?.pressureBand ?? null;
  const limits = outline !== null && band?.unit === outline.unit ? band : null;
  const scale = scaleOf(limits?.low ?? null, limits?.high ?? null, outline);
  const y = (value: number): number =>
    LOW_Y - ((value - scale.low) / (scale.high - scale.low)) * (LOW_Y - HIGH_Y);
  const full = Math.max(FULL_S, log.duration_s);
  const end = (log.duration_s / full) * WIDTH;
  const wanted = spec?.runLength?.atLeast_h;
  const brokenOff = run.kind === 'aborted' || (wanted !== undefined && log.duration_s < wanted * 3600 * 0.98);
  const hours = Array.from(
    { length: Math.floor(full / 3600) + 1 },
    (_, hour) => ((hour * 3600) / full) * WIDTH,
  );
  const away = offPaper(outline, y);
  const top = limits === null ? 0 : limits.high === undefined || limits.high === null ? 0 : HIGH_Y;
  const bottom = limits === null ? 0 : limits.low === undefined || limits.low === null ? PEN_HEIGHT : LOW_Y;
  return (
    <svg
      className="run-strip"
      viewBox={`0 0 ${WIDTH} ${HEIGHT}`}
      preserveAspectRatio="none"
      aria-hidden="true"
    >
      <clipPath id={clip}>
        <rect width={WIDTH} height={PEN_HEIGHT} />
      </clipPath>
      {limits !== null && <rect className="strip-band" y={top} width={WIDTH} height={bottom - top} />}
      {limits?.high !== undefined && limits.high !== null && (
        <path className="strip-limit" d={`M0 ${HIGH_Y}H${WIDTH}`} />
      )}
      {limits?.low !== undefined && limits.low !== null && (
        <path className="strip-limit" d={`M0 ${LOW_Y}H${WIDTH}`} />
      )}
      <g clipPath={`url(#${clip})`}>
        <path className="strip-pen" d={penPath(outline, end, y)} />
        {away !== null && <path className="strip-away" d={arrowPath(away, end / 2)} />}
        {brokenOff && <path className="strip-broken" d={`M${end} 0V${PEN_HEIGHT}`} />}
      </g>
      <path
        className="strip-axis"
        d={`M0 ${PEN_HEIGHT}H${WIDTH}${hours.map((x) => `M${x.toFixed(1)} ${PEN_HEIGHT}v6`).join('')}`}
      />
    </svg>
  );
});

/** Where nearly all of a run lies off the paper: an empty strip would look like no run at all. */
export function offPaper(
  outline: BookRun['outline'],
  y: (value: number) => number,
): 'above' | 'below' | null {
  const heights = (outline?.low ?? []).flatMap((low, column) => {
    const high = outline?.high[column] ?? null;
    return low === null || high === null ? [] : [{ lowest: y(low), highest: y(high) }];
  });
  const above = heights.filter(({ lowest }) => lowest < 0).length,
    below = heights.filter(({ highest }) => highest > PEN_HEIGHT).length;
  const nearlyAll = 0.9 * heights.length;
  if (heights.length === 0) return null;
  return above > nearlyAll ? 'above' : below > nearlyAll ? 'below' : null;
}

/** An arrow at the paper's edge, to where the run lies. */
const arrowPath = (away: 'above' | 'below', x: number): string =>
  away === 'above'
    ? `M${x - 9} 11L${x} 1L${x + 9} 11Z`
    : `M${x - 9} ${PEN_HEIGHT - 11}L${x} ${PEN_HEIGHT - 1}L${x + 9} ${PEN_HEIGHT - 11}Z`;

interface Scale {
  low: number;
  high: number;
}

/** Values that stand where the limits are drawn: the limits themselves; for one alone, 5 % of it beside it; without any, the run's own. */
function scaleOf(low: number | null, high: number | null, outline: BookRun['outline']): Scale {
  if (low !== null && high !== null) return { low, high };
  if (low !== null) return { low, high: low + (Math.abs(low) || 1) * 0.05 };
  if (high !== null) return { low: high - (Math.abs(high) || 1) * 0.05, high };
  const values = [...(outline?.low ?? []), ...(outline?.high ?? [])].filter((value) => value !== null);
  const least = Math.min(...values),
    most = Math.max(...values);
  return values.length === 0 || most === least
    ? { low: (least || 0) - 1, high: (most || 0) + 1 }
    : { low: least, high: most };
}

/** Lowest and highest of each column joined into one line; where nothing was recorded the pen is up. */
function penPath(outline: BookRun['outline'], end: number, y: (value: number) => number): string {
  if (outline === null) return '';
  const columns = outline.low.length;
  let path = '';
  let up = true;
  for (let column = 0; column < columns; column++) {
    const low = outline.low[column] ?? null,
      high = outline.high[column] ?? null;
    if (low === null || high === null) {
      up = true;
      continue;
    }
    const x = (((column + 0.5) / columns) * end).toFixed(1);
    path += `${up ? 'M' : 'L'}${x} ${y(low).toFixed(1)}L${x} ${y(high).toFixed(1)}`;
    up = false;
  }
  return path;
}
