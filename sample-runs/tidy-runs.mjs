// Runs with one plain oddity each; README.md says what must come out.
import { clock, correlatedNoise, exp, lines, plain, seeded, sinTurns, trace, usual } from './trace.mjs';

export const tidyRuns = {
  'clean-pass.csv': () =>
    lines(
      [
        '# Bench 1, unit B-0411, pressure at the test port, gauge G-07',
        'time,pressure [psi],oil [degC],solenoid [A]',
      ],
      trace({ step_s: 1, seed: 11 }).map(
        (r) => `${clock(29700 + r.t, 'blank')},${r.p.toFixed(1)},${r.oil.toFixed(1)},${r.current.toFixed(2)}`,
      ),
    ),
  'five-over-the-band.csv': () => plain(trace({ step_s: 1, seed: 12, hot: 424.9 })),
  'far-too-low-all-day.csv': () => plain(trace({ seed: 13, hot: 148, coldExcess: 9 })),
  // Down to 391 psi for twenty minutes after five hours, with edges of a minute.
  'twenty-minutes-below.csv': () =>
    plain(
      trace({
        seed: 14,
        hot: 411,
        shape: (s) => {
          const down = Math.min(Math.max((s - 18000) / 60, 0), 1),
            out = Math.min(Math.max((s - 19260) / 60, 0), 1);
          return -20 * (down - out);
        },
      }),
    ),
  // All of the fall comes from the oil: 0.5 psi for each degree, level once the heat is level.
  'sags-as-the-oil-warms.csv': () =>
    plain(
      trace({ seed: 15, hot: 405, coldExcess: 0, oilTau_s: 4000, shape: (_s, oil) => 0.5 * (61.5 - oil) }),
    ),
  // Falls 6 psi an hour to the end, at level heat too.
  'never-settles.csv': () =>
    plain(trace({ seed: 16, hot: 431, coldExcess: 0, shape: (s) => (-6 * s) / 3600 })),
  'slow-warm-up.csv': () => plain(trace({ seed: 17, hot: 411, coldExcess: 9, oilTau_s: 7200, oilEnd: 64 })),
  'gauge-noisier-than-the-band.csv': () => plain(trace({ seed: 18, hot: 411, noise: 6, rho: 0.3 }), 0),
  'spikes-and-dropouts.csv': () => {
    const rows = trace({ seed: 19, engaged_s: 22500 }),
      random = seeded(190);
    const text = rows.map((r) => [String(r.t), r.p.toFixed(1), r.oil.toFixed(1)]);
    // Not where the logger hangs (rows 6200 to 6349), which would take them out of the count.
    const somewhere = () => {
      const at = 400 + Math.floor(random() * (rows.length - 1000));
      return at < 6100 ? at : at + 300;
    };
    // Distances of 40 rows and more, so that no two oddities share a window; the counts are the expectation.
    const taken = new Set();
    const place = () => {
      for (;;) {
        const at = somewhere();
        if (![...taken].some((other) => Math.abs(other - at) < 40)) {
          taken.add(at);
          return at;
        }
      }
    };
    for (let k = 0; k < 45; k++) {
      const at = place();
      text[at][1] = (rows[at].p + (random() < 0.5 ? -1 : 1) * (60 + 80 * random())).toFixed(1);
    }
    for (let k = 0; k < 12; k++) text[place()][1] = k % 3 === 0 ? 'OPEN' : 'ERR';
    for (let k = 0; k < 6; k++) text[place()][1] = '';
    // The logger hangs for five minutes: no rows at all.
    const hang = 6200;
    return lines(
      ['elapsed_s,pressure_psi,oil_degC'],
      text.filter((_, i) => i < hang || i >= hang + 150).map((cells) => cells.join(',')),
    );
  },
  'power-cut-after-three-hours.csv': () => {
    const whole = plain(trace({ seed: 20, engaged_s: 10800, after_s: 0 }));
    // The supply goes while a row is being written: its last number is cut.
    return whole.slice(0, whole.length - 8);
  },
  'decimal-comma-in-bar.csv': () =>
    '\uFEFF' +
    [
      'Prüfstand 2;Gerät B-0415',
      '',
      'Zeit;Druck;Öl;Magnetstrom',
      ';bar;°C;A',
      ...trace({ seed: 21, hot: 410 }).map((r) =>
        `${clock(27000 + r.t, 'dots')};${(r.p / 14.503773773).toFixed(2)};${r.oil.toFixed(1)};${r.current.toFixed(2)}`.replaceAll(
          '.',
          (mark, at, all) => (at < all.indexOf(';') ? mark : ','),
        ),
      ),
    ].join('\r\n') +
    '\r\n',
  'clock-set-back-an-hour.csv': () =>
    lines(
      ['time,P (psi),T oil (°C)'],
      trace({ seed: 22 }).map(
        (r) =>
          `${clock(30600 + r.t - (r.t >= 9000 ? 3600 : 0), 'iso')},${r.p.toFixed(1)},${r.oil.toFixed(1)}`,
      ),
    ),
  // Engaged for an hour, released for five minutes, engaged for six hours and five minutes: the longer one is the run.
  'two-engagements.csv': () => {
    const first = trace({ seed: 23, engaged_s: 3600, after_s: 300 });
    const second = trace({ seed: 24, idle_s: 0, oilStart: 52, coldExcess: 6 });
    const shift = first.length * usual.step_s;
    return plain([...first, ...second.map((r) => ({ ...r, t: r.t + shift }))]);
  },
  // Ninety seconds at a hundred readings a second: two engagements, ripple of 3 psi peak at the shaft's 16.67 turns a second.
  'fast-hundred-a-second.csv': () => {
    const random = seeded(25),
      noise = correlatedNoise(random, 0.2),
      body = [];
    let p = 18,
      current = 0;
    for (let i = 0; i < 9000; i++) {
      const t = i / 100,
        on = (t >= 10 && t < 40) || (t >= 55 && t < 80);
      const target = on ? 410 : 18;
      // First order, 0.25 s up and 0.8 s down.
      p += (target - p) * (1 - exp(-0.01 / (on ? 0.25 : 0.8)));
      current = on ? 0.82 : 0;
      const ripple = 3 * sinTurns((t * 1000) / 60) * (p / 410);
      body.push(
        `${t.toFixed(2)},${(p + ripple + 0.3 * noise()).toFixed(2)},${(55 + 0.01 * t).toFixed(1)},1000,${current.toFixed(2)}`,
      );
    }
    return lines(['t_s,p_psi,oil_degC,shaft_rpm,solenoid_A'], body);
  },
};
