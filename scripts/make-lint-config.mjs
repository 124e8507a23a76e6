// Writes .oxlintrc.json from the import table below, so that table, lint and src/README.md cannot drift apart unseen.
// tests/rooms/ checks that the file on disk is the one this script writes and that a forbidden import fails.
import { writeFileSync } from 'node:fs';

/** room → what it may import: other rooms by name, packages by name, `node:` for Node's own modules. */
export const rooms = {
  units: { rooms: [], packages: [] },
  formats: { rooms: ['units'], packages: ['zod'] },
  kernels: { rooms: [], packages: [] },
  statistics: { rooms: ['kernels'], packages: ['simple-statistics'] },
  signal: { rooms: ['statistics', 'kernels'], packages: [] },
  log: { rooms: ['units', 'formats', 'statistics', 'kernels'], packages: ['papaparse', 'fflate'] },
  analysis: { rooms: ['units', 'formats', 'signal', 'statistics'], packages: [] },
  decision: { rooms: ['units', 'formats', 'statistics'], packages: [] },
  assessment: { rooms: ['units', 'formats', 'signal', 'analysis', 'decision'], packages: [] },
  comparison: { rooms: ['units', 'formats', 'statistics'], packages: [] },
  relief: { rooms: ['units', 'formats', 'statistics', 'decision'], packages: [] },
  drawing: { rooms: ['units', 'formats', 'signal'], packages: [] },
  record: { rooms: ['units', 'formats', 'drawing'], packages: ['pdfkit', 'uqr', '@fontsource/*', 'fflate'] },
  book: { rooms: ['units', 'formats'], packages: ['idb', 'fflate'] },
  worker: {
    rooms: ['units', 'formats', 'log', 'assessment', 'comparison', 'relief', 'drawing', 'record', 'book'],
    packages: ['hash-wasm', 'fflate', 'read-excel-file', '@resvg/*', '@fontsource/*'],
  },
  app: {
    rooms: ['units', 'formats', 'worker', 'drawing', 'book'],
    packages: ['react', 'react-dom', 'virtual:sample-runs'],
  },
  cli: {
    rooms: ['units', 'formats', 'log', 'assessment', 'comparison', 'relief', 'drawing', 'record', 'book'],
    packages: ['node:', 'fflate', 'read-excel-file', '@resvg/*', '@fontsource/*'],
  },
};
/** Rooms without DOM, Node, clock, randomness or console. */
export const pureRooms = [
  'units',
  'formats',
  'kernels',
  'log',
  'signal',
  'statistics',
  'analysis',
  'decision',
  'assessment',
  'comparison',
  'relief',
  'drawing',
];
/** Functions whose last bit differs between JavaScript engines; statistics/elementary.ts has our own. */
const engineDependent = [
  'exp',
  'expm1',
  'log',
  'log10',
  'log1p',
  'log2',
  'pow',
  'sin',
  'cos',
  'tan',
  'asin',
  'acos',
  'atan',
  'atan2',
  'sinh',
  'cosh',
  'tanh',
  'asinh',
  'acosh',
  'atanh',
  'cbrt',
];

const importRule = (room, extra = []) => {
  const { rooms: allowed, packages } = rooms[room];
  const group = ['*', '!./**'];
  for (const other of [...allowed, room === 'app' ? 'app' : null])
    if (other) group.push(`!\\#${other}/**`, `!#${other}/**`);
  for (const name of [...packages, ...extra])
    group.push(...(name === 'node:' ? ['!node:*', '!node:*/**'] : [`!${name}`, `!${name}/**`]));
  const may = [...allowed, ...packages, ...extra].join(', ') || 'nothing';
  return [
    'error',
    {
      patterns: [
        { group, message: `${room} may import: ${may} (src/README.md)` },
        { group: ['../**'], message: 'write #room/file.ts' },
      ],
    },
  ];
};
const pureRules = {
  'no-console': 'error',
  'no-restricted-globals': [
    'error',
    'window',
    'document',
    'process',
    'console',
    'performance',
    'fetch',
    'navigator',
    'setTimeout',
    'setInterval',
    'crypto',
    'self',
    'Buffer',
  ],
  'no-restricted-properties': [
    'error',
    { object: 'Date', property: 'now', message: 'the clock is an argument' },
    { object: 'Math', property: 'random', message: 'randomness is an argument' },
    ...engineDependent.map((property) => ({
      object: 'Math',
      property,
      message: 'differs between engines in the last bit: use #statistics/elementary.ts',
    })),
  ],
  'typescript/explicit-module-boundary-types': 'error',
  'prefer-exponentiation-operator': 'off',
};

export const config = {
  $schema: './node_modules/oxlint/configuration_schema.json',
  plugins: ['typescript', 'import', 'react', 'unicorn'],
  categories: { correctness: 'error', suspicious: 'warn' },
  env: { builtin: true },
  // AssemblyScript looks like TypeScript, but its numbers are the machine's.
  ignorePatterns: ['kernels/**', 'dist/**', 'node_modules/**', 'coverage/**'],
  rules: {
    'typescript/no-floating-promises': 'error',
    'typescript/switch-exhaustiveness-check': ['error', { considerDefaultExhaustiveForUnions: true }],
    'typescript/no-explicit-any': 'error',
    'typescript/no-non-null-assertion': 'error',
    'import/no-cycle': 'error',
    'import/default': 'off',
    'import/no-named-as-default-member': 'off',
    'typescript/no-unnecessary-type-parameters': 'off',
    // Workers and channels have no origin to name.
    'unicorn/require-post-message-target-origin': 'off',
    'import/no-unassigned-import': 'off',
    'react/react-in-jsx-scope': 'off',
    'no-shadow': 'off',
    'unicorn/consistent-function-scoping': 'off',
    'typescript/consistent-return': 'off',
    'typescript/no-unsafe-type-assertion': 'off',
    'unicorn/no-array-sort': 'off',
    'unicorn/no-array-reverse': 'off',
    'max-lines': ['warn', { max: 450, skipBlankLines: true, skipComments: true }],
  },
  overrides: [
    // A new room starts closed: only its own files, until it stands in the table.
    {
      files: ['src/*/**'],
      rules: {
        'no-restricted-imports': [
          'error',
          {
            patterns: [
              {
                group: ['*', '!./**'],
                message: 'this room is not in the import table (scripts/make-lint-config.mjs)',
              },
            ],
          },
        ],
      },
    },
    ...Object.keys(rooms).map((room) => ({
      files: [`src/${room}/**`],
      rules: { 'no-restricted-imports': importRule(room), ...(pureRooms.includes(room) ? pureRules : {}) },
    })),
    // Tables of cases are long by nature.
    { files: ['tests/**'], rules: { 'max-lines': 'off' } },
    // The one place that knows the chart library.
    { files: ['src/app/chart/**'], rules: { 'no-restricted-imports': importRule('app', ['uplot']) } },
  ],
};

export const text = () => `${JSON.stringify(config, null, 2)}\n`;
if (process.argv[1] && import.meta.url.endsWith(process.argv[1].split(/[\\/]/).at(-1) ?? ''))
  writeFileSync(new URL('../.oxlintrc.json', import.meta.url), text());
