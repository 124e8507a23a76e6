import { analyse, type Analysis } from '#analysis/analyse.ts';
import type { Choice } from '#formats/judge.ts';
import type { Log } from '#formats/log.ts';
import type { Problem } from '#formats/problem.ts';
import type { Rig } from '#formats/rig.ts';
import type { Spec } from '#formats/spec.ts';

interface Options {
  rig?: Rig | null;
  spec?: Spec | null;
  choices?: Choice[];
}

function run(log: Log, { rig = null, spec = null, choices = [] }: Options): ReturnType<typeof analyse> {
  const pressure = log.channels.find(({ role }) => role === 'pressure');
  if (!pressure) throw new Error('the made log has no pressure');
  return analyse({ log, pressure, rig, spec, choices });
}

/** The analysis of a made log; a refusal is a mistake of the test. */
export function analysed(log: Log, options: Options = {}): Analysis {
  const result = run(log, options);
  if (!result.ok) throw new Error(JSON.stringify(result.problems));
  return result.value;
}

/** Why the choices of a made run are refused. */
export function refusal(log: Log, options: Options): Problem[] {
  const result = run(log, options);
  return result.ok ? [] : result.problems;
}

export const codes = ({ remarks }: Analysis): string[] => remarks.map(({ code }) => code);
