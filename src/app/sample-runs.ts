import { sampleFile } from './sample-files.ts';
import { readRig, readSpec, readUnitRecord } from '#formats/check.ts';
import type { Problem, Result } from '#formats/problem.ts';
import type { Rig } from '#formats/rig.ts';
import type { Spec } from '#formats/spec.ts';
import type { UnitRecord } from '#formats/unit-record.ts';

/** One invented run that comes with the program. */
export interface SampleRun {
  log: string;
  spec: string;
  rig: string | null;
  unit: string | null;
  /** What is odd about it, in words. */
  odd: string;
}

/** A sample with everything that it is judged by. */
export interface OpenedSample {
  blob: Blob;
  spec: Spec;
  rig: Rig | null;
  unitRecord: UnitRecord | null;
}

const missing = (file: string, reason: string): Problem => ({ code: 'file-not-readable', file, reason });

async function fetched(file: string): Promise<Result<Response>> {
  try {
    const response = await sampleFile(file);
    if (response.ok) return { ok: true, value: response };
    return { ok: false, problems: [missing(file, 'it is not beside the program')] };
  } catch (error) {
    return { ok: false, problems: [missing(file, error instanceof Error ? error.message : String(error))] };
  }
}

async function checked<T>(
  file: string,
  read: (text: string, file: string | null) => Result<T>,
): Promise<Result<T>> {
  const response = await fetched(file);
  return response.ok ? read(await response.value.text(), file) : response;
}

const isSample = (data: unknown): data is SampleRun =>
  typeof data === 'object' && data !== null && 'log' in data && 'spec' in data && 'odd' in data;

/** The list of samples, each log once: the first way in which it is judged. */
export async function sampleList(): Promise<Result<SampleRun[]>> {
  const response = await fetched('list.json');
  if (!response.ok) return response;
  const data: unknown = await response.value.json();
  const runs: unknown[] =
    typeof data === 'object' && data !== null && 'runs' in data && Array.isArray(data.runs) ? data.runs : [];
  const seen = new Set<string>();
  return {
    ok: true,
    value: runs.filter(isSample).filter(({ log }) => !seen.has(log) && seen.add(log)),
  };
}

export async function openSample(sample: SampleRun): Promise<Result<OpenedSample>> {
  const [log, spec, rig, unit] = await Promise.all([
    fetched(`logs/${sample.log}`),
    checked(`specs/${sample.spec}`, readSpec),
    sample.rig === null ? null : checked(`rigs/${sample.rig}`, readRig),
    sample.unit === null ? null : checked(`units/${sample.unit}`, readUnitRecord),
  ]);
  if (!log.ok) return log;
  if (!spec.ok) return spec;
  if (rig !== null && !rig.ok) return rig;
  if (unit !== null && !unit.ok) return unit;
  return {
    ok: true,
    value: {
      blob: await log.value.blob(),
      spec: spec.value,
      rig: rig?.value ?? null,
      unitRecord: unit?.value ?? null,
    },
  };
}
