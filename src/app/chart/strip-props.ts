import type { Ref } from 'react';
import type { Assessment } from '#formats/assessment.ts';
import type { DrawnSeries } from '#drawing/drawn-series.ts';
import type { LaidLine } from './draw-laid-over.ts';
import type { PressureUnit } from '#units/pressure.ts';
import type { TemperatureUnit } from '#units/temperature.ts';

/** Part of the run that is shown, in seconds from the log's first row. */
export interface Shown {
  from_s: number;
  to_s: number;
}

/** Borders that a person can move; a run's own start and end are what the readings say. */
export type Border = 'hold-start' | 'hold-end';

/** What the page may ask of the strip; single letters are the page's own keys. */
export interface StripHandle {
  closer: () => void;
  wider: () => void;
  wholeRun: () => void;
  /** To the previous or next border: its handle where borders can be moved, else the cursor. */
  previousBorder: () => void;
  nextBorder: () => void;
  /** Shows a part of the run, with a little room on either side, and puts the cursor on its start. */
  lookAt: (part: Shown) => void;
  /** Puts the cursor on the reading nearest to an instant, in view. */
  goTo: (at_s: number) => void;
}

export interface StripProps {
  ref?: Ref<StripHandle>;
  assessment: Assessment;
  series: DrawnSeries;
  /** For viewing only: nothing is judged in it. */
  unit: PressureUnit;
  /** For viewing; the oil channel's own unit unless said. */
  temperatureUnit?: TemperatureUnit;
  /** Whether the low part of the pressure scale is pressed together, where that helps. */
  folded: boolean;
  /** Other runs that lie over this one. */
  laid?: readonly LaidLine[];
  onFold: (folded: boolean) => void;
  /** Row of the log under the cursor; null where there is no reading. */
  onCursor?: (row: number | null, at_s: number) => void;
  /** Told once, when the run is on the paper and can be moved along. */
  onDrawn?: () => void;
  /** null: the whole run. */
  onShown?: (shown: Shown | null) => void;
  /** Makes the borders of the hold movable. `settled` is false while a hand is still on it. */
  onBorderMove?: (border: Border, to_s: number, settled: boolean) => void;
  /** Puts a border back to where it was worked out. */
  onBorderBack?: (border: Border) => void;
}
