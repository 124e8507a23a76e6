import { writeFileSync } from 'node:fs';
import path from 'node:path';
import type { Page } from 'playwright';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import {
  axe,
  bringIn,
  judgeSample,
  ownFolder,
  saved,
  startApp,
  understandSample,
  type Opened,
  type UnderTest,
} from './app-under-test.ts';

let app: UnderTest;
beforeAll(async () => {
  app = await startApp();
});
afterAll(() => app.end());

const sizes = [
  ['wide', { width: 1280, height: 800 }, ['light', 'dark']],
  ['in the hand', { width: 420, height: 900 }, ['light', 'dark']],
  // 200 % zoom of a window of 1280.
  ['zoomed', { width: 640, height: 400 }, ['light']],
] as const;

/** Goes to every place of the app, and calls back at each. */
async function everyPlace(opened: Opened, look: (place: string) => Promise<void>): Promise<void> {
  const { page } = opened;
  await page.getByRole('heading', { name: 'The book is still empty' }).waitFor();
  await look('first visit');
  await page.getByRole('button', { name: 'Try a sample run' }).click();
  await page.getByRole('heading', { name: 'Sample runs' }).waitFor();
  await look('samples');
  await bringIn(page, {
    name: 'no-unit.csv',
    content: 't_s,P,T\n0,1,60\n1,400,60\n2,401,60\n3,402,60\n4,OPEN,60\n',
  });
  await page.getByRole('heading', { level: 1, name: 'to put right' }).waitFor();
  await page.getByRole('radio', { name: 'A band' }).check();
  await page.getByRole('button', { name: 'Say it' }).click();
  await look('questions');
  await page.getByRole('button', { name: 'Put the file back' }).click();
  await judgeSample(page, 'Twenty minutes below');
  await look('run sheet');
  await page.getByRole('button', { name: 'Make the delivery record' }).click();
  await page.getByRole('img', { name: 'Page 1 of' }).waitFor();
  await look('record');
  await page.keyboard.press('?');
  await page.getByRole('dialog', { name: 'Keys' }).waitFor();
  await look('keys');
  await page.keyboard.press('Escape');
  await page.getByRole('link', { name: 'Bench book' }).click();
  await look('book with a run');
  await page.locator('a.book-line').first().click();
  await page
    .locator('h1#verdict')
    .or(page.getByRole('heading', { name: 'The unit' }))
    .first()
    .waitFor();
  await look('unit, or its run');
  await page.goto(`${app.address}#/gauge`);
  await page.getByRole('heading', { level: 1, name: 'Check a gauge' }).waitFor();
  await look('gauge check');
}

const sideways = (page: Page): Promise<number> =>
  page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth);

/** Texts that do not fit where they stand and are cut, choices of a field as well. The strip lets its names overlap the paper's edge by itself. */
const cutWords = (page: Page): Promise<string[]> =>
  page.evaluate(() => {
    const seen = [...document.querySelectorAll<HTMLElement>('body *')].filter(
      (each) =>
        each.checkVisibility() && each.closest('.unseen, .strip, .blank-hours, [aria-hidden=true]') === null,
    );
    const cut = seen.filter(
      (each) => getComputedStyle(each).overflowX === 'hidden' && each.scrollWidth > each.clientWidth + 1,
    );
    const ctx = document.createElement('canvas').getContext('2d');
    const narrow = seen.filter((each) => {
      if (!(each instanceof HTMLSelectElement) || ctx === null) return false;
      const style = getComputedStyle(each);
      // The short form is empty where figures are tabular.
      ctx.font = `${style.fontWeight} ${style.fontSize} ${style.fontFamily}`;
      const text = each.selectedOptions[0]?.textContent ?? '';
      // As wide as its words by itself.
      if (style.getPropertyValue('field-sizing') === 'content') return false;
      const arrow_px = 14;
      const room =
        each.clientWidth -
        Number.parseFloat(style.paddingLeft) -
        Number.parseFloat(style.paddingRight) -
        arrow_px;
      return ctx.measureText(text).width > room;
    });
    return [...cut, ...narrow].map((each) => `${each.tagName} ${each.className}: ${each.textContent}`);
  });

