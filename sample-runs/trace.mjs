// What the invented runs are made of: seeded noise, and functions of + − × ÷ and square roots alone, so that every engine
// writes the same digits.

/** Seeded uniform numbers in [0, 1): a 32-bit mixing generator. */
export function seeded(seed) {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let mixed = Math.imul(state ^ (state >>> 15), 1 | state);
    mixed = (mixed + Math.imul(mixed ^ (mixed >>> 7), 61 | mixed)) ^ mixed;
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 4294967296;
  };
}
/** e^x by halving and the power series. */
export function exp(x) {
  if (x < -700) return 0;
  let halvings = 0,
    small = x;
  while (small > 0.01 || small < -0.01) {
    small /= 2;
    halvings++;
  }
  let sum = 1,
    term = 1;
  for (let i = 1; i < 10; i++) {
    term *= small / i;
    sum += term;
  }
  for (; halvings > 0; halvings--) sum *= sum;
  return sum;
}
/** sin(2πx) by folding to a quarter turn and the power series. */
export function sinTurns(x) {
  let turn = x - Math.floor(x);
  const sign = turn >= 0.5 ? -1 : 1;
  if (turn >= 0.5) turn -= 0.5;
  if (turn > 0.25) turn = 0.5 - turn;
  const angle = turn * 2 * Math.PI,
    square = angle * angle;
  let sum = 0,
    term = angle;
  for (let i = 1; i < 20; i += 2) {
    sum += term;
    term *= -square / ((i + 1) * (i + 2));
  }
  return sign * sum;
}
/** Serially correlated noise with standard deviation 1: near-normal (sum of twelve uniforms), correlation `rho` from sample to sample. */
export function correlatedNoise(random, rho) {
  let last = 0;
  const scale = Math.sqrt(1 - rho * rho);
  return () => {
    let sum = -6;
    for (let i = 0; i < 12; i++) sum += random();
    last = rho * last + scale * sum;
    return last;
  };
}

const pad = (n, width = 2) => String(n).padStart(width, '0');
/** Clock text for seconds after a start on 4 March 2026. */
export const clock = (start_s, form) => {
  const day = 4 + Math.floor(start_s / 86400),
    s = ((start_s % 86400) + 86400) % 86400;
  const hms = `${pad(Math.floor(s / 3600))}:${pad(Math.floor(s / 60) % 60)}:${pad(Math.floor(s) % 60)}`;
  if (form === 'iso') return `2026-03-${pad(day)}T${hms}`;
  if (form === 'blank') return `2026-03-${pad(day)} ${hms}`;
  return `${pad(day)}.03.2026 ${hms}`;
};

/**
 * The usual run: a minute at rest, engaged for `engaged_s`, a minute at rest. `hot` is the pressure once warm, `coldExcess`
 * how much higher it starts and `pressureTau_s` how fast that goes; the oil warms from `oilStart` to `oilEnd` with `oilTau_s`.
 */
export const usual = {
  step_s: 2,
  idle_s: 60,
  engaged_s: 21900,
  after_s: 60,
  seed: 1,
  hot: 410.6,
  coldExcess: 24,
  pressureTau_s: 1500,
  noise: 1.1,
  rho: 0.5,
  oilStart: 18.4,
  oilEnd: 61.5,
  oilTau_s: 1500,
  rest: 0.3,
  current: 0.81,
};
export function trace(options) {
  const o = { ...usual, ...options };
  const random = seeded(o.seed),
    pressureNoise = correlatedNoise(random, o.rho),
    oilNoise = correlatedNoise(random, 0.8);
  const rows = [],
    end_s = o.idle_s + o.engaged_s + o.after_s;
  for (let i = 0; i * o.step_s < end_s; i++) {
    const t = i * o.step_s,
      since = t - o.idle_s;
    // The oil warms while the shaft turns, from the first second of the engagement; it hardly cools in the minute after.
    const warm = since <= 0 ? 0 : 1 - exp(-Math.min(since, o.engaged_s) / o.oilTau_s);
    const oil = o.oilStart + (o.oilEnd - o.oilStart) * warm;
    let p = o.rest;
    const engaged = since >= 0 && since < o.engaged_s;
    if (engaged)
      p = o.hot + o.coldExcess * exp(-since / o.pressureTau_s) + (o.shape ? o.shape(since, oil) : 0);
    if (engaged && since < 4) p *= 1 - exp(-(since + 0.4) / 0.7);
    if (since >= o.engaged_s) p = o.rest + (p === o.rest ? o.hot : p) * exp(-(since - o.engaged_s + 0.5) / 2);
    const noise = pressureNoise() * (engaged ? o.noise : 0.15);
    rows.push({
      t,
      p: p + noise,
      oil: oil + 0.12 * oilNoise(),
      engaged,
      current: engaged ? o.current - 0.04 * warm : 0,
    });
  }
  return rows;
}

export const lines = (head, body) => [...head, ...body].join('\n') + '\n';
export const plain = (rows, decimals = 1) =>
  lines(
    ['elapsed_s,pressure_psi,oil_degC'],
    rows.map((r) => `${r.t},${r.p.toFixed(decimals)},${r.oil.toFixed(1)}`),
  );
