import { readFileSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { describe, expect, it } from 'vitest';
import { ownFolder, run } from './run-command.ts';

// A real water loop near zero bar (github waico/SKAB, GPL-3.0, commit b2c0d46): real noise, steps and negative values. What counts is
// that it is read, charted and honestly called no engagement.
const folder = process.env['OPEN_DATA_DIR'];
if (folder === undefined)
  console.log('tests/commands/open-data: skipped, OPEN_DATA_DIR does not name the folder of real logs');

describe.skipIf(folder === undefined)('a real water loop', () => {
  const own = ownFolder();
  for (const name of ['normal_run.csv', 'valve_closing_1.csv'])
    it(`${name} is read, charted, and not judged for want of an engagement`, async () => {
      const rig = path.join(own, 'rig.json');
      const chart = path.join(own, 'chart.svg');
      writeFileSync(
        rig,
        JSON.stringify({
          format: 'overdrive-bench/rig',
          version: 1,
          name: 'water loop',
          channels: [
            { column: 'Pressure', role: 'pressure', unit: 'bar' },
            { column: 'Temperature', role: 'oil-temperature', unit: 'degC' },
          ],
        }),
      );
      const log = path.join(folder ?? '', 'waterloop-testbed', name);
      const { code, stdout } = await run([
        'assess',
        log,
        '--rig',
        rig,
        '--band',
        '27.5..29 bar',
        '--json',
        '-',
        '--record',
        chart,
      ]);
      expect(code).toBe(2);
      const found: unknown = JSON.parse(stdout);
      expect(found).toMatchObject({
        verdict: 'not-assessed',
        quantities: { operatingPressure: { value: null, unit: 'bar' }, engagements: [] },
      });
      // The lowest reading is below zero and stays so: gauge pressure is not bent.
      const pressure = Reflect.get(Object(Reflect.get(Object(found), 'log')), 'channels').find(
        (channel: { role: string | null }) => channel.role === 'pressure',
      );
      expect(pressure.min).toBeLessThan(0);
      expect(pressure.valid).toBeGreaterThan(1000);
      expect(readFileSync(chart, 'utf8')).toMatch(/^<svg|<\?xml/u);
    });
});
