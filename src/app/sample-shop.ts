import type { UnitRecord } from '#formats/unit-record.ts';
import { openSample, sampleList } from './sample-runs.ts';

/** One run of the invented shop: which sample log, of which unit, brought in when. */
export interface ShopRun {
  log: string;
  serial: string;
  type: string;
  customer: string;
  at: string;
}

const RELIEF = 'Overdrive, relief and dashpot type',
  HELD = 'Overdrive, held-charge type';

/** Invented: units as a shop has them, some tested twice, one broken off, one too cold to judge. Oldest first. */
export const shopRuns: readonly ShopRun[] = [
  run('far-too-low-all-day.csv', 'B-0402', RELIEF, 'Second Sample Customer', '2026-01-27'),
  run('slow-warm-up.csv', 'B-0402', RELIEF, 'Second Sample Customer', '2026-01-29'),
  run('held-charged-dips-and-recovers.csv', 'H-0117', HELD, 'Third Sample Customer', '2026-02-05'),
  run('power-cut-after-three-hours.csv', 'B-0411', RELIEF, 'A. Sample', '2026-02-18'),
  run('spikes-and-dropouts.csv', 'B-0411', RELIEF, 'A. Sample', '2026-02-19'),
  run('oil-never-warm.csv', 'B-0413', RELIEF, 'First Sample Customer', '2026-02-24'),
  run('gauge-noisier-than-the-band.csv', 'B-0415', RELIEF, 'Fourth Sample Customer', '2026-02-26'),
  run('clean-pass.csv', 'B-0416', RELIEF, 'First Sample Customer', '2026-03-04'),
  run('five-over-the-band.csv', 'B-0417', RELIEF, 'Fourth Sample Customer', '2026-03-05'),
];

function run(log: string, serial: string, type: string, customer: string, day: string): ShopRun {
  return { log, serial, type, customer, at: `${day}T15:10:00.000Z` };
}

/** The runs of the sample shop with everything that they are judged by; those that are not beside the program are left out. */
export async function* openedShop(): AsyncGenerator<{
  run: ShopRun;
  opened: Extract<Awaited<ReturnType<typeof openSample>>, { ok: true }>['value'];
  unitRecord: UnitRecord;
}> {
  const list = await sampleList();
  if (!list.ok) return;
  for (const each of shopRuns) {
    const sample = list.value.find(({ log }) => log === each.log);
    const opened = sample === undefined ? null : await openSample(sample);
    if (opened?.ok !== true) continue;
    const unitRecord: UnitRecord = {
      format: 'overdrive-bench/unit-record',
      version: 1,
      customer: each.customer,
      unit: { serial: each.serial, type: each.type },
    };
    yield { run: each, opened: opened.value, unitRecord };
  }
}
