import { execFileSync } from 'node:child_process';
import { readFileSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { pathToFileURL } from 'node:url';
import type { Page } from 'playwright';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { withAttachment } from '../record/altered-pdf.ts';
import { jpegSegments, madePng } from '../record/made-picture.ts';
import { axe, judgeSample, ownFolder, saved, startApp, type UnderTest } from './app-under-test.ts';

let app: UnderTest;
const folder = ownFolder();
beforeAll(async () => {
  app = await startApp();
});
afterAll(async () => {
  await app.end();
  folder.remove();
});

const out = (name: string): string => path.join(folder.path, name);
const sample = (kind: string, name: string): string => path.join('sample-runs', kind, name);
const save = (page: Page, name: string): Promise<{ name: string; bytes: Buffer }> =>
  saved(page, () => page.getByRole('button', { name, exact: true }).click());
const logo = { name: 'logo.png', mimeType: 'image/png', buffer: Buffer.from(madePng(120, 40)) };
async function recordPlace(page: Page, run = 'Clean pass'): Promise<void> {
  await judgeSample(page, run);
  await page.getByRole('button', { name: 'Make the delivery record' }).click();
  await page.getByRole('img', { name: 'Page 1 of' }).waitFor();
}

describe('the picture of the chart', () => {
  it('is the same to the byte from app and command line, for screen and print', async () => {
    const { page, complaints } = await app.open();
    await recordPlace(page, 'Five over the band');
    for (const [button, size] of [
      ['Save the chart as PNG', 'screen'],
      ['Save the chart as PNG for print', 'print'],
    ] as const) {
      const png = await save(page, button);
      try {
        execFileSync(
          process.execPath,
          [
            'bin/overdrive-bench.mjs',
            'assess',
            sample('logs', 'five-over-the-band.csv'),
            '--spec',
            sample('specs', 'example-400-420.json'),
            '--rig',
            sample('rigs', 'bench-1.json'),
            '--record',
            out(`${size}.png`),
            '--picture',
            size,
          ],
          { stdio: 'ignore' },
        );
      } catch (error) {
        // Exit 1: the run fails, as it should.
        if ((error as { status: number }).status !== 1) throw error;
      }
      expect(png.bytes.equals(readFileSync(out(`${size}.png`)))).toBe(true);
    }
    expect(complaints).toEqual([]);
    await page.context().close();
  });
});

describe('how the record looks', () => {
  it('is kept with the shop: logo, language, paper, what is left out; seen before it is saved', async () => {
    const { page, complaints } = await app.open();
    await recordPlace(page);
    const first = await page.getByRole('img', { name: 'Page 1 of' }).getAttribute('src');
    await page.locator('input[type=file][aria-label=Logo]').setInputFiles(logo);
    await page.getByRole('img', { name: 'The shop’s logo' }).waitFor();
    await page.getByLabel('Language, dates and decimal mark').selectOption('de');
    await page.getByLabel('Paper').selectOption('letter');
    await page.getByLabel('Pressures').selectOption('bar');
    await page.getByLabel('Temperatures').selectOption('degF');
    await page.getByLabel('Uncertainty budget').uncheck();
    await expect
      .poll(() => page.getByRole('img', { name: 'Page 1 of' }).getAttribute('src'), { timeout: 60_000 })
      .not.toBe(first);
    expect(await axe(page)).toEqual([]);
    const html = (await save(page, 'Save as HTML')).bytes.toString();
    expect(html).toContain('<html lang="de">');
    expect(html).toContain('Liefer');
    expect(html).toContain('alt="Zeichen von');
    expect(html).not.toContain('>Messunsicherheit des Betriebsdrucks<');
    expect(html).toContain('weggelassen');
    expect(html).toContain('Druck, bar (Überdruck)');
    expect(html).toContain('beurteilt als 400 bis 420');
    // A drawing in place of the picture, cleaned before it is kept.
    await page.locator('input[type=file][aria-label=Logo]').setInputFiles({
      name: 'logo.svg',
      mimeType: 'image/svg+xml',
      buffer: Buffer.from(
        '<svg viewBox="0 0 90 30"><script>document.title = "run"</script><path onclick="run()" d="M0 0H90V30Z"/></svg>',
      ),
    });
    await expect
      .poll(() => page.getByRole('img', { name: 'The shop’s logo' }).getAttribute('src'))
      .toMatch(/^data:image\/svg\+xml/u);
    const drawn = (await save(page, 'Save as HTML')).bytes.toString();
    const [, packed = ''] = /data:image\/svg\+xml;base64,([\w+/=]+)"/u.exec(drawn) ?? [];
    expect(Buffer.from(packed, 'base64').toString()).toContain(
      '<path d="M 0 0 H 90 V 30 Z" fill="#000000"/>',
    );
    expect(Buffer.from(packed, 'base64').toString()).not.toMatch(/script|onclick/u);
    await page.reload();
    await page.getByRole('img', { name: 'The shop’s logo' }).waitFor();
    expect(await page.getByLabel('Uncertainty budget').isChecked()).toBe(false);
    expect(await page.getByLabel('Pressures').inputValue()).toBe('bar');
    expect(complaints).toEqual([]);
    await page.context().close();
  });
  it('refuses a logo that is none, with its reason, and keeps the one before', async () => {
    const { page } = await app.open();
    await recordPlace(page);
    const chooser = page.locator('input[type=file][aria-label=Logo]');
    await chooser.setInputFiles(logo);
    await page.getByRole('img', { name: 'The shop’s logo' }).waitFor();
    await chooser.setInputFiles({ ...logo, name: 'press.jpg', buffer: Buffer.from(jpegSegments('', 4)) });
    await page.getByText('press.jpg cannot be the logo').waitFor();
    expect(await page.getByRole('img', { name: 'The shop’s logo' }).count()).toBe(1);
    await page.context().close();
  });
});

it('lists what is missing, and says it is whole when it is', async () => {
  const { page } = await app.open();
  await recordPlace(page);
  const missing = page.getByRole('region', { name: 'Before it goes out' });
  await page.getByLabel('Serial').fill('');
  await missing.getByText('No serial').waitFor();
  await page.getByLabel('Serial').fill('B-0411');
  await expect.poll(() => missing.getByText('No serial').count(), { timeout: 60_000 }).toBe(0);
  await page.context().close();
});

describe('a record that went out', () => {
  it('is checked in the app: whole, altered, and none at all', async () => {
    const { page, complaints } = await app.open();
    await recordPlace(page);
    const pdf = await save(page, 'Save the record as PDF');
    const chooser = page.locator('input[type=file][aria-label="Record to check"]');
    const give = (name: string, buffer: Buffer): Promise<void> =>
      chooser.setInputFiles({ name, mimeType: 'application/pdf', buffer });
    await give('whole.pdf', pdf.bytes);
    await page.getByText('Record, log and numbers agree.').waitFor();
    const altered = withAttachment(new Uint8Array(pdf.bytes), 'assessment.json', (bytes) =>
      Buffer.from(bytes.toString().replace('"value": 410', '"value": 412')),
    );
    await give('altered.pdf', Buffer.from(altered));
    await page.getByText('quantities.operatingPressure.value: it says 412').waitFor();
    await give('none.pdf', Buffer.from('%PDF-1.4 but nothing more'));
    await page.getByText('none.pdf is no record that can be checked').waitFor();
    expect(complaints).toEqual([]);
    await page.context().close();
  });
});

describe('the record as HTML', () => {
  it.each([
    ['a4', 'wide', 1280],
    ['letter', 'in the hand', 420],
  ] as const)(
    '%s, %s: from the disk, asks for nothing, axe-core finds nothing, prints to the same pages',
    async (paper, _, width) => {
      const { page: home } = await app.open();
      await recordPlace(home);
      await home.getByLabel('Paper').selectOption(paper);
      await home.locator('input[type=file][aria-label=Logo]').setInputFiles(logo);
      await home.getByRole('img', { name: 'The shop’s logo' }).waitFor();
      const html = await save(home, 'Save as HTML');
      const pdf = await save(home, 'Save the record as PDF');
      writeFileSync(out(`${paper}.html`), html.bytes);
      const context = await app.browser.newContext({ viewport: { width, height: 900 } });
      const page = await context.newPage();
      const asked: string[] = [];
      page.on('request', (request) => asked.push(request.url()));
      await page.goto(pathToFileURL(out(`${paper}.html`)).href);
      expect(asked.filter((url) => !/^(file|data):/u.test(url))).toEqual([]);
      expect(await axe(page)).toEqual([]);
      const pagesOf = (bytes: Buffer): string | undefined =>
        /\/Count (\d+)/u.exec(bytes.toString('latin1'))?.[1];
      const sizeOf = (bytes: Buffer): number[] =>
        (/\/MediaBox \[([\d. ]+)\]/u.exec(bytes.toString('latin1'))?.[1] ?? '')
          .split(' ')
          .map((value) => Math.round(Number(value)));
      const printed = await page.pdf({ preferCSSPageSize: true, printBackground: true });
      expect(pagesOf(printed)).toBe(pagesOf(pdf.bytes));
      sizeOf(printed).forEach((value, index) =>
        expect(Math.abs(value - (sizeOf(pdf.bytes)[index] ?? 0))).toBeLessThanOrEqual(1),
      );
      await context.close();
      await home.context().close();
    },
  );
});
