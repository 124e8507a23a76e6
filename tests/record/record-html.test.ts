import { describe, expect, test } from 'vitest';
import { openFonts } from '#record/font-set.ts';
import { laidOut } from '#record/laid-out.ts';
import { recordHtml } from '#record/record-html.ts';
import { cases } from './cases.ts';

describe.each(Object.entries(cases))('%s', (_, made) => {
  const input = made();
  const html = recordHtml(input);
  test('asks for nothing from outside', () => {
    const addresses = [...html.matchAll(/\b(?:src|href|url)\s*[=(]\s*["']?([^"')\s>]+)/g)].map(
      ([, address = '']) => address,
    );
    expect(addresses.length).toBeGreaterThan(0);
    for (const address of addresses)
      expect(address.startsWith('data:') || address.startsWith('#')).toBe(true);
    expect(html).not.toMatch(/<script|<link|<img|@import|javascript:/i);
    expect(html).toContain("default-src 'none'");
  });
  test('has the pages of the PDF', () => {
    const { pages } = laidOut(input, openFonts(input.fonts), false);
    expect(html.match(/<section class="page"/g)).toHaveLength(pages.length);
  });
  test('is well-formed: every element that opens closes', () => {
    const open: string[] = [];
    const bare = new Set(['meta', '!doctype', 'path', 'rect', 'circle']);
    for (const [whole, slash, name = ''] of html
      .replace(/<style>[\s\S]*?<\/style>/g, '')
      .matchAll(/<(\/?)([!a-zA-Z0-9]+)[^>]*>/g)) {
      if (bare.has(name) || whole.endsWith('/>')) continue;
      if (slash) expect(open.pop()).toBe(name);
      else open.push(name);
    }
    expect(open).toEqual([]);
  });
  test('has one first heading, named figures and table heads', () => {
    expect(html.match(/<h1>/g)).toHaveLength(1);
    for (const [, label = ''] of html.matchAll(/role="img" aria-label="([^"]*)"/g))
      expect(label.length).toBeGreaterThan(10);
    expect(html).toContain(`<html lang="${input.language}">`);
    expect(html).not.toMatch(/undefined|NaN/);
    const ids = [...html.matchAll(/ id="([^"]+)"/g)].map(([, id]) => id);
    expect(new Set(ids).size).toBe(ids.length);
  });
});

test('what the shop writes stays text', () => {
  const input = cases.pass();
  const html = recordHtml({
    ...input,
    unitRecord: {
      format: 'overdrive-bench/unit-record',
      version: 1,
      customer: '<b onclick="x()">&',
      recordNumber: '"><i>',
    },
  });
  expect(html).toContain('&lt;b onclick=&quot;x()&quot;&gt;&amp;');
  expect(html).not.toContain('<b onclick');
  expect(html).not.toContain('<i>');
});

test('control characters, which no page may hold, become the mark for a lost letter; direction marks stay in their line', () => {
  const input = cases.pass();
  const html = recordHtml({
    ...input,
    unitRecord: {
      format: 'overdrive-bench/unit-record',
      version: 1,
      customer: 'A\u0000B\u001b[31m \u202eC',
    },
  });
  // eslint-disable-next-line no-control-regex -- they are what is looked for
  expect(html).not.toMatch(/[\u0000-\u0008\u000b\u000c\u000e-\u001f]/);
  expect(html).toContain('A\ufffdB\ufffd[31m');
  expect(html).toContain('unicode-bidi:isolate');
});

test('the log is said to be kept apart, since it is not in this file', () => {
  expect(recordHtml(cases.pass())).toContain('kept apart from this file');
});