describe.each(sizes)('%s', (_, size, papers) => {
  it('axe-core finds nothing, nothing scrolls sideways, nothing is smaller than 16 px, by day and by night', async () => {
    const opened = await app.open(size);
    const { page } = opened;
    const grounds: string[] = [];
    await everyPlace(opened, async (name) => {
      for (const colorScheme of papers) {
        const place = `${name}, ${colorScheme}`;
        await page.emulateMedia({ colorScheme });
        grounds.push(await page.evaluate(() => getComputedStyle(document.body).backgroundColor));
        expect.soft(await axe(page), place).toEqual([]);
        expect.soft(await sideways(page), place).toBe(0);
        const small = await page.evaluate(() =>
          [...document.querySelectorAll('body *')]
            .filter((element) =>
              [...element.childNodes].some(
                (node) => node.nodeType === Node.TEXT_NODE && node.textContent?.trim(),
              ),
            )
            .filter(
              (element) =>
                element.checkVisibility() && Number.parseFloat(getComputedStyle(element).fontSize) < 15.9,
            )
            .map((element) => `${element.tagName} ${element.className}: ${element.textContent}`),
        );
        expect.soft(small, place).toEqual([]);
        expect.soft(await cutWords(page), place).toEqual([]);
      }
    });
    // Each place was seen on each paper.
    expect(new Set(grounds).size).toBe(papers.length);
    expect(opened.complaints).toEqual([]);
    await opened.context.close();
  });
});

