import { describe, expect, test } from 'vitest';
import { problemSentence, type Result } from '#formats/problem.ts';
import { cleanedLogo } from '#record/logo.ts';
import { PdfFile } from '#record/pdf-file.ts';
import { pdfPages } from '#record/pdf-pages.ts';
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
    ['nothing', new Uint8Array(), 'no PNG, JPEG or SVG'],
    ['a drawing of nothing', Buffer.from('<svg viewBox="0 0 1 1"></svg>'), 'it shows nothing'],
    ['a PNG cut off', madePng(60, 20).subarray(0, 80), 'no PNG, JPEG or SVG'],
    ['a JPEG cut off', jpegSegments('').subarray(0, 30), 'no PNG, JPEG or SVG'],
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

describe('a drawn logo', () => {
  const drawn = (inner: string, attributes = 'viewBox="0 0 120 40"'): Uint8Array =>
    Buffer.from(
      `\ufeff<?xml version="1.0"?><!-- made at 1 Sample Street --><!DOCTYPE svg><svg xmlns="http://www.w3.org/2000/svg" ${attributes}>${inner}</svg>`,
    );
  const textOf = (result: Result<Logo>): string => Buffer.from(logoOf(result).bytes).toString();
  const gear =
    '<style>.a{fill:#123456}.b,.c{stroke:red;fill:none}</style><g transform="translate(10 5)" opacity=".5"><rect class="a" width="20" height="30" rx="3"/><circle class="b" cx="40" cy="15" r="10" style="stroke-width:2px"/></g><path d="M60 5l20 0a5 5 0 015 5v20h-25z" fill-rule="evenodd"/>';

  test('is read as shapes, in its own places and colours; cleaned once is clean', () => {
    const once = textOf(cleanedLogo(drawn(gear), 'logo.svg'));
    expect(logoOf(cleanedLogo(drawn(gear), 'logo.svg'))).toMatchObject({
      kind: 'svg',
      width: 120,
      height: 40,
    });
    expect(once.match(/<path /gu)).toHaveLength(3);
    expect(once).toContain('transform="matrix(1 0 0 1 10 5)" fill="#123456" fill-opacity="0.5"');
    expect(once).toContain('stroke="#ff0000" stroke-width="2" stroke-opacity="0.5"');
    // Flags of an arc that stand together are told apart.
    expect(once).toContain('M 60 5 l 20 0 a 5 5 0 0 1 5 5 v 20 h -25 z');
    expect(textOf(cleanedLogo(Buffer.from(once), 'logo.svg'))).toBe(once);
  });
  test.each([
    ['a script', '<script>alert(1)</script>'],
    ['a script in a namespace', '<svg:script>alert(1)</svg:script>'],
    ['an event handler', '<rect width="9" height="9" onclick="alert(1)" onload="alert(1)"/>'],
    ['a link', '<a href="https://alert.example/"><rect width="9" height="9"/></a>'],
    ['an animation that sets a link', '<set attributeName="href" to="javascript:alert(1)"/>'],
    ['a note', '<metadata>alert</metadata><title>alert</title><!-- alert -->'],
    [
      'what a program keeps for itself',
      '<program:view alert="1"/><defs><image href="https://alert.example/"/></defs>',
    ],
    ['code behind CDATA', '<script><![CDATA[</svg>alert(1)]]></script>'],
  ])('leaves behind %s', (_, inner) => {
    const text = textOf(cleanedLogo(drawn(`${inner}<path d="M0 0H9V9Z"/>`), 'logo.svg'));
    expect(text).toContain('<path d="M 0 0 H 9 V 9 Z"');
    expect(text).not.toMatch(/alert|script|href|on\w+=|<(?!\/?svg|path)/u);
  });
  test.each([
    ['text', '<text>A</text>', 'turn it into paths'],
    ['a picture', '<image href="data:image/png;base64,AA"/>', 'picture within it'],
    ['a part of another format', '<foreignObject><p>A</p></foreignObject>', 'another format'],
    ['a reference', '<use href="other.svg#a"/>', 'by reference'],
    ['a gradient', '<rect width="9" height="9" fill="url(#g)"/>', 'gradient'],
    [
      'a gradient by style',
      '<rect width="9" height="9" style="fill:url(https://a.example/#g)"/>',
      'gradient',
    ],
    ['a mask', '<rect width="9" height="9" mask="url(#m)"/>', 'mask'],
    [
      'a style sheet from elsewhere',
      '<style>@import url(https://a.example/a.css);</style><path d="M0 0H9"/>',
      'style sheet',
    ],
    ['a broken path', '<path d="M0 0 L 5"/>', 'path that cannot be read'],
    ['a colour that nobody knows', '<path d="M0 0H9V9Z" fill="nocolour"/>', 'write it as #rrggbb'],
    ['an element that is none', '<wheel/>', 'not drawn here'],
  ])('is refused for %s, with what to do', (_, inner, reason) => {
    expect(sentence(cleanedLogo(drawn(inner), 'logo.svg'))).toContain(reason);
  });
  test.each([
    [
      'entities of its own',
      '<!DOCTYPE svg [<!ENTITY a "b">]><svg viewBox="0 0 9 9"><path d="M0 0H9V9Z"/></svg>',
    ],
    ['no end', '<svg viewBox="0 0 9 9"><path d="M0 0H9V9Z"/>'],
    ['no size', '<svg><path d="M0 0H9V9Z"/></svg>'],
    ['two roots', '<svg viewBox="0 0 9 9"><path d="M0 0H9V9Z"/></svg><svg/>'],
  ])('is refused for %s', (_, text) => {
    expect(cleanedLogo(Buffer.from(text), 'logo.svg').ok).toBe(false);
  });

  test('goes into the PDF as lines and areas, no picture of pixels, and into the HTML as a drawing', async () => {
    const logo = logoOf(cleanedLogo(drawn(gear), 'logo.svg'));
    const input = recordOf({}, { logo });
    const bytes = Buffer.from(await recordPdf(input));
    expect(bytes.includes('/Subtype /Image')).toBe(false);
    expect(Buffer.from(await recordPdf(input)).equals(bytes)).toBe(true);
    const [page] = pdfPages(new PdfFile(bytes));
    const content = Buffer.from(page?.content ?? []).toString('latin1');
    // 0x12, 0x34, 0x56 of 255.
    expect(content).toMatch(/0\.0705\d* 0\.2039\d* 0\.3372\d* scn/u);
    expect(content).toContain('f*');
    expect(recordHtml(input)).toMatch(
      /<img class="fig" alt="Logo of Example Bench and Overdrive" src="data:image\/svg\+xml;base64,/u,
    );
  });
});
