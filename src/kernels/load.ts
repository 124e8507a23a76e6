import { program } from './program.ts';

/**
 * What is compiled ahead: functions over the numbers in one piece of memory, which they share with the script. Addresses count bytes.
 * Their sources, in AssemblyScript, stand in `kernels/`; each says what it reads and writes.
 */
export interface Kernels {
  readonly memory: { readonly buffer: ArrayBuffer; grow(pages: number): number };
  prepare(): void;
  readRows(
    from: number,
    end: number,
    most: number,
    width: number,
    delimiter: number,
    mark: number,
    missingFlag: number,
  ): number;
  rowsRead(): number;
  missingRead(): number;
  oddCells(): number;
  // Where the lists stand through which rows go in and results come out, how many rows and levels they hold, and where they end
  // (kernels/places.ts; `ColumnKernels` has them as lists).
  mostRows(): number;
  mostLevels(): number;
  placeOfTimes(): number;
  placeOfValues(): number;
  placeOfResults(): number;
  placeOfMarks(): number;
  placeOfDoubts(): number;
  placeOfCounts(): number;
  placeOfTable(): number;
  placesEnd(): number;
  // Grids of columns (kernels/grid.ts, kernels/window.ts); what looks further says 0 where it cannot.
  beginGrid(): void;
  lookForGrid(rows: number): number;
  gridFactor(): number;
  gridLow(): number;
  gridHigh(): number;
  setDecimalGrid(levelsAUnit: number, levelZero: number, levels: number): void;
  setTableGrid(low: number, step: number, levels: number): void;
  countLevels(rows: number): void;
  clearCounts(): void;
  // Windows, their medians, and spikes (kernels/window.ts).
  beginWindows(half_s: number, samplesAside: number, ring: number, spikes: boolean): void;
  feedRows(place: number, rows: number): number;
  endStretch(): void;
  nextMedians(closed: boolean, most: number): number;
  setSpikes(threshold: number, floor: number): void;
  nextSpikes(closed: boolean, most: number): number;
  spikesFound(): number;
  doubtsFound(): number;
  // Sustained levels (kernels/sustained.ts).
  beginSustained(interval_s: number, gap_s: number, atLeast_s: number, ring: number): void;
  sustain(rows: number): number;
  sustainedBest(): number;
  sustainedLowest(): number;
  // Sums (kernels/sums.ts).
  beginSums(start_s: number): void;
  addUp(rows: number, marked: boolean): void;
  addTimes(rows: number): void;
  addBlock(rows: number): void;
  sumFound(): number;
  sumLost(): number;
  sumCount(): number;
  readingsFound(): number;
  timesFound(): number;
  // Sums by weight (kernels/weighted.ts).
  beginWeighted(usual_s: number, gap_s: number, reference: number): void;
  setBand(low: number, high: number): void;
  addWeighted(rows: number): void;
  addShares(rows: number): void;
  addMarked(rows: number, one: number, other: number): void;
  weightedReference(): number;
  weighMedians(rows: number, next_s: number): void;
  weightFound(): number;
  weightedSumFound(): number;
  weightedLowest(): number;
  weightedHighest(): number;
  weightAbove(): number;
  weightBelow(): number;
  // Medians (kernels/middle.ts).
  medianOf(rows: number): number;
  groupedMedianOf(rows: number, step: number): number;
  beginMany(): void;
  takeDistances(rows: number): void;
  lookAtMany(rows: number): void;
  manyCount(): number;
  manyLowest(): number;
  manyHighest(): number;
  countMany(rows: number, scale: number): void;
  takeBucket(rows: number, scale: number, bucket: number): number;
  manyBelow(): number;
  beginBetween(): void;
  takeBetween(rows: number, least: number, most: number): number;
  manyUnder(): number;
  // The line through a hold, and batches about it (kernels/line.ts).
  beginLine(middle_s: number, reference: number): void;
  addLineSums(rows: number): void;
  lineReadings(): number;
  lineWeight(): number;
  lineTimes(): number;
  linePressures(): number;
  beginAbout(meanTime_s: number, mean: number): void;
  addAbout(rows: number): void;
  aboutSquares(): number;
  aboutProducts(): number;
  beginBatches(slope: number, held_s: number, batches: number): void;
  addToBatches(rows: number, earlier_s: number, start_s: number): void;
  // Spans of windows (kernels/spans.ts).
  beginSpans(window_s: number, fewest: number): void;
  startSpans(time_s: number): void;
  takeSpans(rows: number): number;
  lastSpan(): number;
  // Extents of blocks (kernels/extents.ts).
  blockExtents(rows: number, blockRows: number, blocks: number): void;
  // Steps from row to row, and the walk along a log's times (kernels/steps.ts).
  beginSteps(first: number, usual: number): void;
  addSteps(rows: number): void;
  stepsBack(): number;
  stepsOfNothing(): number;
  shorterSteps(): number;
  usualSteps(): number;
  longerSteps(): number;
  walkTimes(
    rows: number,
    last: number,
    axis: number,
    shift: number,
    median: number,
    gapTicks: number,
    ticksPerSecond: number,
  ): number;
  walkedTo(): number;
  walkedAxis(): number;
  // Spectra (kernels/spectrum.ts).
  addPower(readings: number): number;
}
/** What a script engine offers for it; the types of page and Node are not known here. */
interface Machine {
  Module: new (bytes: Uint8Array) => object;
  Instance: new (module: object) => { exports: Kernels };
}

const PAGE = 65536;
let compiled: object | undefined;

/**
 * What the engine compiled of the kernels, to be sent to another thread: what either has them compiled better, both have then. Null
 * where there is no WebAssembly.
 */
export function compiledKernels(): object | null {
  const machine = (globalThis as unknown as { WebAssembly?: Machine }).WebAssembly;
  if (machine === undefined) return null;
  try {
    return (compiled ??= new machine.Module(bytesOf(program)));
  } catch {
    return null;
  }
}

/** Takes what another thread has compiled; before the first use. */
export function takeCompiled(kernels: object): void {
  compiled = kernels;
}

/**
 * The kernels with a memory of their own.
 * @param bytes how large the memory is to be at least
 * @returns null where the engine has no WebAssembly or may not use it (a page whose policy forbids it): the script's own way gives the same bits then
 */
export function loadKernels(bytes: number): Kernels | null {
  const machine = (globalThis as unknown as { WebAssembly?: Machine }).WebAssembly,
    module = compiledKernels();
  if (machine === undefined || module === null) return null;
  try {
    const { exports } = new machine.Instance(module);
    const pages = Math.ceil(bytes / PAGE) - exports.memory.buffer.byteLength / PAGE;
    if (pages > 0) exports.memory.grow(pages);
    return exports;
  } catch {
    return null;
  }
}

const LETTERS = 'ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/';

function bytesOf(base64: string): Uint8Array {
  const length = (base64.length / 4) * 3 - (base64.endsWith('==') ? 2 : base64.endsWith('=') ? 1 : 0);
  const bytes = new Uint8Array(length),
    worth = new Uint8Array(128);
  for (let i = 0; i < LETTERS.length; i++) worth[LETTERS.charCodeAt(i)] = i;
  for (let i = 0, at = 0; i < base64.length; i += 4, at += 3) {
    let four = 0;
    for (let k = i; k < i + 4; k++) four = four * 64 + (worth[base64.charCodeAt(k)] ?? 0);
    bytes[at] = four >> 16;
    // Behind the end nothing is kept.
    bytes[at + 1] = four >> 8;
    bytes[at + 2] = four;
  }
  return bytes;
}
