import { existsSync, mkdirSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { describe, expect, it } from 'vitest';
import { ownFolder, run, sample, shortRun, specOf } from './run-command.ts';

const folder = ownFolder();
function file(name: string, text: string): string {
  const place = path.join(folder, name);
  writeFileSync(place, text);
  return place;
}
const rows = (header: string, cells: string): string =>
  `${header}\n${Array.from({ length: 60 }, (_, t) => `${t},${cells}`).join('\n')}\n`;
const good = file('good.csv', shortRun(120));
const json = (name: string, data: unknown): string => file(name, JSON.stringify(data));
const spec = {
  format: 'overdrive-bench/spec',
  version: 1,
  name: 'x',
  pressureBand: { low: 400, high: 420, unit: 'psi' },
};
const rig = { format: 'overdrive-bench/rig', version: 1, name: 'x' };
mkdirSync(path.join(folder, 'a-folder'));

/** Arguments, what standard error must name, and what it must offer. */
const cases: [string, string[], RegExp[]][] = [
  [
    'an empty file',
    ['assess', file('empty.csv', ''), '--band', '400..420 psi'],
    [/empty\.csv is empty/u, /again/u],
  ],
  ['blanks alone', ['inspect', file('blank.csv', ' \n\n  \n')], [/blank\.csv is empty/u]],
  [
    'a heading without readings',
    ['inspect', file('heading.csv', 'time_s,pressure (psi)\n')],
    [/heading\.csv/u, /no row with a reading/u],
  ],
  [
    'prose',
    ['inspect', file('letter.csv', 'Dear customer,\nthe unit is ready.\nYours\n')],
    [/letter\.csv/u, /no table of readings|no column that can be read as time/u],
  ],
  [
    'a file that is not there',
    ['inspect', path.join(folder, 'nothing.csv')],
    [/nothing\.csv cannot be read/u, /no such file/u],
  ],
  [
    'a folder instead of a file',
    ['inspect', path.join(folder, 'a-folder')],
    [/a-folder cannot be read: it is a folder/u],
  ],
  [
    'two pressure columns and no rig',
    [
      'assess',
      file('two.csv', rows('time_s,P main (psi),P line (psi)', '410.1,409.8')),
      '--band',
      '400..420 psi',
    ],
    [/two\.csv has more than one pressure column: "P main \(psi\)", "P line \(psi\)"/u, /rig file/u],
  ],
  [
    'no unit anywhere',
    ['assess', file('unitless.csv', rows('time_s,pressure', '410.1')), '--band', '400..420 psi'],
    [/unitless\.csv: the pressure column "pressure" has no unit/u, /"unit": "psi"/u],
  ],
  [
    'a spec that is not there',
    ['assess', good, '--spec', path.join(folder, 'none.json')],
    [/none\.json cannot be read/u],
  ],
  [
    'a spec that is not JSON',
    ['assess', good, '--spec', file('broken.json', '{\n "format": \n}')],
    [/broken\.json, line 3 is not JSON/u],
  ],
  [
    'a rig for a spec',
    ['assess', good, '--spec', json('rig.json', rig)],
    [/rig\.json is not the file it should be/u, /overdrive-bench\/spec/u],
  ],
  [
    'a spec with an unknown key',
    ['assess', good, '--spec', json('unknown.json', { ...spec, colour: 'blue' })],
    [/unknown\.json: colour: is not a key/u],
  ],
  [
    'low above high',
    [
      'assess',
      good,
      '--spec',
      json('upside.json', { ...spec, pressureBand: { low: 420, high: 400, unit: 'psi' } }),
    ],
    [/upside\.json: pressureBand: low \(420\) must be less than high \(400\)/u],
  ],
  [
    'a unit of the wrong kind in a spec',
    [
      'assess',
      good,
      '--spec',
      json('warm.json', { ...spec, pressureBand: { low: 4, high: 5, unit: 'degC' } }),
    ],
    [/warm\.json: pressureBand\.unit: must be one of/u],
  ],
  [
    'low equal to high in a band',
    ['assess', good, '--band', '400..400 psi'],
    [/"400\.\.400 psi" cannot be read/u, /Write it like/u],
  ],
  ['a band without a unit', ['assess', good, '--band', '400..420'], [/the unit is missing/u]],
  [
    'a band with a decimal comma',
    ['assess', good, '--band', '27,5..29 bar'],
    [/the decimal mark is a point/u],
  ],
  [
    'a rig whose column the log lacks',
    [
      'assess',
      good,
      '--band',
      '400..420 psi',
      '--rig',
      json('other-rig.json', { ...rig, channels: [{ column: 'Druck', role: 'pressure', unit: 'psi' }] }),
    ],
    [/no column "Druck"/u, /pressure \(psi\)/u],
  ],
  [
    'a judge without a why',
    [
      'assess',
      good,
      '--band',
      '400..420 psi',
      '--judge',
      json('judge.json', {
        format: 'overdrive-bench/judge',
        version: 1,
        choices: [{ what: 'hold-start', from_s: 50, by: 'A. B.' }],
      }),
    ],
    [/judge\.json: choices\[0\]\.why: is missing/u],
  ],
  [
    'a choice that leaves too little hold',
    [
      'assess',
      sample('clean-pass'),
      '--spec',
      specOf('example-400-420'),
      '--judge',
      json('short.json', {
        format: 'overdrive-bench/judge',
        version: 1,
        choices: [{ what: 'hold-end', to_s: 3000, by: 'A. B.', why: 'tea' }],
      }),
    ],
    [/Choice 1 of the judge file is refused/u],
  ],
];

describe('input that cannot be used (exit 3)', () => {
  it.each(cases)('%s: says what, where and what would mend it', async (_, argv, sentences) => {
    const target = path.join(folder, 'result.json');
    const { code, stdout, stderr } = await run([...argv, '--json', target]);
    expect(stderr).not.toMatch(/\n\s+at |node:internal/u);
    expect({ code, stdout }).toEqual({ code: 3, stdout: '' });
    for (const sentence of sentences) expect(stderr).toMatch(sentence);
    expect(stderr.trimEnd().split('\n')).toHaveLength(1);
    expect(existsSync(target)).toBe(false);
  });
});
