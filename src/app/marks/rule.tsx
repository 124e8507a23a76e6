import { useId, useLayoutEffect, useRef, useState } from 'react';
import { flushSync } from 'react-dom';
import type { Criterion } from '#formats/assessment.ts';
import { allowedText, decimalsOf, fixedText, limitText, statedText, valueText } from '#app/shown-numbers.ts';
import type { PressureUnit } from '#units/pressure.ts';
import { pressureFactor } from '#units/pressure.ts';
import { isPressureUnit } from '#units/unit.ts';
import { ruleScale, type RuleScale } from './rule-scale.ts';
import './marks.css';

const HEIGHT = 100,
  FOOT = 66,
  TINT = 32,
  USUAL_WIDTH = 600;
/** Average advance of a bold 18 px figure of the usual faces; only decides whether two numbers would touch. */
const FIGURE_PX = 10.5;

/**
 * A steel rule with the limits, what passes, what is too near to call, and the reading with its ±: shows without a word of
 * statistics whether the reading's reach goes back into the band.
 */
export function Rule(props: {
  criterion: Criterion;
  /** Unit for viewing; only pressures are converted. */
  unit: PressureUnit;
  guardFactor: number;
}): React.ReactElement | null {
  const room = useRef<HTMLDivElement>(null);
  const [width, setWidth] = useState(USUAL_WIDTH);
  const near = useId();
  useLayoutEffect(() => {
    const element = room.current;
    if (element === null) return;
    const measure = (): void => setWidth(Math.max(200, Math.min(USUAL_WIDTH, element.clientWidth)));
    // Told once when it begins, after the page was laid out and before it is seen: asked for earlier, all would be laid out for this alone.
    const observer = new ResizeObserver(() => flushSync(measure));
    observer.observe(element);
    return () => observer.disconnect();
  }, []);
  const criterion = shownIn(props.criterion, props.unit);
  const scale = ruleScale(criterion, props.guardFactor, width);
  if (scale === null) return null;
  const named = scale.near.length > 0 && width < 500;
  const height = named ? HEIGHT + 26 : HEIGHT;
  return (
    <div className="rule">
      {/* As wide as the figure, and as high as nothing: what is drawn into the figure does not change it. */}
      <div ref={room} />
      <svg
        viewBox={`0 0 ${width} ${height}`}
        width={width}
        height={height}
        role="img"
        aria-label={words(criterion)}
      >
        <defs>
          <pattern id={near} width="7" height="7" patternUnits="userSpaceOnUse" patternTransform="rotate(45)">
            <path className="near-line" d="M0 0V7" />
          </pattern>
        </defs>
        <Ground scale={scale} near={near} />
        <Scale scale={scale} width={width} />
        <Limits scale={scale} criterion={criterion} />
        <Reading scale={scale} criterion={criterion} width={width} />
        {named && (
          <>
            <rect
              className="near-box"
              x="10.5"
              y={HEIGHT + 6.5}
              width="26"
              height="13"
              fill={`url(#${near})`}
            />
            <text className="rule-second" x="44" y={HEIGHT + 19}>
              too near a limit to call, ± {sizeOf(criterion, scale.guard)}
            </text>
          </>
        )}
      </svg>
    </div>
  );
}

/** What passes as a tint, what is too near to call as a hatch over it. */
function Ground({ scale, near }: { scale: RuleScale; near: string }): React.ReactElement {
  const top = FOOT - TINT;
  const { passes } = scale;
  return (
    <>
      <rect className="rule-tint" x={passes.from} y={top} width={passes.to - passes.from} height={TINT} />
      {scale.near.map(({ from, to }) => (
        <rect key={from} x={from} y={top} width={to - from} height={TINT} fill={`url(#${near})`} />
      ))}
      {passes.word !== null && (
        <text className="rule-word" x={passes.word} y={FOOT - 10} textAnchor="middle">
          passes
        </text>
      )}
    </>
  );
}

function Scale({ scale, width }: { scale: RuleScale; width: number }): React.ReactElement {
  const length = { short: 5, middle: 8, long: 12 };
  return (
    <path
      className="rule-scale"
      d={`M10 ${FOOT}H${width - 10}${scale.ticks.map(({ x, rank }) => `M${x} ${FOOT}v${length[rank]}`).join('')}`}
    />
  );
}