describe('by keyboard alone', () => {
  /** Presses Tab until what has the keyboard answers to a name. */
  async function tabTo(page: Page, name: RegExp): Promise<void> {
    for (let i = 0; i < 150; i++) {
      await page.keyboard.press('Tab');
      const found = await page.evaluate(() => {
        const element = document.activeElement;
        if (element === null) return '';
        const label =
          element instanceof HTMLInputElement || element instanceof HTMLSelectElement
            ? [...(element.labels ?? [])].map((each) => each.textContent).join(' ')
            : '';
        return `${element.getAttribute('aria-label') ?? ''} ${label} ${element.textContent ?? ''}`;
      });
      if (name.test(found)) return;
    }
    throw new Error(`the keyboard never came to ${String(name)}`);
  }

  it('a log is chosen, asked about, judged, read on the strip, and its record saved', async () => {
    const { page, context, complaints } = await app.open();
    const chooser = page.waitForEvent('filechooser');
    await page.getByRole('heading', { name: 'The book is still empty' }).waitFor();
    await page.keyboard.press('n');
    const rows = Array.from({ length: 2400 }, (_, i) => {
      const engaged = i > 30 && i < 2370;
      return `${i},${engaged ? (410 + (i % 7) * 0.1).toFixed(1) : '0.2'},61.0`;
    });
    await (
      await chooser
    ).setFiles({
      name: 'by-hand.csv',
      mimeType: 'text/csv',
      buffer: Buffer.from(['t_s,P main,Oil degC', ...rows].join('\n')),
    });
    await page.getByRole('heading', { level: 1, name: 'Two things to put right' }).waitFor();
    await tabTo(page, /^\s*psi\s*410/u);
    await page.keyboard.press('Space');
    await tabTo(page, /A band/u);
    await page.keyboard.press('Space');
    await tabTo(page, /from \(left empty/u);
    await page.keyboard.type('400');
    await tabTo(page, /to \(left empty/u);
    await page.keyboard.type('420');
    await tabTo(page, /^\s*unit/u);
    await page.keyboard.type('psi');
    await page.getByRole('heading', { level: 1, name: 'Nothing to put right' }).waitFor();
    await tabTo(page, /Judge this run/u);
    await page.keyboard.press('Enter');
    await page.locator('h1#verdict').waitFor();
    expect(await page.locator('h1#verdict').innerText()).toBe('Passes');
    // The heading has the keyboard: who hears the page hears the verdict first.
    expect(await page.evaluate(() => document.activeElement?.id)).toBe('verdict');
    await tabTo(page, /Time along the run/u);
    const along = page.getByRole('slider', { name: 'Time along the run' });
    const middle = await along.getAttribute('aria-valuetext');
    await page.keyboard.press('Shift+ArrowRight');
    await expect.poll(() => along.getAttribute('aria-valuetext')).not.toBe(middle);
    expect(await along.getAttribute('aria-valuetext')).toMatch(/psi/u);
    await page.keyboard.press('d');
    await tabTo(page, /^\s*Serial/u);
    await page.keyboard.type('B-0500');
    await tabTo(page, /Save the record as PDF/u);
    const pdf = await saved(page, () => page.keyboard.press('Enter'));
    expect(pdf.name).toBe('B-0500 record.pdf');
    expect(pdf.bytes.subarray(0, 5).toString()).toBe('%PDF-');
    await page.keyboard.press('b');
    expect(complaints).toEqual([]);
    await context.close();
  });

  it('shows where it is, on everything that takes it', async () => {
    const { page, context } = await app.open();
    await understandSample(page, 'Five over the band');
    for (let i = 0; i < 25; i++) {
      await page.keyboard.press('Tab');
      const shown = await page.evaluate(() => {
        const element = document.activeElement;
        if (element === null || element === document.body) return true;
        const ring = (each: Element): boolean => {
          const style = getComputedStyle(each);
          return style.outlineStyle !== 'none' && Number.parseFloat(style.outlineWidth) >= 2;
        };
        return ring(element) || (element.parentElement !== null && ring(element.parentElement));
      });
      expect(shown).toBe(true);
    }
    await context.close();
  });

  it('single letters can be turned off, and never work in a field', async () => {
    const { page, context } = await app.open();
    await judgeSample(page, 'Five over the band');
    await page.keyboard.press('d');
    await page.getByLabel('Serial').fill('');
    await page.getByLabel('Serial').press('b');
    expect(await page.getByLabel('Serial').inputValue()).toBe('b');
    await page.getByRole('heading', { level: 1, name: 'Delivery record' }).waitFor();
    await page.getByRole('button', { name: 'Keys' }).click();
    await page.getByLabel('Single letters work as keys').uncheck();
    await page.keyboard.press('Escape');
    await page.locator('h1').focus();
    await page.keyboard.press('b');
    await page.getByRole('heading', { level: 1, name: 'Delivery record' }).waitFor();
    await page.keyboard.press('?');
    await page.getByRole('dialog', { name: 'Keys' }).waitFor();
    await context.close();
  });
});

describe('this computer alone', () => {
  it('asks nobody else for anything, from the first visit to the saved record', async () => {
    const opened = await app.open({ never: true });
    await judgeSample(opened.page, 'Five over the band');
    await opened.page.keyboard.press('d');
    await saved(opened.page, () =>
      opened.page.getByRole('button', { name: 'Save the record as PDF' }).click(),
    );
    await opened.page.reload();
    await opened.page.locator('h1').first().waitFor();
    const others = opened.asked.filter(
      (address) => !address.startsWith(app.address) && !/^(?:blob|data):/u.test(address),
    );
    expect(opened.asked.length).toBeGreaterThan(5);
    expect(others).toEqual([]);
    expect(opened.complaints).toEqual([]);
    await opened.context.close();
  });

  it('goes on working when the server is gone, for what is already open', async () => {
    const { page, context } = await app.open();
    await judgeSample(page, 'Five over the band');
    await context.setOffline(true);
    await page.getByText('kPa', { exact: true }).click();
    await page.getByText('Shown in kPa').waitFor();
    await context.close();
  });

  it('the paper follows the system until it is changed by hand, and stays so', async () => {
    const { page, context } = await app.open({ night: true });
    const ground = (): Promise<string> =>
      page.evaluate(() => getComputedStyle(document.body).backgroundColor);
    expect(await ground()).toBe('rgb(39, 44, 43)');
    // Dawn and dusk while it is open: the button names the other paper, not the one that is shown.
    await page.emulateMedia({ colorScheme: 'light' });
    await page.getByRole('button', { name: 'Night paper' }).waitFor();
    await page.emulateMedia({ colorScheme: 'dark' });
    await page.getByRole('button', { name: 'Day paper' }).click();
    expect(await ground()).toBe('rgb(228, 233, 226)');
    await page.reload();
    expect(await ground()).toBe('rgb(228, 233, 226)');
    await context.close();
  });
});

/** In the page: where the button stands and whether the book is open, each time that either changes. */
function watchButton(): void {
  const seen: string[] = [];
  Object.assign(globalThis, { seen });
  const look = (): void => {
    const button = [...document.querySelectorAll('button')].find(
      ({ textContent }) => textContent === 'Try a sample run',
    );
    if (button !== undefined) {
      const { left, top } = button.getBoundingClientRect();
      const now = `${Math.round(left)} ${Math.round(top)} ${document.querySelector('.steady') === null}`;
      if (seen.at(-1) !== now) seen.push(now);
    }
    requestAnimationFrame(look);
  };
  requestAnimationFrame(look);
}

describe('the first visit', () => {
  it.each([1280, 420])('moves no button from under a hand while the book opens, %i wide', async (width) => {
    const { page, context } = await app.open({
      never: true,
      width,
      before: `(${watchButton.toString()})()`,
    });
    await page.getByRole('heading', { name: 'The book is still empty' }).waitFor();
    await page.waitForTimeout(200);
    const seen = await page.evaluate(() => (globalThis as unknown as { seen: string[] }).seen);
    expect(seen.at(-1)).toMatch(/true$/u);
    expect(new Set(seen.map((line) => line.replace(/ \w+$/u, ''))).size).toBe(1);
    await context.close();
  });
});

describe('a large log', () => {
  it('shows how far it is, and can be stopped', async () => {
    const { page, context } = await app.open();
    await page.getByRole('heading', { name: 'The book is still empty' }).waitFor();
    const rows: string[] = ['t_s,p_psi,oil_degC'];
    for (let i = 0; i < 1_500_000; i++) rows.push(`${i / 100},${410 + (i % 9)},61.0`);
    const folder = ownFolder();
    const file = path.join(folder.path, 'large.csv');
    writeFileSync(file, rows.join('\n'));
    await page.locator('input[aria-label="Logs to bring in"]').setInputFiles(file);
    await page.getByText(/Reading: \d+ %, [\d\u00a0]+ rows/u).waitFor();
    await page.getByRole('button', { name: 'Stop' }).click();
    await page.getByRole('heading', { name: 'The book is still empty' }).waitFor();
    // Its whole run is on the screen before it was looked through, and stays there beside the questions.
    await page.locator('input[aria-label="Logs to bring in"]').setInputFiles(file);
    const first = page.getByRole('figure', { name: /p_psi \(pressure\), 410 to 418 psi.*4 h 10 min/u });
    await first.waitFor();
    expect(await page.getByText('What does the pressure have to hold?').count()).toBe(0);
    await page.getByText('What does the pressure have to hold?').waitFor();
    expect(await first.isVisible()).toBe(true);
    await page.getByRole('button', { name: 'Put the file back' }).click();
    // What was stopped stays stopped: the next log is read as ever.
    await judgeSample(page, 'Five over the band');
    expect(await page.locator('h1#verdict').innerText()).toBe('Fails');
    folder.remove();
    await context.close();
  });
});

describe('printed from the browser', () => {
  it('is drawn anew for the paper, in day colours on white, with nothing to press; the screen is as it was after', async () => {
    const { page, context, complaints } = await app.open({ width: 1280, height: 800, night: true });
    await judgeSample(page, 'Five over the band');
    const looks = (): Promise<Record<string, string | number>> =>
      page.evaluate(() => {
        const style = getComputedStyle(document.documentElement);
        return {
          ink: style.getPropertyValue('--ink'),
          paper: style.getPropertyValue('--paper'),
          strip_px: Math.round(
            document.querySelector('.strip-plot canvas')?.getBoundingClientRect().width ?? 0,
          ),
          device_px: document.querySelector<HTMLCanvasElement>('.strip-plot canvas')?.width ?? 0,
        };
      });
    const before = await looks();
    await page.evaluate(() =>
      window.addEventListener('beforeprint', () => {
        const style = getComputedStyle(document.documentElement);
        Object.assign(globalThis, {
          onPaper: {
            ink: style.getPropertyValue('--ink'),
            paper: style.getPropertyValue('--paper'),
            strip_px: Math.round(
              document.querySelector('.strip-plot canvas')?.getBoundingClientRect().width ?? 0,
            ),
            device_px: document.querySelector<HTMLCanvasElement>('.strip-plot canvas')?.width ?? 0,
          },
        });
      }),
    );
    const pdf = await page.pdf({ preferCSSPageSize: true });
    expect(pdf.subarray(0, 5).toString()).toBe('%PDF-');
    // 182 mm at 96 px an inch: A4 within its margins, and the canvas is no wider; its own pixels are 288 an inch.
    expect(await page.evaluate(() => Reflect.get(globalThis, 'onPaper'))).toEqual({
      ink: '#17222b',
      paper: '#fff',
      strip_px: 688,
      device_px: 2064,
    });
    expect(await looks()).toEqual(before);
    expect(before['ink']).toBe('#f3f1e8');
    await page.emulateMedia({ media: 'print' });
    for (const pressed of ['.foot', '.top-line', '.span-bar select', '.lay-over select', 'button.link'])
      expect(await page.locator(pressed).filter({ visible: true }).count(), pressed).toBe(0);
    expect(complaints).toEqual([]);
    await context.close();
  });
});
