// Our numbers beside those of scipy and numpy for seeded series: the largest relative difference of each quantity.
// Outside `npm test`, since it needs python3 with scipy. The table it prints is kept in tests/certified/cross-check.md.
//   node scripts/cross-check.mjs [series]      default 50
import { execFileSync } from 'node:child_process';
import { build } from 'vite';

const SERIES = Number(process.argv[2] ?? 50);

/** Modules as one bundle in memory. */
async function bundled(names) {
  const id = 'virtual:all';
  const result = await build({
    configFile: false,
    logLevel: 'error',
    ssr: { noExternal: true },
    plugins: [
      {
        name: 'all',
        resolveId: (source) => (source === id ? `\0${id}` : null),
        load: (source) =>
          source === `\0${id}` ? names.map((name) => `export * from '#${name}.ts';`).join('\n') : null,
      },
    ],
    build: { ssr: true, write: false, target: 'node20', minify: false, rolldownOptions: { input: id } },
  });
  const { output } = Array.isArray(result) ? result[0] : result;
  const code = output.find((part) => part.type === 'chunk' && part.isEntry).code;
  return import(`data:text/javascript;base64,${Buffer.from(code).toString('base64')}`);
}
const ours = await bundled([
  'statistics/theil-sen',
  'statistics/mann-kendall',
  'statistics/fit-line',
  'statistics/least-squares',
  'statistics/fit-exponential-approach',
  'statistics/student-t',
  'statistics/normal',
  'statistics/lag-one-correlation',
  'statistics/mean',
  'statistics/quantile',
  'signal/welch',
  'signal/smooth',
]);

function generator(seed) {
  let state = seed >>> 0;
  const uniform = () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let t = state;
    t = Math.imul(t ^ (t >>> 15), t | 1);
    t ^= t + Math.imul(t ^ (t >>> 7), t | 61);
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
  return {
    uniform,
    normal: () => Math.sqrt(-2 * Math.log(1 - uniform())) * Math.cos(2 * Math.PI * uniform()),
  };
}

const cases = Array.from({ length: SERIES }, (_, index) => {
  const { uniform, normal } = generator(index + 1);
  const n = 120 + Math.floor(200 * uniform());
  const t = Array.from({ length: n }, (_v, i) => i / 60);
  const drift = 4 * uniform() - 2;
  const pressure = t.map((hours) => 410 + drift * hours + normal());
  const constant = 0.2 + 0.5 * uniform();
  const oil = t.map((hours) => 85 - 60 * Math.exp(-hours / constant) + 0.3 * normal());
  return { t, pressure, oil, nu: 2 + 40 * uniform(), p: 0.5 + 0.499 * uniform() };
});

const python = `
import json, sys, numpy, scipy
from scipy import stats, signal, optimize
out = []
for c in json.load(sys.stdin):
    t, y, o = (numpy.array(c[k]) for k in ('t', 'pressure', 'oil'))
    n = len(t)
    line = stats.linregress(t, y)
    a, cov = optimize.curve_fit(lambda t, s, f, k: f - (f - s) * numpy.exp(-t / k), t, o, p0=(20, 80, 0.4), ftol=1e-15, xtol=1e-15, gtol=1e-15)
    X = numpy.column_stack([numpy.ones(n), o, t])
    b, rss, _, _ = numpy.linalg.lstsq(X, y, rcond=None)
    C = numpy.linalg.inv(X.T @ X) * rss[0] / (n - 3)
    others = numpy.column_stack([numpy.ones(n), t])
    r = o - others @ numpy.linalg.lstsq(others, o, rcond=None)[0]
    s = sum(numpy.sign(y[j] - y[i]) for i in range(n) for j in range(i + 1, n))
    z = (s - numpy.sign(s)) / numpy.sqrt(n * (n - 1) * (2 * n + 5) / 18)
    f, d = signal.welch(y, 60, nperseg=100)
    half = 7
    out.append({
        'mean': y.mean(), 'standard deviation': y.std(ddof=1), 'quartile': numpy.quantile(y, 0.25),
        'lag-one correlation': ((y[1:] - y.mean()) * (y[:-1] - y.mean())).sum() / ((y - y.mean()) ** 2).sum(),
        'line: slope': line.slope, 'line: intercept': line.intercept,
        'line: se(slope)': line.stderr, 'line: se(intercept)': line.intercept_stderr,
        'Theil-Sen slope': stats.theilslopes(y, t)[0],
        'Mann-Kendall z': z, 'Mann-Kendall p': 2 * stats.norm.sf(abs(z)),
        'exponential: start': a[0], 'exponential: final': a[1], 'exponential: time constant': a[2],
        'exponential: se(time constant)': cov[2, 2] ** 0.5,
        'two regressors: b1': b[1], 'two regressors: se(b1)': C[1, 1] ** 0.5,
        'two regressors: variance inflation': ((o - o.mean()) ** 2).sum() / (r ** 2).sum(),
        'Student t quantile': stats.t.ppf(c['p'], c['nu']), 'Student t cdf': stats.t.cdf(-c['p'] * 3, c['nu']),
        'normal quantile': stats.norm.ppf(c['p']),
        'Welch density, all bins': d.tolist(),
        'running median, inside': signal.medfilt(y, 2 * half + 1)[half:-half].tolist(),
        'Savitzky-Golay, inside': signal.savgol_filter(y, 2 * half + 1, 2)[half:-half].tolist(),
    })
json.dump({'scipy': scipy.__version__, 'numpy': numpy.__version__, 'out': out}, sys.stdout)
`;
const theirs = JSON.parse(
  execFileSync('python3', ['-c', python], { input: JSON.stringify(cases), maxBuffer: 1e9 }),
);

