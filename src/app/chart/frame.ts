import { convertTemperature, type TemperatureUnit } from '#units/temperature.ts';
import { pressureFactor, type PressureUnit } from '#units/pressure.ts';
import { otherPanes, otherPanesPx, type OtherPane } from './other-channels.ts';
import { pressureScale, type PressureScale } from './pressure-scale.ts';
import { multiples, roundStepAtLeast } from './round-steps.ts';
import type { RunView } from './run-view.ts';
import type { Shown } from './strip-props.ts';
import { timeTicks, type TimeTicks } from './time-ticks.ts';

/** At this width of the window and under, time runs down the page. */
export const TURNED_UP_TO = 640;
/** Under this width durations leave the labels. */
export const NARROW_UNDER = 900;

/** A pane on the paper, in px from the plot's foot (its left edge when turned). */
export interface Pane {
  from: number;
  size: number;
}

/** Oil as a place on the paper: px from the plot's foot. */
export interface OilScale {
  ticks: { value: number; shown: number }[];
  halfTicks: number[];
  px: (value: number) => number;
  value: (px: number) => number;
}

/**
 * Where everything lies, in CSS px. Time runs along the plot, values across it: "along" is counted from the plot's left edge (its top
 * when turned), "across" from its foot (its left edge when turned).
 */
export interface Frame {
  turned: boolean;
  width: number;
  height: number;
  plot: { left: number; top: number; width: number; height: number };
  along: number;
  across: number;
  pressurePane: Pane;
  /** Across of its middle; null where the log holds nothing set aside to show. */
  lane: number;
  oilPane: Pane | null;
  /** Under the oil; empty unless they are asked for. */
  otherPanes: OtherPane[];
  pressure: PressureScale;
  oil: OilScale | null;
  /** Judged unit to the unit for viewing. */
  factor: number;
  unit: PressureUnit;
  temperatureUnit: TemperatureUnit | null;
}

/** A frame with the part of the run that it shows. */
export interface ShownFrame extends Frame {
  shown: Shown;
  zoomed: boolean;
  ticks: TimeTicks;
  x: (at_s: number) => number;
  at: (along: number) => number;
}

export interface FrameInput {
  width: number;
  windowHeight: number;
  turned: boolean;
  folded: boolean;
  /** Whether the other channels have panes of their own; turned, there is no room for them. */
  others: boolean;
  /** Whether the whole run stands as a thin strip beneath: the two together stay above the foot of the sheet. */
  overview?: boolean;
  unit: PressureUnit;
  temperatureUnit: TemperatureUnit | null;
  /** The numbers left of the plot need so much: their face is the computer's own, and may be a wide one. */
  leftAtLeast?: number;
}

const LANE_PX = 26,
  LANE_TURNED_PX = 18;
/** Sheet margin and the strip's own margin left of the plot; names stand right of it. */
const wideMargins = { left: 102, right: 174, top: 50, bottom: 36 };
const middleMargins = { left: 78, right: 150, top: 50, bottom: 36 };
const turnedMargins = { left: 92, right: 16, top: 10, bottom: 22 };
/** The read-out hangs below the time axis. */
export const TAB_PX = 44;
/** The whole run as a thin strip, and its distance. */
const OVERVIEW_PX = 38;
/** The time of day, under the time since the start. */
const CLOCK_LINE_PX = 18;

const PX_PER_HOUR = 112;
/** A canvas much taller than this is refused on some phones. */
const TURNED_AT_MOST = 4_000,
  TURNED_AT_LEAST = 420;

export function frameOf(view: RunView, input: FrameInput): Frame {
  const { turned, width } = input;
  const others = turned || !input.others ? [] : view.others;
  const below = otherPanesPx(others.length);
  const margins = turned ? turnedMargins : width >= NARROW_UNDER ? wideMargins : middleMargins;
  const clockLine = !turned && input.overview === true && view.clock !== null ? CLOCK_LINE_PX : 0;
  const height = turned
    ? clamp((view.end_s / 3600) * PX_PER_HOUR, TURNED_AT_LEAST, TURNED_AT_MOST) + margins.top + margins.bottom
    : clamp(Math.round(input.windowHeight * 0.585), 380, 640) -
      TAB_PX -
      (input.overview === true ? OVERVIEW_PX : 0) +
      below;
  const left = Math.max(margins.left, input.leftAtLeast ?? 0);
  const plot = {
    left,
    top: margins.top,
    width: Math.max(120, Math.round(width - left - margins.right)),
    height: Math.round(height - margins.top - margins.bottom - clockLine),
  };
  const along = turned ? plot.height : plot.width,
    across = turned ? plot.width : plot.height;
  const panes = turned ? turnedPanes(view, across) : raised(widePanes(view, across - below), below);
  const unit = view.pressure?.unit ?? input.unit;
  const factor = pressureFactor(unit, input.unit);
  const extent = view.pressure?.extent ?? { lowest: 0, highest: 1 };
  const pressure = pressureScale(
    { ...view.band, ...extent, judged: view.judged, value: view.value },
    factor,
    panes.pressurePane.size,
    input.folded,
  );
  const temperatureUnit = view.oil === null ? null : (input.temperatureUnit ?? view.oil.unit);
  return {
    turned,
    width,
    height: Math.round(height),
    plot,
    along,
    across,
    ...panes,
    otherPanes: otherPanes(others),
    pressure,
    oil:
      view.oil === null || panes.oilPane === null || temperatureUnit === null
        ? null
        : oilScale(view, panes.oilPane, view.oil.unit, temperatureUnit),
    factor,
    unit: input.unit,
    temperatureUnit,
  };
}

