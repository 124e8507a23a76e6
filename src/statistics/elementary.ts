/**
 * Elementary functions made of + − × ÷ alone. IEEE 754 fixes those to the last bit and leaves exp, log, sin and their kin to
 * the engine: results of two JavaScript engines differ in the last bit, and an assessment must be the same text everywhere.
 * Kernels: the polynomial coefficients of the freely available fdlibm (Sun Microsystems, 1993: e_exp.c, e_log.c, k_sin.c,
 * k_cos.c), written down from memory; tests/statistics/elementary.test.ts holds them within a few units in the last place.
 */

/** ln 2 in two parts, the first with trailing zeros so that k × LN2_HIGH is exact. */
const LN2_HIGH = 6.9314718036912381649e-1;
const LN2_LOW = 1.90821492927058770002e-10;
const INVERSE_LN2 = 1.442695040888963387;

const bits = new DataView(new ArrayBuffer(8));

/** 2^k for −1022 ≤ k ≤ 1023, by setting the exponent bits. */
function powerOfTwo(k: number): number {
  bits.setUint32(0, (k + 1023) << 20);
  bits.setUint32(4, 0);
  return bits.getFloat64(0);
}

/** x × 2^k, in two steps where one factor would leave the range of a double. */
function scaled(x: number, k: number): number {
  if (k >= -1022 && k <= 1023) return x * powerOfTwo(k);
  if (k > 1023) return k > 2046 ? x * Infinity : x * powerOfTwo(1023) * powerOfTwo(k - 1023);
  return k < -2044 ? x * 0 : x * powerOfTwo(k + 1022) * powerOfTwo(-1022);
}

/**
 * e to the x.
 * @param x any number
 * @returns within 1 unit in the last place; 0 below −745.2, Infinity above 709.8, NaN for NaN
 * @example exp(1) // 2.7182818284590455, one unit in the last place above the nearest double
 */
export function exp(x: number): number {
  if (Number.isNaN(x)) return x;
  if (x > 709.782712893384) return Infinity;
  if (x < -745.1332191019412) return 0;
  const k = Math.round(x * INVERSE_LN2);
  const high = x - k * LN2_HIGH;
  const low = k * LN2_LOW;
  const r = high - low;
  const t = r * r;
  const c =
    r -
    t *
      (1.66666666666666019037e-1 +
        t *
          (-2.77777777770155933842e-3 +
            t *
              (6.61375632143793436117e-5 + t * (-1.6533902205465251539e-6 + t * 4.13813679705723846039e-8))));
  return scaled(1 - (low - (r * c) / (2 - c) - high), k);
}

/**
 * e to the x, less one, without the loss of digits near zero.
 * @param x any number
 * @returns within 2 units in the last place
 * @example expm1(1e-10) // 1.00000000005e-10
 */
export function expm1(x: number): number {
  if (x < -0.35 || x > 0.35 || Number.isNaN(x)) return exp(x) - 1;
  // Taylor: at |x| ≤ 0.35 the term x¹⁶/16! is below 3e-21.
  let sum = 1;
  for (let n = 15; n > 1; n--) sum = 1 + (x / n) * sum;
  return x * sum;
}

/** ln(1 + f) + k ln 2 + correction for 1 + f in [√½, √2]. */
function logOf(f: number, k: number, correction: number): number {
  const s = f / (2 + f);
  const z = s * s;
  const series =
    z *
    (6.66666666666673513e-1 +
      z *
        (3.999999999940941908e-1 +
          z *
            (2.857142874366239149e-1 +
              z *
                (2.222219843214978396e-1 +
                  z *
                    (1.818357216161805012e-1 +
                      z * (1.531383769920937332e-1 + z * 1.479819860511658591e-1))))));
  const half = 0.5 * f * f;
  return k * LN2_HIGH - (half - (s * (half + series) + (k * LN2_LOW + correction)) - f);
}

/** x = m × 2^k with m in [√½, √2); x positive and finite. */
function split(x: number): { m: number; k: number } {
  let k = 0;
  let value = x;
  if (value < 2.2250738585072014e-308) {
    value *= 18014398509481984;
    k = -54;
  }
  bits.setFloat64(0, value);
  const high = bits.getUint32(0);
  k += (high >>> 20) - 1023;
  bits.setUint32(0, (high & 0xfffff) | 0x3ff00000);
  let m = bits.getFloat64(0);
  if (m >= Math.SQRT2) {
    m *= 0.5;
    k += 1;
  }
  return { m, k };
}

