export { prepare, readRows, rowsRead, missingRead, oddCells } from './rows';
export {
  mostLevels,
  mostRows,
  placeOfCounts,
  placeOfDoubts,
  placeOfMarks,
  placeOfResults,
  placeOfTable,
  placeOfTimes,
  placeOfValues,
  placesEnd,
} from './places';
export {
  beginWindows,
  clearCounts,
  countLevels,
  doubtsFound,
  endStretch,
  feedRows,
  nextMedians,
  nextSpikes,
  setDecimalGrid,
  setSpikes,
  setTableGrid,
  spikesFound,
  weighMedians,
} from './window';
export { beginGrid, gridFactor, gridHigh, gridLow, lookForGrid } from './grid';
export { beginSustained, sustain, sustainedBest, sustainedLowest } from './sustained';
export {
  addBlock,
  addTimes,
  addUp,
  beginSums,
  readingsFound,
  sumCount,
  sumFound,
  sumLost,
  timesFound,
} from './sums';
export {
  beginBetween,
  beginMany,
  countMany,
  groupedMedianOf,
  lookAtMany,
  manyBelow,
  manyCount,
  manyHighest,
  manyLowest,
  manyUnder,
  medianOf,
  takeBetween,
  takeBucket,
  takeDistances,
} from './middle';
export {
  addMarked,
  addShares,
  addWeighted,
  beginWeighted,
  setBand,
  weightAbove,
  weightBelow,
  weightedHighest,
  weightedReference,
  weightedLowest,
  weightedSumFound,
  weightFound,
} from './weighted';
export {
  aboutProducts,
  aboutSquares,
  addAbout,
  addLineSums,
  addToBatches,
  beginAbout,
  beginBatches,
  beginLine,
  linePressures,
  lineReadings,
  lineTimes,
  lineWeight,
} from './line';
export { addPower } from './spectrum';
export { beginSpans, lastSpan, startSpans, takeSpans } from './spans';
export { blockExtents } from './extents';
export {
  addSteps,
  beginSteps,
  longerSteps,
  shorterSteps,
  stepsBack,
  stepsOfNothing,
  usualSteps,
  walkedAxis,
  walkedTo,
  walkTimes,
} from './steps';