/** The limits with their numbers, which move apart where the band is narrow. */
function Limits({ scale, criterion }: { scale: RuleScale; criterion: Criterion }): React.ReactElement {
  const marks = scale.limits.map((limit) => ({ ...limit, text: limitWords(criterion, limit.value) }));
  const [first, second] = marks;
  const touch =
    first !== undefined &&
    second !== undefined &&
    second.x - first.x < ((first.text.length + second.text.length) / 2) * FIGURE_PX + 8;
  return (
    <>
      {marks.map(({ x, text }, index) => (
        <g key={text}>
          <path className="rule-limit" d={`M${x} ${FOOT - TINT - 8}V${FOOT + 8}`} />
          <text
            className="rule-limit-number"
            x={touch ? x + (index === 0 ? 3 : -3) : x}
            y={HEIGHT - 8}
            textAnchor={touch ? (index === 0 ? 'end' : 'start') : anchorNear(x, text, scale)}
          >
            {text}
          </text>
        </g>
      ))}
    </>
  );
}

/** A number at the very edge of the rule leans inwards. */
function anchorNear(x: number, text: string, scale: RuleScale): 'start' | 'middle' | 'end' {
  const half = (text.length * FIGURE_PX) / 2;
  if (x - half < 0) return 'start';
  return x + half > scale.width ? 'end' : 'middle';
}

function Reading(props: {
  scale: RuleScale;
  criterion: Criterion;
  width: number;
}): React.ReactElement | null {
  const { scale, criterion } = props;
  const { reading } = scale;
  if (reading === null) return null;
  const y = FOOT - 13,
    { x, from, to } = reading;
  const text = readingWords(criterion);
  return (
    <g className={`rule-reading ${criterion.verdict}`}>
      {from !== null && to !== null && (
        <path className="rule-whisker" d={`M${from} ${y}H${to}M${from} ${y - 6}v12M${to} ${y - 6}v12`} />
      )}
      {criterion.verdict === 'fail' && (
        <path className="mark-cross" d={`M${x - 6} ${y - 6}l12 12m0 -12l-12 12`} />
      )}
      {criterion.verdict === 'undecided' && <circle className="mark-ring filled" cx={x} cy={y} r={6} />}
      {(criterion.verdict === 'pass' || criterion.verdict === 'not-assessed') && (
        <circle className="mark-dot" cx={x} cy={y} r={5} />
      )}
      <text className="rule-number" x={x} y={FOOT - TINT - 12} textAnchor={anchorNear(x, text, scale)}>
        {text}
      </text>
    </g>
  );
}

/** Numbers of a criterion as shown: pressures in the unit for viewing, everything else as judged. */
function shownIn(criterion: Criterion, unit: PressureUnit): Criterion {
  if (!isPressureUnit(criterion.unit) || criterion.unit === unit) return criterion;
  const factor = pressureFactor(criterion.unit, unit);
  const converted = (value: number | null): number | null =>
    value === null ? null : Number((value * factor).toPrecision(12));
  return {
    ...criterion,
    unit,
    value: converted(criterion.value),
    expandedUncertainty: converted(criterion.expandedUncertainty),
    limits: { low: converted(criterion.limits.low), high: converted(criterion.limits.high) },
  };
}

/** Digits that a converted limit is shown with; a stated one is shown as stated. */
const LIMIT_DIGITS = 5;
function limitWords(criterion: Criterion, limit: number): string {
  if (!isPressureUnit(criterion.unit)) return limitText(criterion, limit);
  return statedText(Number(limit.toPrecision(LIMIT_DIGITS)));
}
function readingWords(criterion: Criterion): string {
  if (criterion.value === null) return '';
  return isPressureUnit(criterion.unit)
    ? fixedText(criterion.value, decimalsOf(criterion))
    : valueText(criterion);
}
function sizeOf(criterion: Criterion, size: number): string {
  const unit = isPressureUnit(criterion.unit) ? ` ${limitText(criterion, 0).replace(/^0 ?/u, '')}` : '';
  return `${fixedText(size, decimalsOf(criterion))}${unit}`;
}
function words(criterion: Criterion): string {
  const rounded: Criterion = {
    ...criterion,
    limits: {
      low: criterion.limits.low === null ? null : Number(criterion.limits.low.toPrecision(LIMIT_DIGITS)),
      high: criterion.limits.high === null ? null : Number(criterion.limits.high.toPrecision(LIMIT_DIGITS)),
    },
  };
  const reading = valueText(criterion);
  return `A scale: passes ${allowedText(rounded)}. ${reading === '' ? 'No reading.' : `Reading ${reading}.`}`;
}
