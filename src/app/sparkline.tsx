import type { Outline } from '#worker/messages.ts';

const WIDTH = 120,
  HEIGHT = 36;

/** A channel's whole run as a tiny line: swapped channels show at once. */
export function Sparkline(props: { outline: Outline; warm: boolean; label: string }): React.ReactElement {
  const { low, high } = props.outline;
  const values = [...low, ...high].filter((value) => value !== null);
  const min = Math.min(...values),
    span = Math.max(...values) - min || 1;
  const y = (value: number): number => HEIGHT - 2 - ((value - min) / span) * (HEIGHT - 4);
  let d = '',
    drawing = false;
  for (let i = 0; i < low.length; i++) {
    const lowest = low[i] ?? null,
      highest = high[i] ?? null;
    if (lowest === null || highest === null) {
      drawing = false;
      continue;
    }
    const x = (i / Math.max(1, low.length - 1)) * WIDTH;
    d += `${drawing ? 'L' : 'M'}${x.toFixed(1)} ${y(highest).toFixed(1)}L${x.toFixed(1)} ${y(lowest).toFixed(1)}`;
    drawing = true;
  }
  return (
    <svg
      className={`spark${props.warm ? ' warm' : ''}`}
      viewBox={`0 0 ${WIDTH} ${HEIGHT}`}
      role="img"
      aria-label={props.label}
    >
      {values.length > 0 && <path d={d} />}
    </svg>
  );
}
