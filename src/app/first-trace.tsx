import { useId } from 'react';
import { durationText, statedText, withUnit } from './shown-numbers.ts';
import type { RunTrace } from '#worker/messages.ts';
import { roleWords } from './role-words.ts';

const WIDTH = 1168,
  HEIGHT = 150,
  /** Kept free above and below the trace, so that its ends are seen whole. */
  ROOM = 8;

/** The whole run on a strip of paper as the file has it: shown as soon as it was read, before anything was looked for in it. */
export function FirstTrace({ trace }: { trace: RunTrace }): React.ReactElement | null {
  const { column, role, unit, end_s, low, high } = trace;
  const caption = useId();
  const lows = low.filter((value) => value !== null),
    highs = high.filter((value) => value !== null);
  if (lows.length === 0) return null;
  const lowest = Math.min(...lows),
    highest = Math.max(...highs);
  const upright = Array.from({ length: 25 }, (_, k) => (k + 1) * (WIDTH / 26));
  const level = Array.from({ length: 4 }, (_, k) => ((k + 1) * HEIGHT) / 5);
  const name = role === null || role === 'ignored' ? column : `${column} (${roleWords[role]})`;
  return (
    <figure className="first-trace" aria-labelledby={caption}>
      <svg viewBox={`0 0 ${WIDTH} ${HEIGHT}`} preserveAspectRatio="none" aria-hidden="true">
        <path
          className="blank-grid"
          vectorEffect="non-scaling-stroke"
          d={[...upright.map((x) => `M${x} 0V${HEIGHT}`), ...level.map((y) => `M0 ${y}H${WIDTH}`)].join('')}
        />
        <path
          className={`first-line${role === 'oil-temperature' ? ' warm' : ''}`}
          vectorEffect="non-scaling-stroke"
          d={linePath(low, high, lowest, highest)}
        />
        <path className="blank-axis" vectorEffect="non-scaling-stroke" d={`M0 ${HEIGHT}H${WIDTH}`} />
      </svg>
      <figcaption id={caption}>
        <span>
          {name}, {rangeText(lowest, highest, unit)}, as the file has it
        </span>
        <span>{durationText(end_s)}</span>
      </figcaption>
    </figure>
  );
}

const rounded = (value: number): number => Number(value.toPrecision(5));
function rangeText(lowest: number, highest: number, unit: RunTrace['unit']): string {
  const high = statedText(rounded(highest));
  return `${statedText(rounded(lowest))} to ${unit === null ? `${high}, unit missing` : withUnit(high, unit)}`;
}

/** From the lowest to the highest of each column of paper; broken where none was read. */
function linePath(
  low: readonly (number | null)[],
  high: readonly (number | null)[],
  lowest: number,
  highest: number,
): string {
  const scale = (HEIGHT - 2 * ROOM) / (highest - lowest || 1);
  const y = (value: number): string => (HEIGHT - ROOM - (value - lowest) * scale).toFixed(1);
  let d = '',
    down = false;
  low.forEach((from, index) => {
    const to = high[index] ?? null;
    if (from === null || to === null) {
      // Readings further apart than a column of paper are still one line: only a longer pause parts them.
      down = false;
      return;
    }
    const x = ((index + 0.5) * (WIDTH / low.length)).toFixed(1);
    d += `${down ? 'L' : 'M'}${x} ${y(to)}L${x} ${y(from)}`;
    down = true;
  });
  return d;
}
