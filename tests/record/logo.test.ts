import { describe, expect, test } from 'vitest';
import { problemSentence, type Result } from '#formats/problem.ts';
import { cleanedLogo } from '#record/logo.ts';
import type { Logo } from '#record/record-input.ts';
import { recordHtml } from '#record/record-html.ts';
import { recordPdf } from '#record/record-pdf.ts';
import { recordOf } from './cases.ts';
import { jpegSegments, madePng } from './made-picture.ts';

const note = 'taken at 1 Sample Street';
const holds = (bytes: Uint8Array, text: string): boolean => Buffer.from(bytes).includes(text);
const logoOf = (result: Result<Logo>): Logo => {
  if (!result.ok) throw new Error(result.problems.map(problemSentence).join(' '));
  return result.value;
};
const sentence = (result: Result<Logo>): string =>
  result.ok ? '' : result.problems.map(problemSentence).join(' ');

describe('a logo is cleaned of all but its picture', () => {
  test.each([
    ['PNG', madePng(60, 20, { note }), 'png'],
    ['JPEG', jpegSegments(note), 'jpeg'],
  ] as const)('%s', (_, bytes, kind) => {
    expect(holds(bytes, note)).toBe(true);
    const logo = logoOf(cleanedLogo(bytes, 'logo'));
    expect(logo).toMatchObject({ kind, width: 60, height: 20 });
    expect(holds(logo.bytes, note)).toBe(false);
    // Cleaned once is clean.
    expect(logoOf(cleanedLogo(logo.bytes, 'logo')).bytes).toEqual(logo.bytes);
  });
  test.each([
    ['nothing', new Uint8Array(), 'no PNG or JPEG'],
    ['a drawing', Buffer.from('<svg/>'), 'no PNG or JPEG'],
    ['a PNG cut off', madePng(60, 20).subarray(0, 80), 'no PNG or JPEG'],
    ['a JPEG cut off', jpegSegments('').subarray(0, 30), 'no PNG or JPEG'],
    ['too many pixels', madePng(2400, 2), '2400 by 2 pixels'],
    ['the colours of a printing press', jpegSegments('', 4), 'CMYK'],
  ])('%s is refused with its reason', (_, bytes, reason) => {
    expect(sentence(cleanedLogo(bytes, 'logo.png'))).toContain(reason);
  });
});

test('a logo stands on sheet 1 with its words, in PDF and HTML, and costs no page', async () => {
  for (const alpha of [false, true]) {
    const logo = logoOf(cleanedLogo(madePng(300, 80, { alpha }), 'logo.png'));
    const input = recordOf({}, { logo });
    const bytes = Buffer.from(await recordPdf(input));
    expect(bytes.includes('/Subtype /Image')).toBe(true);
    expect(Buffer.from(await recordPdf(input)).equals(bytes)).toBe(true);
    const plain = Buffer.from(await recordPdf(recordOf({})));
    const pages = (file: Buffer): string | undefined => /\/Count (\d+)/u.exec(file.toString('latin1'))?.[1];
    expect(pages(bytes)).toBe(pages(plain));
    expect(recordHtml(input)).toMatch(
      /<img class="fig" alt="Logo of Example Bench and Overdrive" src="data:image\/png;base64,/u,
    );
  }
});
