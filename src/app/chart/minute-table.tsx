import { useMemo } from 'react';
import { convertTemperature } from '#units/temperature.ts';
import { fixedText, unitLabel } from '#app/shown-numbers.ts';
import { extentOf, type Extent } from '#drawing/blocks.ts';
import type { Frame } from './frame.ts';
import { figureDecimals } from './read-out.ts';
import { firstRowFrom } from './rows.ts';
import type { RunView } from './run-view.ts';
import { sinceStart } from './time-words.ts';

const MINUTE = 60;
/** Rows above which minutes are taken together. */
const ROWS_AT_MOST = 1_500;

interface TableRow {
  at_s: number;
  smoothed: number | null;
  lowest: number | null;
  highest: number | null;
  oil: number | null;
  partly: boolean;
}

/** Rows of a minute each (more in a log of days): the smoothed line at its start, lowest and highest kept reading within it. */
export function minuteRows(view: RunView): { rows: TableRow[]; step_s: number } {
  const step_s = MINUTE * Math.max(1, Math.ceil(view.end_s / MINUTE / ROWS_AT_MOST));
  const rows: TableRow[] = [];
  const extent: Extent = { lowest: 0, highest: 0 };
  for (let at_s = 0; at_s <= view.end_s; at_s += step_s) {
    const from = firstRowFrom(view.time_s, at_s),
      to = firstRowFrom(view.time_s, at_s + step_s);
    const found = view.pressure !== null && extentOf(view.pressure.raw, from, to, extent);
    rows.push({
      at_s,
      smoothed: firstNumber(view.pressure?.smoothed, from, to),
      lowest: found ? extent.lowest : null,
      highest: found ? extent.highest : null,
      oil: firstNumber(view.oil?.smoothed, from, to),
      partly: view.gaps.some((gap) => gap.start_s < at_s + step_s && gap.end_s > at_s),
    });
  }
  return { rows, step_s };
}

function firstNumber(values: Float64Array | undefined, from: number, to: number): number | null {
  if (values === undefined) return null;
  for (let row = from; row < to; row++) {
    const value = values[row] ?? NaN;
    if (!Number.isNaN(value)) return value;
  }
  return null;
}

/** The strip as a table. */
export function MinuteTable({ view, frame }: { view: RunView; frame: Frame }): React.ReactElement {
  const { rows, step_s } = useMemo(() => minuteRows(view), [view]);
  const { oil } = view;
  const { temperatureUnit } = frame;
  const figure = (value: number | null): string =>
    value === null ? '' : fixedText(value * frame.factor, figureDecimals(frame.unit));
  const unit = unitLabel(frame.unit);
  return (
    <div className="strip-table" tabIndex={0} role="region" aria-label="The strip as a table">
      <table>
        <caption>
          A row {step_s === MINUTE ? 'a minute' : `every ${step_s / MINUTE} minutes`}: smoothed pressure at
          its start, lowest and highest reading within it.
        </caption>
        <thead>
          <tr>
            <th scope="col">Since the start</th>
            {view.clock !== null && <th scope="col">Time of day</th>}
            <th scope="col">Pressure, {unit}</th>
            <th scope="col">Lowest, {unit}</th>
            <th scope="col">Highest, {unit}</th>
            {oil !== null && temperatureUnit !== null && (
              <th scope="col">Oil, {unitLabel(temperatureUnit)}</th>
            )}
          </tr>
        </thead>
        <tbody>
          {rows.map((row) => (
            <tr key={row.at_s}>
              <th scope="row">{sinceStart(row.at_s)}</th>
              {view.clock !== null && <td>{view.clock(row.at_s)}</td>}
              <td>
                {row.smoothed === null ? (row.partly ? 'no record' : 'no reading') : figure(row.smoothed)}
              </td>
              <td>{figure(row.lowest)}</td>
              <td>{figure(row.highest)}</td>
              {oil !== null && temperatureUnit !== null && (
                <td>
                  {row.oil === null
                    ? ''
                    : fixedText(convertTemperature(row.oil, oil.unit, temperatureUnit), 1)}
                </td>
              )}
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  );
}
