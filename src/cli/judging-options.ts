import { specFromBand } from '#formats/band.ts';
import { readRig, readSpec } from '#formats/check.ts';
import type { Result } from '#formats/problem.ts';
import type { Rig } from '#formats/rig.ts';
import type { Spec } from '#formats/spec.ts';
import type { Given, Option } from './command.ts';
import { readSettings } from './input-file.ts';

/** Options that several commands take. */
export const rigOption: Option = {
  value: 'FILE',
  help: 'the bench: columns, units, ranges and what its gauges are good for (JSON; schema rig)',
};
export const specOption: Option = { value: 'FILE', help: 'the limits to judge by (JSON; schema spec)' };
export const bandOption: Option = {
  value: 'BAND',
  help: 'a pressure band alone: "400..420 psi", "400.. psi", "..420 psi"',
};
export const jsonOption: Option = {
  value: 'FILE|-',
  help: 'writes the result as JSON; - for standard output, and nothing else',
};

/** What a run is read with and judged by. */
export interface Judging {
  rig: Rig | null;
  spec: Spec | null;
}

/** Reads `--rig` and `--spec` or `--band`. */
export async function readJudging(given: Given): Promise<Result<Judging>> {
  const rig = await readSettings(given.option('rig'), readRig);
  if (!rig.ok) return rig;
  const band = given.option('band');
  const spec: Result<Spec | null> =
    band === null ? await readSettings(given.option('spec'), readSpec) : specFromBand(band);
  return spec.ok ? { ok: true, value: { rig: rig.value, spec: spec.value } } : spec;
}
