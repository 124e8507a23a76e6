import { execFileSync } from 'node:child_process';
import { readFileSync } from 'node:fs';
import path from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import {
  axe,
  bringIn,
  judgeSample,
  ownFolder,
  saved,
  startApp,
  understandSample,
  type UnderTest,
} from './app-under-test.ts';

let app: UnderTest;
const folder = ownFolder();
beforeAll(async () => {
  app = await startApp();
});
afterAll(async () => {
  await app.end();
  folder.remove();
});

/** The command line's file for the same input; exits 1 and 2 are verdicts, not failures. */
function commandLine(parameters: string[], output: string): Buffer {
  try {
    execFileSync(process.execPath, ['bin/overdrive-bench.mjs', ...parameters], { stdio: 'ignore' });
  } catch (error) {
    const { status } = error as { status: number | null };
    if (status !== 1 && status !== 2) throw error;
  }
  return readFileSync(output);
}
const sample = (kind: string, name: string): string => path.join('sample-runs', kind, name);

/** A log without a unit anywhere, of a run that stands at 425. */
function withoutUnit(): string {
  const rows = Array.from({ length: 2000 }, (_, i) => {
    const engaged = i > 30 && i < 1970;
    return `${i},${engaged ? (425 + (i % 7) * 0.1).toFixed(1) : '0.2'},61.0`;
  });
  return ['t_s,P main,Oil degC', ...rows].join('\n');
}

