import type { Advice, AdviceOption } from '#formats/advice.ts';

/** The scale that all pictures of a card share: pressures to per cent of the width. */
export interface ReliefScale {
  at: (pressure: number) => number;
  low: number | null;
  high: number | null;
  aim: number;
  /** Half width of "too near to call" beside a limit; 0 under the simple rule. */
  near: number;
}

/** How far a drawn distribution reaches, in standard uncertainties. */
const REACH = 2.6;

/** Wide enough for the limits, the reading and every option. */
export function reliefScale(
  advice: Advice,
  limits: { low: number | null; high: number | null },
  near: number,
): ReliefScale {
  const { operatingPressure, options, target } = advice;
  const reach = (value: number, u: number): number[] => [value - REACH * u, value + REACH * u];
  const values = [
    target.value,
    ...[limits.low, limits.high].flatMap((limit) => (limit === null ? [] : [limit - near, limit + near])),
    ...(operatingPressure.value === null
      ? []
      : [
          operatingPressure.value - (operatingPressure.expandedUncertainty ?? 0),
          operatingPressure.value + (operatingPressure.expandedUncertainty ?? 0),
        ]),
    ...options
      .filter(({ leave }) => !leave)
      .flatMap(({ predicted }) => reach(predicted.value, predicted.standardUncertainty)),
  ];
  const least = Math.min(...values),
    most = Math.max(...values);
  const margin = (most - least || 1) * 0.06;
  const from = least - margin,
    span = most - least + 2 * margin;
  return { at: (pressure) => ((pressure - from) / span) * 100, ...limits, aim: target.value, near };
}

const percent = (value: number): string => `${value.toFixed(3)}%`;

/** The band, what is too near to call, and the aim, behind a picture. */
export function ReliefGround({ scale }: { scale: ReliefScale }): React.ReactElement {
  const { at, low, high, near, aim } = scale;
  const from = low === null ? 0 : at(low),
    to = high === null ? 100 : at(high);
  return (
    <span className="relief-ground" aria-hidden="true">
      <i className="ground-band" style={{ left: percent(from), width: percent(to - from) }} />
      {[low, high].map(
        (limit) =>
          limit !== null &&
          near > 0 && (
            <i
              key={`near ${limit}`}
              className="ground-near"
              style={{ left: percent(at(limit - near)), width: percent(at(limit + near) - at(limit - near)) }}
            />
          ),
      )}
      {[low, high].map(
        (limit) =>
          limit !== null && (
            <i key={`limit ${limit}`} className="ground-limit" style={{ left: percent(at(limit)) }} />
          ),
      )}
      <i className="ground-aim" style={{ left: percent(at(aim)) }} />
    </span>
  );
}

const WIDTH = 1000,
  HEIGHT = 84,
  FOOT = 76;
const POINTS = 48;

/**
 * How an option should come out: the distribution of what it should give. Areas are equal, so a surer one stands higher.
 * @param surest smallest standard uncertainty on the card: the highest curve
 */
export function ReliefCurve(props: {
  option: AdviceOption;
  scale: ReliefScale;
  surest: number;
}): React.ReactElement {
  const { predicted } = props.option;
  const { at } = props.scale;
  const u = predicted.standardUncertainty;
  const x = (pressure: number): number => (at(pressure) / 100) * WIDTH;
  const height = u > 0 ? 60 * (props.surest / u) : 60;
  const points = Array.from({ length: POINTS + 1 }, (_, index) => {
    const z = -REACH + (2 * REACH * index) / POINTS;
    return `${x(predicted.value + z * u).toFixed(1)} ${(FOOT - height * Math.exp((-z * z) / 2)).toFixed(1)}`;
  });
  return (
    <svg viewBox={`0 0 ${WIDTH} ${HEIGHT}`} preserveAspectRatio="none" aria-hidden="true">
      {u > 0 && <path className="curve-area" d={`M${points.join('L')}Z`} />}
      {u > 0 && <path className="curve" d={`M${points.join('L')}Z`} />}
      <path className="curve-mean" d={`M${x(predicted.value).toFixed(1)} ${FOOT}V${FOOT - height}`} />
    </svg>
  );
}

/** A number with its ± as a whisker: a cross outside of the band, a dot inside. */
export function ReliefWhisker(props: {
  value: number;
  expanded: number;
  scale: ReliefScale;
  verdict: 'pass' | 'fail' | 'undecided' | 'not-assessed';
}): React.ReactElement {
  const { value, expanded, scale, verdict } = props;
  const from = scale.at(value - expanded),
    to = scale.at(value + expanded);
  return (
    <span className={`relief-whisker rule-reading ${verdict}`} aria-hidden="true">
      {expanded > 0 && <i className="whisker" style={{ left: percent(from), width: percent(to - from) }} />}
      <svg className="whisker-mark" style={{ left: percent(scale.at(value)) }} viewBox="0 0 24 24">
        {verdict === 'fail' ? (
          <path d="M6 6l12 12m0 -12l-12 12" stroke="currentColor" strokeWidth="4" />
        ) : (
          <circle
            cx="12"
            cy="12"
            r="6"
            className={verdict === 'undecided' ? 'whisker-ring' : 'whisker-dot'}
          />
        )}
      </svg>
    </span>
  );
}

/** Pixels a millimetre of shim, and the least that a thin one is drawn with. */
const SHIM_PX = 38,
  SHIM_LEAST = 4;

/** Shims from the side, to scale, with their hole. */
export function StackPicture({ shims }: { shims: readonly number[] }): React.ReactElement {
  const heights = shims.map((shim) => Math.max(SHIM_LEAST, shim * SHIM_PX));
  const total = heights.reduce((sum, height) => sum + height + 2, 0);
  const room = Math.max(78, total);
  const rects = heights.map((height, index) => {
    const below = heights.slice(0, index).reduce((sum, each) => sum + each + 2, 0);
    return { y: room - below - height - 2, height };
  });
  return (
    <svg
      className="stack"
      viewBox={`0 0 74 ${room + 2}`}
      width="74"
      height={Math.min(82, room + 2)}
      aria-hidden="true"
    >
      <path className="stack-seat" d={`M0 ${room}H74`} />
      {rects.map(({ y, height }) => (
        <g key={y}>
          <rect className="shim" x="8" y={y} width="58" height={height} />
          <rect className="shim-hole" x="31" y={y} width="12" height={height} />
        </g>
      ))}
    </svg>
  );
}
