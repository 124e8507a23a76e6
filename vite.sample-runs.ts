import { readdirSync, readFileSync, statSync } from 'node:fs';
import { gzipSync } from 'node:zlib';
import type { Plugin } from 'vite';

interface SampleRun {
  log: string;
  spec: string;
  rig: string | null;
  odd: string;
  verdict: string;
}
/** Larger logs stay out of the app. */
const SAMPLE_AT_MOST_BYTES = 1_000_000;

/** The sample runs that the app offers, with a list of them; by their names below `sample-runs/`. */
function offeredFiles(): Map<string, Uint8Array> {
  const { runs } = JSON.parse(readFileSync('sample-runs/expected.json', 'utf8')) as { runs: SampleRun[] };
  const units = readdirSync('sample-runs/units').map((name) => ({
    name,
    text: readFileSync(`sample-runs/units/${name}`, 'utf8'),
  }));
  const offered = runs.filter((run) => statSync(`sample-runs/logs/${run.log}`).size <= SAMPLE_AT_MOST_BYTES);
  const list = offered.map(({ log, spec, rig, odd, verdict }) => {
    const serial = /unit (\S+?),/u.exec(readFileSync(`sample-runs/logs/${log}`, 'utf8').slice(0, 200))?.[1];
    const unit = serial === undefined ? null : units.find(({ text }) => text.includes(`"${serial}"`));
    return { log, spec, rig, unit: unit?.name ?? null, odd, verdict };
  });
  const names = [
    ...list.flatMap(({ log, spec, rig }) => [
      `logs/${log}`,
      `specs/${spec}`,
      ...(rig === null ? [] : [`rigs/${rig}`]),
    ]),
    ...units.map(({ name }) => `units/${name}`),
  ];
  const files = new Map<string, Uint8Array>();
  for (const name of new Set(names)) files.set(name, readFileSync(`sample-runs/${name}`));
  files.set('list.json', Buffer.from(`${JSON.stringify({ runs: list }, null, 2)}\n`));
  return files;
}

/** Puts the sample runs, with a list of them, beside the app: they are the same files that the tests judge. */
export function sampleRunsBeside(): Plugin {
  return {
    name: 'sample-runs-beside',
    apply: 'build',
    generateBundle() {
      for (const [name, source] of offeredFiles())
        this.emitFile({ type: 'asset', fileName: `sample-runs/${name}`, source });
    },
  };
}

const INSIDE = 'virtual:sample-runs';

/** The same files as a module, packed: for the app that is one file. */
export function sampleRunsInside(): Plugin {
  return {
    name: 'sample-runs-inside',
    resolveId: (id) => (id === INSIDE ? `\0${INSIDE}` : null),
    load(id) {
      if (id !== `\0${INSIDE}`) return null;
      const packed = [...offeredFiles()].map(([name, source]) => [
        name,
        gzipSync(source, { level: 9 }).toString('base64'),
      ]);
      return `export const packedFiles = ${JSON.stringify(Object.fromEntries(packed))};`;
    },
  };
}
