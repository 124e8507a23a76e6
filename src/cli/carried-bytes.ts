import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { gunzipSync } from 'node:zlib';

/**
 * The bytes of a file that the build carries behind the code of the one program file, where they cost a start nothing.
 * @param address `carried:NAME` in the built program; a data: address where the sources are run as they are, as tests do
 */
export function carriedBytes(address: string): Uint8Array {
  if (!address.startsWith('carried:'))
    return new Uint8Array(Buffer.from(address.slice(address.indexOf(',') + 1), 'base64'));
  const name = address.slice('carried:'.length);
  const base64 = carriedFiles().get(name);
  if (base64 === undefined) throw new Error(`The program file is not whole: it does not carry ${name}`);
  return new Uint8Array(gunzipSync(Buffer.from(base64, 'base64')));
}

let files: Map<string, string> | null = null;

/** Each carried file by its name, in base64. */
function carriedFiles(): Map<string, string> {
  if (files !== null) return files;
  const text = readFileSync(fileURLToPath(import.meta.url), 'latin1');
  const carried = text.slice(text.lastIndexOf('/* carried'));
  files = new Map(
    carried.split('\n').flatMap((line) => {
      const [, name, base64] = /^(\S+) ([A-Za-z0-9+/]+=*)$/u.exec(line) ?? [];
      return name === undefined || base64 === undefined ? [] : [[name, base64] as const];
    }),
  );
  return files;
}
