// A seeded warm-up of an invented unit as readings by time: pressure, oil, shaft, solenoid.
import { closeSync, openSync, writeSync } from 'node:fs';

export const READINGS_A_SECOND = 100;
/** Six hours of them: 2.16 million rows. BENCH_ROWS takes fewer. */
export const ROWS = Number(process.env.BENCH_ROWS ?? 2_160_000);
const LINES_AT_ONCE = 20_000;

export const names = ['time', 'pressure_psi', 'oil_degC', 'shaft_rpm', 'solenoid_mA'];

/** ISO times between commas. */
export const plain = {
  heading: names.join(','),
  row: (t, cells) => `${t.toISOString()},${cells.join(',')}`,
};

/** Seeded noise: mulberry32, and Box–Muller on it. */
function noise(seed) {
  let state = seed >>> 0;
  const uniform = () => {
    state = (state + 0x6d2b79f5) | 0;
    let t = Math.imul(state ^ (state >>> 15), 1 | state);
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
  return () => Math.sqrt(-2 * Math.log(1 - uniform())) * Math.cos(2 * Math.PI * uniform());
}

/**
 * @param {string} file
 * @param {{ heading: string, row: (t: Date, cells: string[]) => string }} dialect
 */
export function writeSeededLog(file, { heading, row }) {
  const gauss = noise(7);
  const out = openSync(file, 'w');
  let lines = [heading];
  const start = Date.UTC(2026, 2, 4, 8, 15, 0);
  for (let i = 0; i < ROWS; i++) {
    const t_s = i / READINGS_A_SECOND;
    const warm = Math.exp(-t_s / 1500);
    const cells = [
      (410 + 24 * warm - t_s / 12000 + 1.1 * gauss()).toFixed(2),
      (61.5 - 43.1 * warm + 0.2 * gauss()).toFixed(2),
      (1800 + 4 * gauss()).toFixed(1),
      (810 + 2 * gauss()).toFixed(1),
    ];
    lines.push(row(new Date(start + (1000 / READINGS_A_SECOND) * i), cells));
    if (lines.length === LINES_AT_ONCE) {
      writeSync(out, `${lines.join('\n')}\n`);
      lines = [];
    }
  }
  if (lines.length > 0) writeSync(out, `${lines.join('\n')}\n`);
  closeSync(out);
}