/**
 * Natural logarithm.
 * @param x any number
 * @returns within 1 unit in the last place; NaN below 0, −Infinity at 0
 * @example log(10) // 2.302585092994046
 */
export function log(x: number): number {
  if (!(x > 0)) return x === 0 ? -Infinity : NaN;
  if (x === Infinity) return x;
  const { m, k } = split(x);
  return logOf(m - 1, k, 0);
}

/**
 * Natural logarithm of 1 + x, without the loss of digits near zero.
 * @param x above −1
 * @returns within 2 units in the last place
 * @example log1p(1e-10) // 9.9999999995e-11
 */
export function log1p(x: number): number {
  if (!(x > -1)) return x === -1 ? -Infinity : NaN;
  if (x === Infinity) return x;
  // √½ − 1 … √2 − 1: no scaling needed.
  if (x > -0.29 && x < 0.41) return logOf(x, 0, 0);
  const u = 1 + x;
  const { m, k } = split(u);
  // What was lost in forming 1 + x, to first order.
  const lost = u >= 2 ? 1 - (u - x) : x - (u - 1);
  return logOf(m - 1, k, lost / u);
}

/** sin on |r| ≤ π/4; `tail` is what r lost in the reduction. */
function sinKernel(r: number, tail: number): number {
  const z = r * r;
  const w =
    8.33333333332248946124e-3 +
    z *
      (-1.98412698298579493134e-4 +
        z * (2.75573137070700676789e-6 + z * (-2.50507602534068634195e-8 + z * 1.58969099521155010221e-10)));
  const v = z * r;
  return r - (z * (0.5 * tail - v * w) - tail - v * -1.66666666666666324348e-1);
}

/** cos on |r| ≤ π/4. */
function cosKernel(r: number, tail: number): number {
  const z = r * r;
  const series =
    z *
    (4.16666666666666019037e-2 +
      z *
        (-1.38888888888741095749e-3 +
          z *
            (2.48015872894767294178e-5 +
              z *
                (-2.75573143513906633035e-7 +
                  z * (2.0875723212981748279e-9 + z * -1.13596475577881948265e-11)))));
  const half = 0.5 * z;
  const w = 1 - half;
  return w + (1 - w - half + (z * series - r * tail));
}

/** π/2 in three parts (33 + 33 + rest bits): Cody and Waite's reduction. */
const HALF_PI_1 = 1.57079632673412561417;
const HALF_PI_2 = 6.0771005063039659766e-11;
const HALF_PI_3 = 2.02226624879595063154e-21;

function reduced(x: number): { quarter: number; r: number; tail: number } {
  const n = Math.round(x / (Math.PI / 2));
  const first = x - n * HALF_PI_1;
  const second = n * HALF_PI_2;
  const a = first - second;
  const lost = first - a - second - n * HALF_PI_3;
  const r = a + lost;
  return { quarter: ((n % 4) + 4) % 4, r, tail: a - r + lost };
}

/**
 * Sine of an angle in radians.
 * @param x |x| up to 1e6 (beyond, the reduction loses digits)
 * @returns within 1e-16 absolute; NaN for what is not finite
 * @example sin(1) // 0.8414709848078965
 */
export function sin(x: number): number {
  if (!Number.isFinite(x)) return NaN;
  const { quarter, r, tail } = reduced(x);
  const value = quarter % 2 === 0 ? sinKernel(r, tail) : cosKernel(r, tail);
  return quarter < 2 ? value : -value;
}

/**
 * Cosine of an angle in radians; range and accuracy as {@link sin}.
 * @example cos(1) // 0.5403023058681398
 */
export function cos(x: number): number {
  if (!Number.isFinite(x)) return NaN;
  const { quarter, r, tail } = reduced(x);
  const value = quarter % 2 === 0 ? cosKernel(r, tail) : sinKernel(r, tail);
  return quarter === 0 || quarter === 3 ? value : -value;
}
