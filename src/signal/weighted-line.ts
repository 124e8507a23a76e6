import { inPieces, withColumnKernels, type ColumnKernels } from '#kernels/column-kernels.ts';
import { putTimes, type WeightedRows } from './weighted-sums.ts';

/** What the line is of, and the batches of equal time that its rest is cut into. */
export interface LineChoice {
  /** Times are counted from here, readings from one of them. */
  readonly middle_s: number;
  readonly reference: number;
  readonly batches: number;
  /** How long each stretch of rows is; batches are cut from these times alone. */
  readonly lengths_s: readonly number[];
}

/** Sums by weight, the mean, and what the line through the readings leaves in each batch with the batch's weight. */
export interface LineFound {
  readings: number;
  weight: number;
  mean: number;
  sums: Float64Array;
  weights: Float64Array;
}

/**
 * Least squares by weight of the readings on time, and sums of what is left, by batch.
 * @returns null where there are no kernels, or too few rows: the caller's own loops give the same bits then
 */
export function weightedLine(weighted: WeightedRows, choice: LineChoice): LineFound | null {
  const { time_s, values, rows, usual_s, gap_s } = weighted;
  const { middle_s, reference, batches, lengths_s } = choice;
  const along = (kernels: ColumnKernels, add: (rows: number, stretch: number) => void): void =>
    rows.forEach((piece, stretch) =>
      inPieces(piece.from, piece.to, (from, to) => {
        putTimes(kernels, time_s, from, to);
        kernels.values.set(values.subarray(from, to));
        add(to - from, stretch);
      }),
    );
  const many = rows.reduce((sum, { from, to }) => sum + Math.max(0, to - from), 0);
  return withColumnKernels(many, (kernels) => {
    kernels.beginWeighted(usual_s, gap_s, reference);
    kernels.beginLine(middle_s, reference);
    along(kernels, (count) => kernels.addLineSums(count));
    const readings = kernels.lineReadings(),
      weight = kernels.lineWeight(),
      mean = reference + kernels.linePressures() / weight;
    kernels.beginAbout(kernels.lineTimes() / weight, mean);
    along(kernels, (count) => kernels.addAbout(count));
    const squares = kernels.aboutSquares(),
      held_s = lengths_s.reduce((sum, length_s) => sum + length_s, 0);
    kernels.beginBatches(squares > 0 ? kernels.aboutProducts() / squares : 0, held_s, batches);
    const earlier_s = [0];
    for (const length_s of lengths_s) earlier_s.push((earlier_s.at(-1) ?? 0) + length_s);
    along(kernels, (count, stretch) =>
      kernels.addToBatches(count, earlier_s[stretch] ?? NaN, time_s[rows[stretch]?.from ?? NaN] ?? NaN),
    );
    return {
      readings,
      weight,
      mean,
      sums: kernels.results.slice(0, batches),
      weights: kernels.results.slice(batches, 2 * batches),
    };
  });
}
