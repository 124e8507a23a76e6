/** Smallest of 1, 2, 5 × 10ⁿ that is at least this large. */
export function roundStepAtLeast(size: number): number {
  if (!(size > 0) || !Number.isFinite(size)) return 1;
  const power = Math.floor(Math.log10(size));
  for (const digit of [1, 2, 5, 10]) {
    // As a literal, so that no multiplication adds a last bit.
    const step = digit === 10 ? Number(`1e${power + 1}`) : Number(`${digit}e${power}`);
    if (step >= size * (1 - 1e-9)) return step;
  }
  return Number(`1e${power + 1}`);
}

/** Multiples of a step from … to, ends included. */
export function multiples(step: number, from: number, to: number): number[] {
  const result: number[] = [];
  const first = Math.ceil(from / step - 1e-6),
    last = Math.floor(to / step + 1e-6);
  for (let k = first; k <= last && result.length < 10_000; k++)
    result.push(Number((k * step).toPrecision(12)) + 0);
  return result;
}
