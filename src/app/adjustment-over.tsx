import { useId } from 'react';
import { ADVICE_COVERAGE } from '#formats/advice-words.ts';
import type { BookAdjustment } from '#formats/book.ts';
import {
  durationText,
  fixedText,
  statedText,
  uncertainText,
  unitLabel,
  verdictWords,
  withUnit,
} from './shown-numbers.ts';
import { pressureFactor, type PressureUnit } from '#units/pressure.ts';
import type { LaidOver, LaidRun, Trail } from '#worker/messages.ts';
import { asFine } from './criterion-working.ts';
import { laidInUnit } from './laid-in-unit.ts';
import type { Over } from './relief-desk.ts';
import { TroubleLine } from './trouble.tsx';

/** A test and its re-test on one strip, both from their engagement on, with what was predicted. */
export function AdjustmentOver(props: {
  over: Over;
  trail: Trail;
  /** For viewing. */
  unit: PressureUnit;
}): React.ReactElement {
  const { over, trail, unit } = props;
  const adjustment = trail.steps.find(({ adjustment: { id } }) => id === over.step)?.adjustment ?? null;
  if (over.trouble !== null) return <TroubleLine trouble={over.trouble} />;
  if (over.laid === null || adjustment === null)
    return (
      <p className="second" role="status">
        Judging both runs again …
      </p>
    );
  return <OverStrip laid={laidInUnit(over.laid, unit)} adjustment={adjustment} />;
}

const WIDTH = 1100,
  HEIGHT = 360,
  LEFT = 70,
  RIGHT = 190,
  TOP = 14,
  FOOT = 40;
/** Names at the lines' ends stand at least so far apart. */
const NAME_PX = 22;
const HOUR_S = 3600;

const words = ['test', 're-test'];

function OverStrip({ laid, adjustment }: { laid: LaidOver; adjustment: BookAdjustment }): React.ReactElement {
  const title = useId();
  const { unit, limits, runs, comparison } = laid;
  const said = adjustment.predicted;
  const predicted =
    said === null
      ? null
      : {
          value: said.value * pressureFactor(said.unit, unit),
          expanded: ADVICE_COVERAGE * said.standardUncertainty * pressureFactor(said.unit, unit),
        };
  const longest = Math.max(...runs.map(({ to_s }) => to_s), 60);
  const range = rangeOf(laid, predicted);
  const x = (time_s: number): number => LEFT + (time_s / longest) * (WIDTH - LEFT - RIGHT);
  const y = (pressure: number): number =>
    TOP + (1 - (pressure - range.low) / (range.high - range.low)) * (HEIGHT - TOP - FOOT);
  const step = hourStep(longest);
  const hours = Array.from({ length: Math.floor(longest / step) + 1 }, (_, index) => index * step);
  const bottom = HEIGHT - FOOT,
    right = WIDTH - RIGHT;
  const ends = pushedApart([
    ...runs.map((run, index) => ({
      name: words[index] ?? run.name,
      y: y(lastOf(run) ?? range.low),
      line: index,
    })),
    ...(predicted === null ? [] : [{ name: 'predicted', y: y(predicted.value), line: -1 }]),
  ]);
  return (
    <figure className="over" aria-labelledby={title}>
      <figcaption id={title}>
        <b>Test and re-test over each other</b>, each from its engagement on.{' '}
        {predicted !== null && `Predicted ${uncertainText(predicted.value, predicted.expanded, unit)}.`}
      </figcaption>
      <div className="over-scroll" tabIndex={0} role="group" aria-label="Chart of test and re-test">
        <svg viewBox={`0 0 ${WIDTH} ${HEIGHT}`} role="img" aria-label={summaryOf(laid)}>
          {(limits.low !== null || limits.high !== null) && (
            <rect
              className="strip-band"
              x={LEFT}
              width={right - LEFT}
              y={limits.high === null ? TOP : y(limits.high)}
              height={
                (limits.low === null ? bottom : y(limits.low)) - (limits.high === null ? TOP : y(limits.high))
              }
            />
          )}
          {predicted !== null && (
            <>
              <rect
                className="over-predicted"
                x={LEFT}
                width={right - LEFT}
                y={y(predicted.value + predicted.expanded)}
                height={Math.max(
                  1,
                  y(predicted.value - predicted.expanded) - y(predicted.value + predicted.expanded),
                )}
              />
              <path className="over-aim" d={`M${LEFT} ${y(predicted.value)}H${right}`} />
            </>
          )}
          <text className="over-limit" x={LEFT - 8} y={TOP + 6} textAnchor="end">
            {unitLabel(unit)}
          </text>
          {[limits.low, limits.high].map(
            (limit) =>
              limit !== null && (
                <g key={limit}>
                  <path className="strip-limit" d={`M${LEFT} ${y(limit)}H${right}`} />
                  <text className="over-limit" x={LEFT - 8} y={y(limit) + 6} textAnchor="end">
                    {statedText(Number(limit.toPrecision(5)))}
                  </text>
                </g>
              ),
          )}
          {runs.map((run, index) => (
            <path key={run.id} className={`over-line line-${index}`} d={linePath(run, x, y, range)} />
          ))}
          {ends.map(({ name, y: at, line }) => (
            <g key={name}>
              {line >= 0 && <path className={`over-line line-${line}`} d={`M${right + 8} ${at}h44`} />}
              {line < 0 && <path className="over-aim" d={`M${right + 8} ${at}h44`} />}
              <text x={right + 60} y={at + 6}>
                {name}
              </text>
            </g>
          ))}
          <path
            className="strip-axis"
            d={`M${LEFT} ${bottom}H${right}${hours.map((time) => `M${x(time).toFixed(1)} ${bottom}v8`).join('')}`}
          />
          {hours.map((time) => (
            <text key={time} x={x(time)} y={bottom + 28} textAnchor="middle">
              {time === 0 ? '0' : durationText(time)}
            </text>
          ))}
        </svg>
      </div>
      {comparison !== null && (
        <table className="over-table">
          <thead>
            <tr>
              {['', 'Verdict', 'Operating pressure', 'Drift over the hold', 'Settled after'].map((head) => (
                <th key={head} scope="col">
                  {head === '' ? <span className="unseen">Run</span> : head}
                </th>
              ))}
            </tr>
          </thead>
          <tbody>
            {comparison.runs.map((row, index) => (
              <tr key={runs[index]?.id ?? index}>
                <th scope="row">
                  {words[index] ?? ''} <span className="second">{row.fileName}</span>
                </th>
                <td>{verdictWords[row.verdict]}</td>
                <td>
                  {numberText(
                    row.operatingPressure.value,
                    row.operatingPressure.expandedUncertainty,
                    row.operatingPressure.unit,
                  )}
                </td>
                <td>
                  {row.drift.overHold === null
                    ? '–'
                    : withUnit(fixedText(row.drift.overHold, asFine(1, row.drift.unit)), row.drift.unit)}
                </td>
                <td>{row.settling.time_s === null ? 'not settled' : durationText(row.settling.time_s)}</td>
              </tr>
            ))}
          </tbody>
        </table>
      )}
    </figure>
  );
}