describe('from a log to what goes out with the unit', () => {
  it('judges a sample: verdict, number with its ±, limit and distance, each limit with its reason', async () => {
    const { page, complaints } = await app.open();
    await page.getByRole('heading', { name: 'The book is still empty' }).waitFor();
    await judgeSample(page, 'Five over the band');
    await expect.poll(() => page.locator('h1#verdict').innerText()).toBe('Fails');
    const head = (await page.locator('.verdict').innerText()).replaceAll('\u00a0', ' ');
    expect(head).toMatch(/425\.3 ± 1\.8 psi, band 400 to 420 psi\./u);
    expect(head).toMatch(/5\.3 psi above the band\./u);
    expect(head).toMatch(/Of 7 limits 2 fail, 5 pass\./u);
    const limits = page.getByRole('region', { name: 'Each limit, and why' }).getByRole('listitem');
    expect(await limits.count()).toBe(7);
    expect(await limits.first().innerText()).toContain('Fails');
    expect(await limits.last().innerText()).toContain('Passes');
    // A fail may lead somebody to open the unit.
    await page.getByRole('heading', { name: 'Before anything is opened or set' }).waitFor();
    expect(complaints).toEqual([]);
    await page.context().close();
  });

  it('saves the assessment and the record as the command line writes them, byte for byte', async () => {
    const { page } = await app.open();
    await judgeSample(page, 'Five over the band');
    await page.getByRole('button', { name: 'Make the delivery record' }).click();
    await page.getByLabel('Issued on').fill('2026-03-06');
    const json = await saved(page, () =>
      page.getByRole('button', { name: 'Save the assessment as JSON' }).click(),
    );
    const pdf = await saved(page, () => page.getByRole('button', { name: 'Save the record as PDF' }).click());
    const svg = await saved(page, () => page.getByRole('button', { name: 'Save the chart as SVG' }).click());
    const csv = await saved(page, () => page.getByRole('button', { name: 'Save the run as CSV' }).click());
    const results = await saved(page, () =>
      page.getByRole('button', { name: 'Save the results as CSV' }).click(),
    );
    const html = await saved(page, () => page.getByRole('button', { name: 'Save as HTML' }).click());
    const out = (name: string): string => path.join(folder.path, name);
    const input = [
      'assess',
      sample('logs', 'five-over-the-band.csv'),
      '--spec',
      sample('specs', 'example-400-420.json'),
      '--rig',
      sample('rigs', 'bench-1.json'),
      '--date',
      '2026-03-06',
      '--json',
      out('a.json'),
      ...['pdf', 'svg', 'csv', 'results.csv', 'html'].flatMap((kind) => ['--record', out(`a.${kind}`)]),
    ];
    const wanted = commandLine(input, out('a.json'));
    expect(json.name).toBe('five-over-the-band assessment.json');
    expect(json.bytes.toString()).toBe(wanted.toString());
    expect(pdf.bytes.equals(readFileSync(out('a.pdf')))).toBe(true);
    expect(svg.bytes.toString()).toBe(readFileSync(out('a.svg'), 'utf8'));
    expect(csv.bytes.toString()).toBe(readFileSync(out('a.csv'), 'utf8'));
    expect(html.bytes.toString()).toBe(readFileSync(out('a.html'), 'utf8'));
    expect(results.name).toBe('five-over-the-band results.csv');
    expect(results.bytes.toString()).toBe(readFileSync(out('a.results.csv'), 'utf8'));
    expect(results.bytes.toString()).toMatch(
      /^limit,operating pressure,425\.\d+,psi,1\.78\d*,400,420,guarded,/mu,
    );
    await page.context().close();
  });

  it('writes into the record what the shop fills in', async () => {
    const { page } = await app.open();
    await judgeSample(page, 'Clean pass');
    await page.keyboard.press('d');
    expect(await page.getByLabel('Serial').inputValue()).toBe('B-0411');
    await page.getByLabel('Serial').fill('B-0999');
    await page.getByLabel('Rebuilt by').fill('E. Example');
    const html = await saved(page, () => page.getByRole('button', { name: 'Save as HTML' }).click());
    expect(html.name).toBe('B-0999 record.html');
    expect(html.bytes.toString()).toContain('B-0999');
    await page.context().close();
  });

  it('asks for a unit that the file does not say, guesses none, and says what each would mean', async () => {
    const { page } = await app.open();
    await bringIn(page, { name: 'no-unit.csv', content: withoutUnit() });
    await page.getByRole('heading', { level: 1, name: 'Two things to put right' }).waitFor();
    const units = page.getByRole('radiogroup', { name: 'Which unit is the pressure in?' });
    expect(await page.getByRole('radio', { checked: true }).count()).toBe(0);
    // Pressed too early it judges nothing and leads to the question.
    await page.getByRole('button', { name: 'Judge this run' }).click({ force: true });
    expect(
      await page.evaluate(() => document.activeElement?.closest('[role=radiogroup]')?.textContent),
    ).toContain('Which unit is the pressure in?');
    await page.getByText('First say which unit.').waitFor();
    expect(
      await units
        .getByRole('radio', { name: 'bar' })
        .first()
        .evaluate((radio) => radio.closest('label')?.textContent),
    ).toContain('would be');
    await units.getByRole('radio', { name: /^psi/u }).check();
    await page.getByRole('radio', { name: 'A band' }).check();
    await page.getByLabel('from (left empty').fill('400');
    await page.getByLabel('to (left empty').fill('420');
    await page.locator('.band-fields select').first().selectOption('psi');
    await page.getByRole('heading', { level: 1, name: 'Nothing to put right' }).waitFor();
    await page.getByRole('button', { name: 'Judge this run' }).click();
    await page.locator('h1#verdict').waitFor();
    expect(await page.locator('h1#verdict').innerText()).toBe('Fails');
    await page.context().close();
  });

  it('counts the uncertainty of a gauge that is stated by hand', async () => {
    const { page } = await app.open();
    await bringIn(page, { name: 'no-unit.csv', content: withoutUnit().replace('P main', 'P main psi') });
    await page.getByRole('radio', { name: 'A band' }).check();
    await page.getByLabel('to (left empty').fill('424');
    await page.locator('.band-fields select').first().selectOption('psi');
    await page.getByRole('button', { name: 'Say it' }).click();
    await page.getByRole('radio', { name: 'Range and accuracy' }).check();
    await page.getByLabel('to', { exact: true }).fill('600');
    await page.getByRole('textbox', { name: 'accuracy' }).fill('1');
    await page.getByText('Its uncertainty is counted').waitFor();
    await page.getByRole('button', { name: 'Judge this run' }).click();
    await page.locator('h1#verdict').waitFor();
    // 1 % of 600 psi as a rectangle: U = 2 · 6 / √3 = 6.9 psi, and 425.3 stands 1.3 above 424 (JCGM 100, Eq. 7).
    expect(await page.locator('h1#verdict').innerText()).toBe('Undecided');
    expect((await page.locator('.verdict').innerText()).replaceAll('\u00a0', ' ')).toContain('± 6.9 psi');
    await page.context().close();
  });

  it('shows other units without judging in them', async () => {
    const { page } = await app.open();
    await judgeSample(page, 'Five over the band');
    await page.getByText('bar', { exact: true }).click();
    expect((await page.locator('.verdict').innerText()).replaceAll('\u00a0', ' ')).toContain(
      'band 27.579 to 28.958 bar',
    );
    await page.getByText('Shown in bar, judged in psi.').waitFor();
    // Reasons, remarks, signs and what each was worked out from, too: only a gauge's range keeps the unit of its dial.
    for (const each of await page.locator('.working').all())
      await each.evaluate((details) => details.setAttribute('open', ''));
    const said = (
      await page.locator('.limits, .beside > section:not([aria-labelledby=settings])').allInnerTexts()
    )
      .join(' ')
      .replaceAll('\u00a0', ' ');
    expect(said).toContain('band 27.579 to 28.958 bar: 0.36 bar above the band.');
    expect(said).toMatch(/Expanded uncertainty U\s0.12\d bar/u);
    expect(said.replace('0 to 600 psi', '')).not.toMatch(/\d psi/u);
    await page.keyboard.press('u');
    await page.getByText('Shown in kPa, judged in psi.').waitFor();
    expect(await page.locator('h1#verdict').innerText()).toBe('Fails');
    await page.context().close();
  });

  it('shows temperatures in the other unit, remembered, without judging in it', async () => {
    const { page } = await app.open();
    await judgeSample(page, 'Five over the band');
    const words = async (what: string): Promise<string> =>
      (await page.locator(what).first().innerText()).replaceAll('\u00a0', ' ');
    const celsius = Number(/oil (-?[\d.]+) °C/u.exec(await words('.strip-tab'))?.[1]);
    expect(celsius).toBeGreaterThan(40);
    await page.getByText('°F', { exact: true }).first().click();
    await page.getByText('Temperatures shown in °F, judged in °C.').waitFor();
    const fahrenheit = async (): Promise<number> =>
      Number(/oil (-?[\d.]+) °F/u.exec(await words('.strip-tab'))?.[1]);
    expect(await fahrenheit()).toBeCloseTo(celsius * 1.8 + 32, 0);
    expect(await words('.limits')).toMatch(/allowed 122 to 176 °F/u);
    expect(await words('section[aria-labelledby=judged]')).toMatch(/°F on the mean over the hold/u);
    expect(await page.locator('h1#verdict').innerText()).toBe('Fails');
    expect(await axe(page)).toEqual([]);
    await page.reload();
    await page.getByText('Temperatures shown in °F, judged in °C.').waitFor();
    await page.getByText('°C', { exact: true }).first().click();
    await expect.poll(() => words('.strip-tab')).toContain(`oil ${celsius.toFixed(1)} °C`);
    await page.context().close();
  });

  it('takes several files one after another', async () => {
    const { page } = await app.open();
    const content = withoutUnit().replace('P main', 'P main psi');
    await bringIn(
      page,
      { name: 'first.csv', content },
      { name: 'second.csv', content: `${content}\n2000,0.2,61.0` },
    );
    await page.getByText('first.csv holds').waitFor();
    await page.getByRole('radio', { name: 'No limits' }).check();
    await page.getByRole('button', { name: 'Judge this run' }).click();
    await page.locator('h1#verdict').waitFor();
    expect(await page.locator('h1#verdict').innerText()).toBe('Not assessed');
    await page.getByRole('button', { name: 'Next: second.csv' }).click();
    await page.getByText('second.csv holds').waitFor();
    expect(await page.getByRole('list', { name: 'Files brought in together' }).innerText()).toMatch(
      /first\.csv\s+Not assessed\s+second\.csv\s+this one/u,
    );
    await page.context().close();
  });

  it('takes files that are dropped anywhere', async () => {
    const { page } = await app.open();
    await page.getByRole('heading', { name: 'The book is still empty' }).waitFor();
    const transfer = await page.evaluateHandle((content) => {
      const held = new DataTransfer();
      held.items.add(new File([content], 'dropped.csv', { type: 'text/csv' }));
      return held;
    }, withoutUnit());
    await page.dispatchEvent('body', 'dragenter', { dataTransfer: transfer });
    await page.getByRole('heading', { name: 'Let go to read it' }).waitFor();
    await page.dispatchEvent('body', 'drop', { dataTransfer: transfer });
    await page.getByText('dropped.csv holds').waitFor();
    await page.context().close();
  });

  it('corrects what a column means, above the column', async () => {
    const { page } = await app.open();
    await understandSample(page, 'Five over the band');
    await page.getByLabel('What column oil_degC means').selectOption('ambient-temperature');
    await page.getByLabel('Unit of column pressure_psi').selectOption('bar');
    await page.getByText('said by hand').waitFor();
    await page.getByRole('button', { name: 'Judge this run' }).click();
    await page.locator('h1#verdict').waitFor();
    expect(await page.locator('h1#verdict').innerText()).not.toBe('Passes');
    await page.context().close();
  });
});

