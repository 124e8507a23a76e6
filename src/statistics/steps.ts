import { inPieces, withColumnKernels, type ColumnKernels } from '#kernels/column-kernels.ts';
import { inBlocks } from './in-blocks.ts';

/** How a list goes from each entry to the next. */
export interface Steps {
  /** Entries that are less than the one before, and that equal it. */
  falls: number;
  shared: number;
  /** Steps up, and those to or from NaN: less than a step, as long, and longer; neither for NaN counts as as long. */
  shorter: number;
  equal: number;
  longer: number;
}

/**
 * Counts the steps of a list.
 * @param usual the step that others are counted against
 */
export function stepsOf(values: Float64Array, usual = 0): Steps {
  return (
    withColumnKernels(values.length, (kernels) => stepsByKernel(kernels, values, usual)) ??
    stepsByScript(values, usual)
  );
}

/** The steps by kernels, and by the script: the same. */
export function stepsByKernel(kernels: ColumnKernels, values: Float64Array, usual: number): Steps {
  kernels.beginSteps(values[0] ?? NaN, usual);
  inPieces(1, values.length, (from, to) => {
    kernels.values.set(values.subarray(from, to));
    kernels.addSteps(to - from);
  });
  return {
    falls: kernels.stepsBack(),
    shared: kernels.stepsOfNothing(),
    shorter: kernels.shorterSteps(),
    equal: kernels.usualSteps(),
    longer: kernels.longerSteps(),
  };
}

/** See {@link stepsByKernel}. */
export function stepsByScript(values: Float64Array, usual: number): Steps {
  const all: Steps = { falls: 0, shared: 0, shorter: 0, equal: 0, longer: 0 };
  inBlocks(1, values.length, (from, to) => {
    let { falls, shared, shorter, equal, longer } = all;
    for (let i = from; i < to; i++) {
      const now = values[i] ?? NaN,
        last = values[i - 1] ?? NaN,
        step = now - last;
      if (now < last) falls++;
      if (now === last) shared++;
      if (step <= 0) continue;
      if (step < usual) shorter++;
      else if (step > usual) longer++;
      else equal++;
    }
    Object.assign(all, { falls, shared, shorter, equal, longer });
  });
  return all;
}
