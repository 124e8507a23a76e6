import { loadKernels, type Kernels } from './load.ts';

/** Kernels that go along a column some rows at a time, and the lists through which rows go in and results come out. */
export interface ColumnKernels extends Kernels {
  /** Rows that the lists hold. */
  readonly rows: number;
  /** Levels that a grid may have. */
  readonly levels: number;
  readonly times: Float64Array;
  readonly values: Float64Array;
  readonly results: Float64Array;
  /** A byte a row. */
  readonly marks: Uint8Array;
  /** Rows that were left to the script, the first rows of their windows, and the rows after their last: three lists in one. */
  readonly doubts: Int32Array;
  /** Counts by level, all zero between two uses. */
  readonly counts: Int32Array;
  /** The reading at each level, for a grid that is not decimal. */
  readonly table: Float64Array;
}

/** With fewer rows the script is done before the kernels are there. */
const FEWEST_ROWS = 4096;
const PAGE = 65536;
/** Rows of a piece: few enough to stay near at hand, and that a better compiled kernel comes into use soon, with the next call. */
const PIECE_ROWS = 4096;

/** undefined: not loaded yet; null: there are none, or somebody has them. */
let idle: ColumnKernels | null | undefined;

/**
 * Lends the kernels. One at a time may have them, since they share one memory: who asks in between goes the script's own way.
 * @param rows how many there are to go along
 * @param use not called where there are no kernels, or where the rows are too few to be worth it
 * @returns what `use` returned; null where it was not called
 */
export function withColumnKernels<T>(rows: number, use: (kernels: ColumnKernels) => T): T | null {
  return rows < FEWEST_ROWS ? null : withKernelsAnyway(use);
}

/** The same for any number of rows. */
export function withKernelsAnyway<T>(use: (kernels: ColumnKernels) => T): T | null {
  if (idle === undefined) idle = loadColumnKernels();
  const kernels = idle;
  if (kernels === null) return null;
  // Who fails on the way may leave anything in the memory: it is given up then.
  idle = null;
  const result = use(kernels);
  idle = kernels;
  return result;
}

/** Goes over rows in pieces that the kernels take. @param over gets the first row and the row after the last */
export function inPieces(from: number, to: number, over: (from: number, to: number) => void): void {
  for (let start = from; start < to; start += PIECE_ROWS) over(start, Math.min(start + PIECE_ROWS, to));
}

function loadColumnKernels(): ColumnKernels | null {
  const kernels = loadKernels(0);
  if (kernels === null) return null;
  const { memory } = kernels,
    missing = kernels.placesEnd() - memory.buffer.byteLength;
  try {
    memory.grow(Math.ceil(missing / PAGE));
  } catch {
    return null;
  }
  const { buffer } = memory,
    rows = kernels.mostRows(),
    levels = kernels.mostLevels();
  return {
    ...kernels,
    rows,
    levels,
    times: new Float64Array(buffer, kernels.placeOfTimes(), rows),
    values: new Float64Array(buffer, kernels.placeOfValues(), rows),
    results: new Float64Array(buffer, kernels.placeOfResults(), rows),
    marks: new Uint8Array(buffer, kernels.placeOfMarks(), rows),
    doubts: new Int32Array(buffer, kernels.placeOfDoubts(), 3 * rows),
    counts: new Int32Array(buffer, kernels.placeOfCounts(), levels),
    table: new Float64Array(buffer, kernels.placeOfTable(), levels),
  };
}