describe('what goes wrong', () => {
  it.each([
    ['empty.csv', '', 'empty.csv is empty'],
    ['prose.txt', 'Dear all,\nthe unit was fine.\n', 'no table of readings'],
    ['head-only.csv', 't_s,p_psi\n', 'no row with a reading'],
  ])('%s is refused in place, in words', async (name, content, words) => {
    const { page, complaints } = await app.open();
    await bringIn(page, { name, content });
    await page.getByRole('heading', { level: 1, name: 'It could not be read' }).waitFor();
    expect(await page.getByRole('alert').innerText()).toContain(words);
    expect(await axe(page)).toEqual([]);
    await page.getByRole('button', { name: 'Put the file back' }).click();
    await page.getByRole('heading', { name: 'The book is still empty' }).waitFor();
    expect(complaints).toEqual([]);
    await page.context().close();
  });

  it('names the key of a spec that it does not know, and keeps what was answered', async () => {
    const { page } = await app.open();
    await bringIn(page, { name: 'run.csv', content: withoutUnit().replace('P main', 'P main psi') });
    await page.getByRole('heading', { level: 1, name: 'to put right' }).waitFor();
    const spec = JSON.parse(readFileSync(sample('specs', 'example-400-420.json'), 'utf8')) as object;
    await page.locator('input[aria-label="Spec file"]').setInputFiles({
      name: 'my-spec.json',
      mimeType: 'application/json',
      buffer: Buffer.from(JSON.stringify({ ...spec, presure: 1 })),
    });
    expect(await page.getByRole('alert').innerText()).toMatch(/my-spec\.json: presure/u);
    await page.context().close();
  });

  it('says at the field that a band is upside down', async () => {
    const { page } = await app.open();
    await bringIn(page, { name: 'run.csv', content: withoutUnit().replace('P main', 'P main psi') });
    await page.getByRole('radio', { name: 'A band' }).check();
    await page.getByLabel('from (left empty').fill('420');
    await page.getByLabel('to (left empty').fill('400');
    await page.locator('.band-fields select').first().selectOption('psi');
    const wrong = page.getByRole('alert');
    // In the words of the fields: how the command line writes a band helps nobody here.
    expect(await wrong.innerText()).toBe('The low limit (420) is not below the high limit (400).');
    await page.getByLabel('to (left empty').fill('1e12');
    expect(await wrong.innerText()).toMatch(/^“1e12” is not a number/u);
    await page.getByText('First say what it has to hold.').waitFor();
    await page.context().close();
  });

  it('says that a run is not kept where the browser keeps nothing, and goes on', async () => {
    const { page, context } = await app.open();
    await page.close();
    await context.route('**/worker-*.js', async (route) => {
      const response = await route.fetch();
      const refuse =
        "Object.defineProperty(self, 'indexedDB', { value: { open() { throw new DOMException('storage is switched off', 'SecurityError'); } } });";
      await route.fulfill({ response, body: `${refuse}\n${await response.text()}` });
    });
    const closed = await app.open({ context });
    await judgeSample(closed.page, 'Five over the band');
    const alert = closed.page.getByRole('alert');
    expect(await alert.innerText()).toContain('The run is not kept');
    expect(await alert.innerText()).toContain('storage is switched off');
    expect(await closed.page.locator('h1#verdict').innerText()).toBe('Fails');
    await context.close();
  });

  it('says so when its worker cannot start, instead of waiting for ever', async () => {
    const { page, context } = await app.open();
    await page.close();
    await context.route('**/worker-*.js', (route) => route.fulfill({ status: 404, body: '' }));
    const broken = await app.open({ context });
    await bringIn(broken.page, { name: 'run.csv', content: withoutUnit() });
    await broken.page.getByRole('heading', { level: 1, name: 'It could not be read' }).waitFor();
    expect(await broken.page.getByRole('alert').innerText()).toContain('could not start');
    await context.close();
  });
});