const worst = new Map();
cases.forEach(({ t, pressure, oil, nu, p }, index) => {
  const y = Float64Array.from(pressure);
  const line = ours.fitLine(t, y);
  const test = ours.mannKendall(y);
  const fit = ours.fitExponentialApproach(t, oil);
  const two = ours.leastSquares([t.map(() => 1), oil, t], y);
  const seconds = Float64Array.from(y, (_, i) => i);
  const smooth = (method) => Array.from(ours.smooth(seconds, y, { method, window_s: 14 }, []).slice(7, -7));
  const result = {
    mean: ours.mean(y),
    'standard deviation': ours.sampleStandardDeviation(y),
    quartile: ours.quantile(y, 0.25),
    'lag-one correlation': ours.lagOneCorrelation(y),
    'line: slope': line.slope,
    'line: intercept': line.intercept,
    'line: se(slope)': line.slopeStandardError,
    'line: se(intercept)': line.interceptStandardError,
    'Theil-Sen slope': ours.theilSen(t, y).slope,
    'Mann-Kendall z': test.z,
    'Mann-Kendall p': test.probability,
    'exponential: start': fit.start,
    'exponential: final': fit.final,
    'exponential: time constant': fit.timeConstant,
    'exponential: se(time constant)': fit.timeConstantStandardError,
    'two regressors: b1': two.coefficients[1],
    'two regressors: se(b1)': two.standardErrors[1],
    'two regressors: variance inflation': two.varianceInflation[1],
    'Student t quantile': ours.studentTQuantile(p, nu),
    'Student t cdf': ours.studentTCdf(-p * 3, nu),
    'normal quantile': ours.normalQuantile(p),
    'Welch density, all bins': Array.from(ours.welch(y, 60, 100).density),
    'running median, inside': smooth('median'),
    'Savitzky-Golay, inside': smooth('savitzky-golay'),
  };
  for (const [name, value] of Object.entries(result)) {
    const other = theirs.out[index][name];
    const a = Array.isArray(value) ? value : [value];
    const b = Array.isArray(other) ? other : [other];
    // A list is compared against its largest entry: an entry near zero has no digits of its own.
    const scale = Math.max(...b.map(Math.abs));
    const difference = Math.max(...a.map((entry, i) => Math.abs(entry - b[i]))) / scale;
    if (a.length !== b.length) throw new Error(`${name}: ${a.length} against ${b.length}`);
    if (!(difference <= (worst.get(name)?.difference ?? -1)))
      worst.set(name, { difference, seed: index + 1, ours: a[0], theirs: b[0] });
  }
});
console.log(
  `${SERIES} seeded series against scipy ${theirs.scipy}, numpy ${theirs.numpy}: where they differ most\n`,
);
console.log('| quantity | ours | theirs | relative difference | seed |\n|---|---|---|---|---|');
for (const [name, { difference, seed, ours: a, theirs: b }] of worst)
  console.log(`| ${name} | ${a} | ${b} | ${difference.toExponential(1)} | ${seed} |`);
