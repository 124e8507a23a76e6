import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import path from 'node:path';
import { gzipSync } from 'node:zlib';
import { build, defineConfig, type Plugin } from 'vite';

// pdfkit's Node build cannot be bundled and writes other bytes than its browser build: the browser build is used everywhere.
const pdfkit = path.join(
  path.dirname(createRequire(import.meta.url).resolve('pdfkit')),
  'pdfkit.browser.mjs',
);
const { version } = JSON.parse(readFileSync('package.json', 'utf8')) as { version: string };

/** Stands for the slash of a comment's end within the code; `scripts/load-program.mjs` puts it back. */
const MASK = '\x1f';

/** What is a module in the program file: it loads the code that stands behind it in a comment. */
function starter(): string {
  const loader = readFileSync('scripts/load-program.mjs', 'utf8').replace('export function', 'function');
  return `import { fileURLToPath } from 'node:url';\n${loader}\nexport const { main } = loadProgram(fileURLToPath(import.meta.url));`;
}

/**
 * The code stands in a comment, for `scripts/load-program.mjs` to hand it to the engine with what it compiled before. Fonts and the renderer's program stand behind it in another, which `src/cli/carried-bytes.ts` reads for a record: as texts of
 * the code they made every start wait and every process larger, by the compiling of four megabytes. The code itself is in ASCII
 * alone, with other letters as escapes: the engine keeps a text of one byte a letter then, where one Greek letter makes it two.
 */
function codeAndCarried(): Plugin {
  const carried = new Map<string, string>();
  const MARK = '\0carried:';
  return {
    name: 'code-and-carried',
    enforce: 'pre',
    async resolveId(id, importer) {
      const [file = '', query = ''] = id.split('?');
      if (!query.split('&').includes('inline')) return null;
      const found = await this.resolve(file, importer, { skipSelf: true });
      return found === null ? null : `${MARK}${found.id}`;
    },
    load(id) {
      if (!id.startsWith(MARK)) return null;
      const file = id.slice(MARK.length);
      const name = path.basename(file);
      carried.set(name, gzipSync(readFileSync(file), { level: 9 }).toString('base64'));
      return `export default ${JSON.stringify(`carried:${name}`)};`;
    },
    generateBundle(_, bundle) {
      for (const made of Object.values(bundle)) {
        if (made.type !== 'chunk') continue;
        const ascii = made.code.replaceAll(/\P{ASCII}/gu, (letter) =>
          letter
            .split('')
            .map((unit) => `\\u${unit.charCodeAt(0).toString(16).padStart(4, '0')}`)
            .join(''),
        );
        if (ascii.includes(MASK))
          throw new Error('The code holds the letter that masks the end of a comment');
        // A function, whole as the engine gets it: put together there it would lie in memory twice.
        const whole = `(function (exports, require, __filename) {${ascii}\n})\n`;
        const masked = whole.replaceAll('*/', `*${MASK}`);
        const lines = [...carried].map(([name, base64]) => `${name} ${base64}\n`);
        made.code = `${starter()}\n/* program, in ${masked.length} bytes:\n${masked}*/\n/* carried, compressed, in base64:\n${lines.join('')}*/\n`;
      }
    },
  };
}

/** `file?thread`: the file with all that it imports as the text of a script, for a thread that needs but a small part of the program. */
function threadCode(): Plugin {
  const MARK = '\0thread:';
  return {
    name: 'thread-code',
    enforce: 'pre',
    async resolveId(id, importer) {
      if (!id.endsWith('?thread')) return null;
      const found = await this.resolve(id.slice(0, -'?thread'.length), importer, { skipSelf: true });
      return found === null ? null : `${MARK}${found.id}`;
    },
    async load(id) {
      if (!id.startsWith(MARK)) return null;
      const made = await build({
        configFile: false,
        logLevel: 'error',
        root: import.meta.dirname,
        publicDir: false,
        ssr: { noExternal: true },
        build: {
          ssr: id.slice(MARK.length),
          write: false,
          target: 'node20',
          minify: true,
          rolldownOptions: { output: { format: 'cjs', codeSplitting: false } },
        },
      });
      const [first] = [made].flat();
      const chunk = first !== undefined && 'output' in first ? first.output[0] : null;
      if (chunk === null) throw new Error('the script of the thread was not built');
      return `export default ${JSON.stringify(chunk.code)};`;
    },
  };
}

/** The command line as one file that needs nothing beside it. */
export default defineConfig({
  define: { PROGRAM_VERSION: JSON.stringify(version) },
  resolve: { alias: { pdfkit } },
  ssr: { noExternal: true },
  publicDir: false,
  plugins: [threadCode(), codeAndCarried()],
  build: {
    ssr: 'src/cli/main.ts',
    target: 'node20',
    minify: false,
    rolldownOptions: {
      output: { format: 'cjs', entryFileNames: 'overdrive-bench.mjs', codeSplitting: false },
    },
  },
});