describe('the browser’s own way back', () => {
  it('leads past a log that was judged meanwhile, and forward to the run again', async () => {
    const { page, context } = await app.open();
    await judgeSample(page, 'Five over the band');
    await page.goBack();
    await page.getByRole('heading', { level: 1, name: 'Bench book' }).waitFor();
    await page.goForward();
    await page.locator('h1#verdict').waitFor({ timeout: 5000 });
    expect(new URL(page.url()).hash).toBe('#/run');
    await context.close();
  });
});

describe('the last run', () => {
  it('lies on its sheet again after a reload, with the same assessment', async () => {
    const { page } = await app.open();
    await judgeSample(page, 'Five over the band');
    await page.keyboard.press('d');
    const before = await saved(page, () =>
      page.getByRole('button', { name: 'Save the assessment as JSON' }).click(),
    );
    await page.getByRole('button', { name: 'Back to the run sheet' }).click();
    await page.getByText('on this computer, in this browser').waitFor();
    await page.reload();
    await page.locator('h1#verdict').waitFor();
    expect(await page.locator('h1#verdict').innerText()).toBe('Fails');
    await page.keyboard.press('d');
    const after = await saved(page, () =>
      page.getByRole('button', { name: 'Save the assessment as JSON' }).click(),
    );
    expect(after.bytes.equals(before.bytes)).toBe(true);
    await page.getByRole('link', { name: 'Bench book' }).click();
    await page.getByRole('link', { name: /five-over-the-band\.csv/u }).click();
    await page.locator('h1#verdict').waitFor();
    await page.context().close();
  });
});