const numberText = (value: number | null, expanded: number | null, unit: string): string =>
  value === null
    ? '–'
    : expanded === null || expanded === 0
      ? withUnit(fixedText(value, asFine(1, unit)), unit)
      : uncertainText(value, expanded, unit);

/** Last value of a run that lies in its hold, else its last at all. */
function lastOf(run: LaidRun): number | null {
  const { low, high } = run.outline;
  const columns = low.length;
  const end =
    run.hold === null
      ? columns
      : Math.floor(((run.hold.end_s - run.from_s) / (run.to_s - run.from_s)) * columns) - 1;
  for (let column = Math.min(columns, end) - 1; column >= 0; column--) {
    const a = low[column] ?? null,
      b = high[column] ?? null;
    if (a !== null && b !== null) return (a + b) / 2;
  }
  return null;
}

/** The part of the scale that tells: limits, prediction and what the holds of both runs stand at, with a little room. */
function rangeOf(
  { limits, runs }: LaidOver,
  predicted: { value: number; expanded: number } | null,
): { low: number; high: number } {
  const values = [
    ...[limits.low, limits.high].filter((limit) => limit !== null),
    ...(predicted === null
      ? []
      : [predicted.value - predicted.expanded, predicted.value + predicted.expanded]),
    ...runs.flatMap((run) => {
      const columns = run.outline.low.length;
      const at = (time_s: number): number => ((time_s - run.from_s) / (run.to_s - run.from_s)) * columns;
      // The columns at its ends hold the edges too.
      const from = run.hold === null ? 0 : Math.ceil(at(run.hold.start_s)),
        to = run.hold === null ? columns : Math.floor(at(run.hold.end_s)) - 1;
      return [...run.outline.low.slice(from, to), ...run.outline.high.slice(from, to)].filter(
        (value) => value !== null,
      );
    }),
  ];
  const low = Math.min(...values),
    high = Math.max(...values);
  const room = (high - low || 1) * 0.15;
  return values.length === 0 ? { low: 0, high: 1 } : { low: low - room, high: high + room };
}

/** The pen leaves the paper where the pressure is outside of the scale, and is up where nothing was recorded. */
function linePath(
  run: LaidRun,
  x: (time_s: number) => number,
  y: (pressure: number) => number,
  range: { low: number; high: number },
): string {
  const { low, high } = run.outline;
  const columns = low.length;
  let path = '',
    up = true;
  for (let column = 0; column < columns; column++) {
    const a = low[column] ?? null,
      b = high[column] ?? null;
    const time_s = run.from_s + ((column + 0.5) / columns) * (run.to_s - run.from_s);
    const middle = a === null || b === null ? null : (a + b) / 2;
    if (middle === null || time_s < 0 || middle < range.low || middle > range.high) {
      up = true;
      continue;
    }
    path += `${up ? 'M' : 'L'}${x(time_s).toFixed(1)} ${y(middle).toFixed(1)}`;
    up = false;
  }
  return path;
}

function hourStep(longest_s: number): number {
  return (
    [60, 300, 600, 1800, HOUR_S, 2 * HOUR_S, 6 * HOUR_S].find((step) => longest_s / step <= 8) ?? 24 * HOUR_S
  );
}

function pushedApart<T extends { y: number }>(names: readonly T[]): T[] {
  let floor = -Infinity;
  return [...names]
    .sort((a, b) => a.y - b.y)
    .map((each) => {
      floor = Math.max(each.y, floor + NAME_PX);
      return { ...each, y: floor };
    });
}

function summaryOf({ comparison, runs }: LaidOver): string {
  const said = (comparison?.runs ?? []).map(
    (row, index) =>
      `${words[index] ?? row.fileName ?? 'run'} ${numberText(row.operatingPressure.value, row.operatingPressure.expandedUncertainty, row.operatingPressure.unit)}`,
  );
  return `Pressure of ${runs.length} runs over time. ${said.join('; ')}.`;
}
