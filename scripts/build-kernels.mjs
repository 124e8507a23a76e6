// Compiles kernels/*.ts (AssemblyScript) into WebAssembly and writes it, as text, into src/kernels/program.ts. That file is kept with the
// sources, so that nothing but a change of the kernels needs the compiler; tests/kernels holds the two together.
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { main as compile } from 'assemblyscript/asc';
import { root } from './built-program.mjs';

const written = path.join(root, 'src', 'kernels', 'program.ts');

/** The text of src/kernels/program.ts, as the kernels are now. */
export async function kernelProgram() {
  const folder = mkdtempSync(path.join(os.tmpdir(), 'overdrive-kernels-'));
  try {
    const made = path.join(folder, 'kernels.wasm');
    let said = '';
    const { error } = await compile(
      // Small memory, no garbage collector, no checks that cannot fail: the kernels work on addresses that they are given.
      [
        'kernels/index.ts',
        '-O3',
        '--runtime',
        'stub',
        '--noAssert',
        '--use',
        'abort=',
        '--baseDir',
        root,
        '-o',
        made,
      ],
      {
        stderr: {
          write: (text) => {
            said += text;
          },
        },
      },
    );
    if (error) throw new Error(`The kernels could not be compiled: ${error.message}\n${said}`);
    const base64 = readFileSync(made).toString('base64');
    return [
      '// Written by scripts/build-kernels.mjs from kernels/; change those and run it.',
      '/** The kernels as WebAssembly, in base64. */',
      `export const program =\n  '${base64}';`,
      '',
    ].join('\n');
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

if (process.argv[1] && import.meta.url.endsWith(path.basename(process.argv[1])))
  writeFileSync(written, await kernelProgram());
