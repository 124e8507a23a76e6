// Loads the one file of the built command line. Its code stands there as a text (vite.cli.config.ts), not as a module of its own:
// only so can the engine be handed what it compiled at an earlier run, the code cache beside the file. That is half of a start. A
// cache that is missing, damaged, of another program or of another Node costs time and nothing else. The build puts this file at the
// head of the program file too, so that it can be imported from where it was copied alone.
import { createHash } from 'node:crypto';
import { closeSync, openSync, readFileSync, readSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import vm from 'node:vm';

/** Before and behind the code in the program file. Within the code an end of a comment has MASK for its slash. */
const BEFORE = '\n/* program, in ';
const MASK = 0x1f,
  SLASH = 0x2f;
/** The head of the file is shorter than that. */
const HEAD_BYTES = 16_384;
const DIGEST_BYTES = 32;
/** Exit codes up to this one: a run was judged. */
const MOST_OF_JUDGED = 2;

/** Where the engine's own form of a program is kept: one file for each version of Node and kind of processor. */
const cacheOf = (file) => `${file}.${process.version}-${process.arch}.cache`;

/**
 * Reads a program file, compiles its code or takes it from the cache, and runs it.
 * @param file its path
 * @returns the program's main, and whether it was compiled before or now
 */
export function loadProgram(file) {
  const { text, digest, line } = readCode(file);
  const cached = readCache(cacheOf(file), digest);
  const script = new vm.Script(text, {
    filename: file,
    lineOffset: line,
    ...(cached === null ? {} : { cachedData: cached }),
    importModuleDynamically: vm.constants?.USE_MAIN_CONTEXT_DEFAULT_LOADER,
  });
  // The data itself is let go with this call.
  const isCached = cached !== null;
  const program = {};
  script.runInThisContext()(program, createRequire(file), file);
  const { main } = program;
  return {
    compiled: isCached && script.cachedDataRejected === false ? 'before' : 'now',
    main: async (argv) => {
      const code = await main(argv);
      // Judging runs most of what all commands need. Refused by the engine, a whole cache stays: it was made under other settings.
      if (!isCached && argv[0] === 'assess' && code <= MOST_OF_JUDGED)
        writeCache(cacheOf(file), digest, script);
      return code;
    },
  };
}

/** The code of a program file, as one byte a letter: that is how the engine keeps it smallest. */
function readCode(file) {
  const handle = openSync(file, 'r');
  try {
    const head = Buffer.alloc(HEAD_BYTES);
    const until = readSync(handle, head, 0, HEAD_BYTES, 0);
    const before = head.subarray(0, until).indexOf(BEFORE);
    const start = head.indexOf('\n', before + 1) + 1;
    const length = parseInt(head.toString('latin1', before + BEFORE.length, start), 10);
    if (before < 0 || !(length > 0)) throw new Error('The program file is not whole: it holds no program');
    const code = Buffer.allocUnsafe(length);
    if (readSync(handle, code, 0, length, start) < length)
      throw new Error('The program file is not whole: it ends within the program');
    const digest = createHash('sha256').update(process.version).update(code).digest();
    for (let at = 0; (at = code.indexOf(MASK, at)) >= 0;) code[at] = SLASH;
    return { text: code.latin1Slice(), digest, line: lines(head.subarray(0, start)) };
  } finally {
    closeSync(handle);
  }
}

function lines(bytes) {
  let count = 0;
  for (const byte of bytes) if (byte === 10) count++;
  return count;
}

/** The engine's data out of a cache; null where there is none for this program, or a damaged one. */
function readCache(cache, digest) {
  try {
    const bytes = readFileSync(cache);
    const data = bytes.subarray(2 * DIGEST_BYTES);
    const isWhole = bytes
      .subarray(0, 2 * DIGEST_BYTES)
      .equals(Buffer.concat([digest, createHash('sha256').update(data).digest()]));
    return isWhole ? data : null;
  } catch {
    return null;
  }
}

/** Keeps what the engine compiled until now. Beside its place and renamed: whoever starts meanwhile finds a whole one or none. */
function writeCache(cache, digest, script) {
  const making = `${cache}-${process.pid}`;
  try {
    const data = script.createCachedData();
    writeFileSync(making, Buffer.concat([digest, createHash('sha256').update(data).digest(), data]));
    renameSync(making, cache);
  } catch {
    // A read-only folder or a full disk: each start compiles for itself.
    rmSync(making, { force: true });
  }
}
