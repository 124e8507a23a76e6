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
} from './window';
export { beginGrid, gridFactor, gridHigh, gridLow, lookForGrid } from './grid';
export { beginSustained, sustain, sustainedBest, sustainedLowest } from './sustained';
export { addTimes, addUp, beginSums, readingsFound, sumCount, sumFound, sumLost, timesFound } from './sums';
export {
  beginMany,
  countMany,
  groupedMedianOf,
  lookAtMany,
  manyBelow,
  manyCount,
  manyHighest,
  manyLowest,
  medianOf,
  takeBucket,
  takeDistances,
} from './middle';
export {
  addShares,
  addWeighted,
  beginWeighted,
  setBand,
  weightAbove,
  weightBelow,
  weightedHighest,
  weightedLowest,
  weightedSumFound,
  weightFound,
} from './weighted';
