import { unzlibSync } from 'fflate';

const latin = (bytes: Uint8Array): string => Buffer.from(bytes).toString('latin1');

/** A file with one of its objects replaced by a later one, as any program saves a change: an update behind its end. */
export function withObject(pdf: Uint8Array, number: number, object: Uint8Array): Uint8Array {
  const text = latin(pdf);
  const previous = /startxref\s+(\d+)\s+%%EOF\s*$/u.exec(text)?.[1] ?? '0';
  const root = /\/Root (\d+) 0 R/u.exec(text)?.[1] ?? '1';
  const size = /\/Size (\d+)/u.exec(text)?.[1] ?? '1';
  const head = Buffer.from(`\n${number} 0 obj\n`, 'latin1');
  const at = pdf.length + 1;
  const body = Buffer.concat([pdf, head, object, Buffer.from('\nendobj\n', 'latin1')]);
  const table = `xref\n${number} 1\n${String(at).padStart(10, '0')} 00000 n \ntrailer\n<</Size ${size}/Root ${root} 0 R/Prev ${previous}>>\nstartxref\n${body.length}\n%%EOF\n`;
  return new Uint8Array(Buffer.concat([body, Buffer.from(table, 'latin1')]));
}

const streamObject = (bytes: Uint8Array): Uint8Array =>
  Buffer.concat([
    Buffer.from(`<</Length ${bytes.length}>>\nstream\n`, 'latin1'),
    bytes,
    Buffer.from('\nendstream', 'latin1'),
  ]);

/** A file whose attachment of a name holds other bytes. */
export function withAttachment(
  pdf: Uint8Array,
  name: string,
  change: (bytes: Buffer) => Uint8Array,
): Uint8Array {
  const text = latin(pdf);
  const escaped = name.replace(/[.()]/gu, '\\$&');
  const specification = new RegExp(`\\(${escaped}\\) (\\d+) 0 R`, 'u').exec(text)?.[1];
  const stream = Number(
    new RegExp(`\\n${specification} 0 obj[\\s\\S]*?/EF <<\\s*/F (\\d+) 0 R`, 'u').exec(text)?.[1],
  );
  return withObject(pdf, stream, streamObject(change(Buffer.from(streamOf(pdf, stream)))));
}

/** A file of which a page's orders are others. */
export function withPage(pdf: Uint8Array, page: number, change: (orders: string) => string): Uint8Array {
  const contents = [...latin(pdf).matchAll(/\/Contents (\d+) 0 R/gu)].map(([, number]) => Number(number));
  const number = contents[page - 1] ?? 0;
  const orders = latin(streamOf(pdf, number));
  const changed = change(orders);
  if (changed === orders) throw new Error('nothing was changed');
  return withObject(pdf, number, streamObject(Buffer.from(changed, 'latin1')));
}

/** Bytes of a packed stream, as this program's own writer makes it. */
function streamOf(pdf: Uint8Array, number: number): Uint8Array {
  const text = latin(pdf);
  const at = text.indexOf(`\n${number} 0 obj`);
  const length = Number(/\/Length (\d+)/u.exec(text.slice(at, at + 600))?.[1]);
  const from = text.indexOf('stream\n', at) + 7;
  return unzlibSync(pdf.subarray(from, from + length));
}
