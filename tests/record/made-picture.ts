import { deflateSync } from 'node:zlib';

/** A PNG of plain pixels, with a note in it that has no business in a record. */
export function madePng(
  width: number,
  height: number,
  more: { alpha?: boolean; note?: string } = {},
): Uint8Array {
  const channels = more.alpha === true ? 4 : 3;
  const rows = Buffer.alloc(height * (1 + width * channels));
  for (let y = 0; y < height; y++)
    for (let x = 0; x < width; x++)
      for (let c = 0; c < channels; c++)
        rows[y * (1 + width * channels) + 1 + x * channels + c] =
          c === 3 ? (x * 255) / width : (x + y) % 2 ? 0 : 200;
  const head = Buffer.alloc(13);
  head.writeUInt32BE(width, 0);
  head.writeUInt32BE(height, 4);
  head[8] = 8;
  head[9] = more.alpha === true ? 6 : 2;
  return Buffer.concat([
    Buffer.from([137, 80, 78, 71, 13, 10, 26, 10]),
    chunk('IHDR', head),
    chunk('tEXt', Buffer.from(`Comment\0${more.note ?? ''}`, 'latin1')),
    chunk('IDAT', deflateSync(rows)),
    chunk('IEND', Buffer.alloc(0)),
  ]);
}

function chunk(type: string, data: Buffer): Buffer {
  const body = Buffer.concat([Buffer.from(type, 'latin1'), data]);
  const result = Buffer.alloc(body.length + 8);
  result.writeUInt32BE(data.length, 0);
  body.copy(result, 4);
  let crc = 0xffffffff;
  for (const byte of body) {
    crc ^= byte;
    for (let bit = 0; bit < 8; bit++) crc = (crc >>> 1) ^ (crc & 1 ? 0xedb88320 : 0);
  }
  result.writeUInt32BE((crc ^ 0xffffffff) >>> 0, body.length + 4);
  return result;
}

/** A JPEG's segments: enough for what looks at them, not a picture to be drawn. */
export function jpegSegments(note: string, components = 3): Uint8Array {
  const segment = (marker: number, data: Buffer): Buffer => {
    const head = Buffer.from([0xff, marker, 0, 0]);
    head.writeUInt16BE(data.length + 2, 2);
    return Buffer.concat([head, data]);
  };
  return Buffer.concat([
    Buffer.from([0xff, 0xd8]),
    segment(0xe0, Buffer.from('JFIF\0')),
    segment(0xe1, Buffer.from(`Exif\0\0${note}`)),
    segment(0xfe, Buffer.from(note)),
    segment(0xc0, Buffer.from([8, 0, 20, 0, 60, components, 1, 0x11, 0])),
    segment(0xda, Buffer.from([1, 1, 0, 0, 63, 0])),
    Buffer.from([1, 2, 3, 0xff, 0xd9]),
    Buffer.from(note),
  ]);
}
