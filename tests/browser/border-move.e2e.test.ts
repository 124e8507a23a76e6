import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { axe, judgeSample, saved, startApp, type UnderTest } from './app-under-test.ts';

let app: UnderTest;
beforeAll(async () => {
  app = await startApp();
});
afterAll(() => app.end());

describe('a border of the hold moved by hand', () => {
  it('is judged at once, kept with who and why, written into the assessment, and put back', async () => {
    const { page, context, complaints } = await app.open();
    await judgeSample(page, 'Five over the band');
    const handle = page.getByRole('slider', { name: 'Hold starts' });
    const before = Number(await handle.getAttribute('aria-valuenow'));
    await handle.focus();
    await page.keyboard.press('Shift+ArrowRight');
    await page.keyboard.press('Shift+ArrowRight');
    const slip = page.getByRole('form', { name: /moved by hand/u });
    await slip.getByText('still fails').waitFor();
    expect(await handle.getAttribute('aria-valuenow')).toBe(String(before + 120));
    expect(await axe(page)).toEqual([]);
    // Without a reason nothing is kept.
    await slip.getByRole('button', { name: 'Keep' }).click({ force: true });
    await slip.getByLabel('Why').fill('cold oil was let in');
    await slip.getByLabel('Who').fill('E. Example');
    await slip.getByRole('button', { name: 'Keep' }).click();
    await slip.waitFor({ state: 'detached' });

    await page.getByRole('button', { name: 'Make the delivery record' }).click();
    const json = await saved(page, () =>
      page.getByRole('button', { name: 'Save the assessment as JSON' }).click(),
    );
    const assessment = JSON.parse(json.bytes.toString()) as {
      judged: { choices: Record<string, unknown>[] };
      phases: { kind: string; start_s: number }[];
    };
    expect(assessment.judged.choices).toMatchObject([
      { what: 'hold-start', by: 'E. Example', why: 'cold oil was let in' },
    ]);
    expect(assessment.phases.find(({ kind }) => kind === 'hold')?.start_s).toBe(
      assessment.judged.choices[0]?.['to_s'],
    );

    await page.getByRole('button', { name: 'Back to the run sheet' }).click();
    await page.keyboard.press('Control+z');
    await expect
      .poll(() => page.getByRole('slider', { name: 'Hold starts' }).getAttribute('aria-valuenow'), {
        timeout: 20_000,
      })
      .toBe(String(before));
    expect(complaints).toEqual([]);
    await context.close();
  });

  it('several engagements are judged together, with who and why, and apart again', async () => {
    const { page, context, complaints } = await app.open();
    await judgeSample(page, 'Stopped to adjust in the middle');
    await page.getByText('411.4 ± 1.8 psi').first().waitFor();
    await page.getByRole('button', { name: 'Judge both engagements together…' }).click();
    const slip = page.getByRole('form', { name: /judged together/u });
    await slip.getByText('then ').or(slip.getByText('still ')).first().waitFor();
    expect(await axe(page)).toEqual([]);
    await slip.getByLabel('Why').fill('nothing was set in between');
    await slip.getByLabel('Who').fill('E. Example');
    await slip.getByRole('button', { name: 'Keep' }).click();
    await slip.waitFor({ state: 'detached' });
    await page.getByText('Engagements judged together. nothing was set in between').waitFor();
    // The first engagement stood low: now it counts.
    await expect.poll(() => page.locator('.verdict .sentence').first().innerText()).not.toMatch(/^411\.4/u);
    await page.getByRole('button', { name: 'Put back the engagements judged together' }).click();
    await page.getByRole('button', { name: 'Judge both engagements together…' }).waitFor();
    await expect.poll(() => page.locator('.verdict .sentence').first().innerText()).toMatch(/^411\.4/u);
    await page.locator('h1#verdict').focus();
    await page.keyboard.press('Control+z');
    await page.getByText('Engagements judged together. nothing was set in between').waitFor();
    expect(complaints).toEqual([]);
    await context.close();
  });

  it('is a draft until it is kept: there again after a reload and another run, with its reason', async () => {
    const { page, context, complaints } = await app.open();
    await judgeSample(page, 'Stopped to adjust in the middle');
    await page.getByText('in this browser’s book').waitFor();
    await page.getByRole('button', { name: 'Judge both engagements together…' }).focus();
    await page.keyboard.press('Enter');
    const slip = page.getByRole('form', { name: /judged together/u });
    await slip.getByText(/then |still /u).waitFor();
    const why = slip.getByLabel('Why');
    // The keyboard goes on where the reason is asked.
    expect(await why.evaluate((each) => each === document.activeElement)).toBe(true);
    await page.keyboard.type('nothing was set');
    await page.reload();
    await slip.getByText(/then |still /u).waitFor();
    expect(await why.inputValue()).toBe('nothing was set');
    const toBook = (): Promise<void> =>
      page.getByRole('link', { name: 'Bench book', exact: true }).first().click();
    await toBook();
    await judgeSample(page, 'Five over the band');
    expect(await slip.count()).toBe(0);
    await page.getByText('in this browser’s book').waitFor();
    const handle = page.getByRole('slider', { name: 'Hold ends' });
    await handle.focus();
    await page.keyboard.press('Shift+ArrowLeft');
    const other = page.getByRole('form', { name: /End of the hold moved by hand/u });
    await other.getByLabel('Why').fill('oil ran low');
    // Judged, the hold ends at a reading, which may lie half a second from where the hand was.
    await other.getByText(/then |still /u).waitFor();
    const moved = await handle.getAttribute('aria-valuenow');
    const openLine = async (file: RegExp): Promise<void> => {
      await toBook();
      await page.locator('a.book-line', { hasText: file }).click();
    };
    await openLine(/stopped-to-adjust/u);
    await slip.getByText(/then |still /u).waitFor();
    expect(await why.inputValue()).toBe('nothing was set');
    await slip.getByRole('button', { name: 'Put back' }).click();
    await slip.waitFor({ state: 'detached' });
    await page.reload();
    await page.getByRole('button', { name: 'Judge both engagements together…' }).waitFor();
    expect(await slip.count()).toBe(0);
    await openLine(/five-over/u);
    await other.waitFor();
    expect(await other.getByLabel('Why').inputValue()).toBe('oil ran low');
    await expect.poll(() => handle.getAttribute('aria-valuenow')).toBe(moved);
    // Ctrl Z also from a choice that has the keyboard, which takes no text.
    await page.getByRole('radio', { name: 'bar', exact: true }).check();
    await page.keyboard.press('Control+z');
    await other.waitFor({ state: 'detached' });
    expect(complaints).toEqual([]);
    await context.close();
  });

  it('is put back before anything was kept', async () => {
    const { page, context } = await app.open();
    await judgeSample(page, 'Five over the band');
    const handle = page.getByRole('slider', { name: 'Hold ends' });
    const before = await handle.getAttribute('aria-valuenow');
    await handle.focus();
    await page.keyboard.press('Shift+ArrowLeft');
    await page.getByText('End of the hold moved by hand').waitFor();
    await page.getByRole('button', { name: 'Put back' }).click();
    await page.getByRole('button', { name: 'Make the delivery record' }).waitFor();
    expect(await handle.getAttribute('aria-valuenow')).toBe(before);
    // The button went with the slip; the keyboard is not lost with it.
    await expect.poll(() => handle.evaluate((each) => each === document.activeElement)).toBe(true);
    await context.close();
  });
});