const clamp = (value: number, low: number, high: number): number => Math.min(high, Math.max(low, value));

type Panes = Pick<Frame, 'pressurePane' | 'lane' | 'oilPane'>;

function widePanes(view: RunView, across: number): Panes {
  if (view.oil === null)
    return {
      pressurePane: { from: LANE_PX, size: across - LANE_PX },
      lane: LANE_PX / 2 - 2,
      oilPane: null,
    };
  const oil = Math.round((across - LANE_PX) * 0.255);
  return {
    oilPane: { from: 0, size: oil },
    lane: oil + LANE_PX / 2 - 2,
    pressurePane: { from: oil + LANE_PX, size: across - LANE_PX - oil },
  };
}

/** Panes moved up by what stands under them. */
function raised({ pressurePane, lane, oilPane }: Panes, by: number): Panes {
  return {
    pressurePane: { from: pressurePane.from + by, size: pressurePane.size },
    lane: lane + by,
    oilPane: oilPane === null ? null : { from: oilPane.from + by, size: oilPane.size },
  };
}

function turnedPanes(view: RunView, across: number): Panes {
  if (view.oil === null)
    return {
      pressurePane: { from: 0, size: across - LANE_TURNED_PX },
      lane: across - LANE_TURNED_PX / 2,
      oilPane: null,
    };
  const oil = Math.round((across - LANE_TURNED_PX) * 0.24);
  return {
    pressurePane: { from: 0, size: across - LANE_TURNED_PX - oil },
    lane: across - oil - LANE_TURNED_PX / 2,
    oilPane: { from: across - oil, size: oil },
  };
}

/** Between two numbers of the oil's scale. */
const OIL_TICK_PX = 20;

function oilScale(view: RunView, pane: Pane, unit: TemperatureUnit, shownUnit: TemperatureUnit): OilScale {
  const show = (value: number): number => convertTemperature(value, unit, shownUnit);
  const extent = view.oil?.extent ?? { lowest: 0, highest: 1 };
  const ends = [show(extent.lowest), show(extent.highest)];
  if (view.operatingFrom !== null) ends.push(show(view.operatingFrom));
  const low = Math.min(...ends),
    high = Math.max(...ends);
  // A little room, so that the line does not run along the edge of its pane.
  const room = Math.max((high - low) * 0.12, 1);
  const step = roundStepAtLeast(((high - low + 2 * room) * OIL_TICK_PX) / pane.size);
  const perPx = (high - low + 2 * room) / pane.size;
  const px = (value: number): number => pane.from + (show(value) - low + room) / perPx;
  const back = (shown: number): number => convertTemperature(shown, shownUnit, unit);
  return {
    ticks: multiples(step, low - room / 2, high + room / 2).map((shown) => ({ value: back(shown), shown })),
    halfTicks: multiples(step / 2, low - room, high + room).map(back),
    px,
    value: (at) => back(low - room + (at - pane.from) * perPx),
  };
}

/** Px between two numbers of the time axis. */
const TIME_TICK_APART = 92,
  TIME_TICK_APART_TURNED = 80;

/** @param shown null: the whole run */
export function shownFrame(frame: Frame, view: RunView, shown: Shown | null): ShownFrame {
  const part = shown ?? { from_s: 0, to_s: view.end_s > 0 ? view.end_s : 1 };
  const perPx = (part.to_s - part.from_s) / frame.along;
  return {
    ...frame,
    shown: part,
    zoomed: shown !== null,
    ticks: timeTicks(
      part.from_s,
      part.to_s,
      frame.along,
      frame.turned ? TIME_TICK_APART_TURNED : TIME_TICK_APART,
    ),
    x: (at_s) => (at_s - part.from_s) / perPx,
    at: (along) => part.from_s + along * perPx,
  };
}
