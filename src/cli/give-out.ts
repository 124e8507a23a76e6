import path from 'node:path';
import type { Outcome } from './command.ts';
import { STANDARD } from './input-file.ts';
import type { Terminal } from './terminal.ts';
import { checkOutputs, writeOutputs, type Output } from './write-outputs.ts';

/** The files that a command was given: null for an option that was left out. */
export interface Files {
  inputs: readonly (string | null)[];
  json: string | null;
  records: readonly string[];
}

/** Looks at inputs and outputs before the work begins. null: all is well. */
export function checkFiles({ inputs, json, records }: Files): Outcome | null {
  const named = inputs.filter((name) => name !== null);
  if (named.filter((name) => name === STANDARD).length > 1)
    return { usage: 'standard input (-) can be only one of the inputs' };
  const outputs = [...records, ...(json === null || json === STANDARD ? [] : [json])];
  const places = outputs.map((name) => path.resolve(name));
  const twice = outputs.find((_, index) => places.indexOf(places[index] ?? '') < index);
  if (twice !== undefined) return { usage: `two outputs would go to ${twice}` };
  const problems = checkOutputs(outputs, named);
  return problems.length > 0 ? { problems } : null;
}

/** The result of a command, as data and for people. */
export interface Finding {
  json: string | null;
  /** JSON text. */
  data: string;
  text: () => string;
}

/**
 * Writes the files, then says the result: files first, so that what is said is kept. With `--json -` the data alone goes to standard
 * output.
 * @returns what stopped it, null when all is written
 */
export async function giveOut(
  { json, data, text }: Finding,
  records: readonly Output[],
  terminal: Terminal,
): Promise<Outcome | null> {
  const files = [...records];
  if (json !== null && json !== STANDARD) files.push({ name: json, content: [data] });
  const problem = await writeOutputs(files);
  if (problem) return { problems: [problem] };
  await terminal.write(json === STANDARD ? data : text());
  return null;
}
