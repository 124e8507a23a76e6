// The bench book at 2,000 units with 6,000 runs, in the built app and a real Chromium: until the list stands after a reload, until a
// letter typed is answered, until a run of the book lies on its sheet, until its limits were changed and it is judged anew. Beside the
// list stands its baseline: a bare read of the same rows out of the same database.
import { readFileSync } from 'node:fs';
import { appInBrowser } from './app-in-browser.mjs';

const RUNS = Number(process.env.BENCH_RUNS ?? 5);
const UNITS = 2000,
  RUNS_A_UNIT = 3;
const middle = (values) => values.toSorted((a, b) => a - b)[values.length >> 1];
const say = (found) => console.log(JSON.stringify(found));

const { address, browser, end } = await appInBrowser();
try {
  const page = await browser.newPage({ viewport: { width: 1280, height: 800 } });
  await page.goto(address);
  // A run as the app keeps it, to be multiplied: judged from a sample log.
  const log = readFileSync('sample-runs/logs/five-over-the-band.csv');
  await page
    .locator('input[aria-label="Logs to bring in"]')
    .setInputFiles([{ name: 'five-over-the-band.csv', mimeType: 'text/csv', buffer: log }]);
  await page.locator('input[type=file][accept*=json]').first().waitFor({ state: 'attached' });
  await page
    .locator('input[type=file][accept*=json]')
    .first()
    .setInputFiles('sample-runs/specs/example-400-420.json');
  await page.getByRole('button', { name: /^Judge this run/u }).click();
  await page.locator('h1#verdict').waitFor();
  await page.getByText('in this browser’s book').waitFor();

  const rows = await page.evaluate(
    async ({ units, each }) => {
      const open = () =>
        new Promise((resolve, reject) => {
          const asked = indexedDB.open('overdrive-bench');
          asked.onsuccess = () => resolve(asked.result);
          asked.onerror = () => reject(asked.error);
        });
      const done = (request) =>
        new Promise((resolve, reject) => {
          request.onsuccess = () => resolve(request.result);
          request.onerror = () => reject(request.error);
        });
      const database = await open();
      const all = await done(database.transaction('entries').objectStore('entries').getAll());
      const files = database.transaction('files').objectStore('files');
      const paths = await done(files.getAllKeys());
      const run = all.find((entry) => entry.format === 'overdrive-bench/book-run');
      const bytes = new Map();
      for (const path of paths)
        bytes.set(path, await done(database.transaction('files').objectStore('files').get(path)));
      const verdicts = ['pass', 'fail', 'undecided', 'not-assessed'];
      for (let unit = 0; unit < units; unit++) {
        const writing = database.transaction(['entries', 'files'], 'readwrite', { durability: 'relaxed' });
        const id = `unit-${unit}`;
        const month = String(1 + (unit % 12)).padStart(2, '0');
        const entries = writing.objectStore('entries');
        entries.put(
          {
            format: 'overdrive-bench/book-unit',
            version: 1,
            id,
            revision: 1,
            changedAt: '2026-03-04T08:00:00Z',
            removedAt: null,
            record: {
              format: 'overdrive-bench/unit-record',
              version: 1,
              customer: `Customer ${unit % 400}`,
              unit: { serial: `B-${String(unit).padStart(4, '0')}`, type: 'relief and dashpot type' },
            },
            goneOutOn: unit % 3 === 0 ? null : `2025-${month}-12`,
          },
          `units/${id}.json`,
        );
        for (let number = 0; number < each; number++) {
          const runId = `run-${unit}-${number}`;
          const last = run.assessments.at(-1);
          entries.put(
            {
              ...run,
              id: runId,
              unitId: id,
              broughtInAt: `2025-${month}-${String(10 + number)}T15:00:00Z`,
              log: { ...run.log, fileName: `unit ${unit} run ${number}.csv`, sha256: `${unit}-${number}` },
              assessments: [{ ...last, verdict: verdicts[(unit + number) % 4] }],
            },
            `runs/${runId}/run.json`,
          );
          // The logs lie there too, as in a real book: a list must not touch them.
          if (unit < 100)
            for (const [path, content] of bytes)
              writing.objectStore('files').put(content, `runs/${runId}/${path.split('/').at(-1)}`);
        }
        await new Promise((resolve, reject) => {
          writing.oncomplete = resolve;
          writing.onabort = () => reject(writing.error);
        });
      }
      const count = await done(database.transaction('entries').objectStore('entries').count());
      database.close();
      return count;
    },
    { units: UNITS, each: RUNS_A_UNIT },
  );
  const bare = [],
    list = [],
    search = [],
    back = [],
    openRun = [];
  // The first reload makes the list of entries that were put there behind the program's back; a shop never pays for that.
  for (let time = -1; time < RUNS; time++) {
    await page.goto('about:blank');
    await page.goto(`${address}#/book`);
    await page.locator('a.book-line').first().waitFor();
    // From the page's very beginning until the first lines stand.
    list.push(await page.evaluate(() => performance.now()));
    bare.push(
      await page.evaluate(async () => {
        const from = performance.now();
        const database = await new Promise((resolve) => {
          const asked = indexedDB.open('overdrive-bench');
          asked.onsuccess = () => resolve(asked.result);
        });
        await new Promise((resolve) => {
          const asked = database.transaction('entries').objectStore('entries').getAll();
          asked.onsuccess = () => resolve(asked.result.length);
        });
        database.close();
        return performance.now() - from;
      }),
    );
    // A letter more at a time, as somebody types: until the lines that do not match are gone.
    const typed = (text, serial) =>
      page.evaluate(
        async ({ value, expected }) => {
          const field = document.querySelector('input[type=search]');
          const from = performance.now();
          Object.getOwnPropertyDescriptor(HTMLInputElement.prototype, 'value').set.call(field, value);
          field.dispatchEvent(new Event('input', { bubbles: true }));
          for (;;) {
            await new Promise(requestAnimationFrame);
            const first = document.querySelector('a.book-line .serial')?.textContent ?? '';
            if (first.includes(expected)) return performance.now() - from;
            if (performance.now() - from > 10_000) throw new Error(`never found ${expected}`);
          }
        },
        { value: text, expected: serial },
      );
    search.push(await typed('1417', 'B-1417'));
    back.push(await typed('customer 17 fails', 'B-'));
    await typed('B-0042', 'B-0042');
    const from = performance.now();
    await page.locator('a.book-line').first().click();
    await page.getByRole('heading', { level: 1, name: 'B-0042' }).waitFor();
    openRun.push(performance.now() - from);
  }
  for (const values of [bare, list, search, back, openRun]) values.shift();
  const units = `${UNITS} units, ${rows - UNITS} runs`;
  say({ what: `the book after a reload, ${units}`, value: Math.round(middle(list)), unit: 'ms' });
  say({
    what: `the book after a reload, ${units}`,
    ratio: middle(list.map((value, index) => value / bare[index])),
    of: `the page until its first lines ${Math.round(middle(list))} ms`,
    to: `reading the same rows alone ${Math.round(middle(bare))} ms`,
  });
  say({
    what: `a serial typed into the search, ${units}`,
    value: Math.round(middle(search)),
    unit: 'ms until shown',
  });
  say({
    what: `customer and verdict typed into the search, ${units}`,
    value: Math.round(middle(back)),
    unit: 'ms until shown',
  });
  say({ what: `opening a unit, ${units}`, value: Math.round(middle(openRun)), unit: 'ms' });

  // Opening a run, and judging it by other kept limits: on the one that was really judged. Beside both stands their baseline: a bare
  // read of the same bytes, the run's row and its packed log, out of the same database.
  const other = 'Other limits for measuring';
  await page.evaluate(
    async ({ spec }) => {
      const database = await new Promise((resolve, reject) => {
        const asked = indexedDB.open('overdrive-bench');
        asked.onsuccess = () => resolve(asked.result);
        asked.onerror = () => reject(asked.error);
      });
      const writing = database.transaction(['entries', 'files'], 'readwrite');
      for (const each of spec)
        writing.objectStore('entries').put(
          {
            format: 'overdrive-bench/book-spec',
            version: 1,
            id: each.id,
            revision: 1,
            changedAt: '2026-03-04T08:00:00Z',
            removedAt: null,
            versions: [{ savedAt: '2026-03-04T08:00:00Z', spec: each.spec }],
          },
          `specs/${each.id}.json`,
        );
      // Put there behind the program's back: it makes its list anew.
      writing.objectStore('files').delete('~list');
      await new Promise((resolve, reject) => {
        writing.oncomplete = resolve;
        writing.onabort = () => reject(writing.error);
      });
      database.close();
    },
    {
      spec: (() => {
        const own = JSON.parse(readFileSync('sample-runs/specs/example-400-420.json', 'utf8'));
        const wider = { ...own, name: other, pressureBand: { ...own.pressureBand, high: 440 } };
        return [
          { id: 'bench-own', spec: own },
          { id: 'bench-other', spec: wider },
        ];
      })(),
    },
  );
  await page.goto('about:blank');
  await page.goto(`${address}#/book`);
  await page.locator('a.book-line').first().waitFor();
  const bareRun = () =>
    page.evaluate(async () => {
      const done = (request) =>
        new Promise((resolve, reject) => {
          request.onsuccess = () => resolve(request.result);
          request.onerror = () => reject(request.error);
        });
      const database = await done(indexedDB.open('overdrive-bench'));
      const keys = await done(database.transaction('entries').objectStore('entries').getAllKeys());
      const key = keys.find((each) => /^runs\/(?!run-)/u.test(each));
      const from = performance.now();
      const reading = database.transaction(['entries', 'files']);
      const [row, log] = await Promise.all([
        done(reading.objectStore('entries').get(key)),
        done(reading.objectStore('files').get(key.replace('run.json', 'log.gz'))),
      ]);
      const took = performance.now() - from;
      database.close();
      if (row === undefined || log === undefined) throw new Error(`${key} has no log`);
      return { took, bytes: log.length };
    });
  const opened = [],
    switched = [],
    bareReads = [];
  let bytes = 0;
  for (let time = 0; time < RUNS; time++) {
    const bareRead = await bareRun();
    bareReads.push(bareRead.took);
    bytes = bareRead.bytes;
    const from = performance.now();
    await page.getByText('five-over-the-band.csv').first().click();
    await page.locator('h1#verdict').waitFor();
    opened.push(performance.now() - from);
    await page.getByRole('heading', { name: 'Judge by other limits' }).click();
    // There and back: from the press until the sheet stands judged by the other limits.
    for (const limits of [other, 'Example sheet']) {
      const select = page.getByLabel('limits of the book and of earlier verdicts');
      const value = await select
        .locator('option', { hasText: limits })
        .first()
        .getAttribute('value', { timeout: 10_000 });
      await select.selectOption(value ?? '');
      switched.push(
        await page.evaluate(async (expected) => {
          const button = [...document.querySelectorAll('button')].find(
            (each) => each.textContent === 'Judge by these',
          );
          const began = performance.now();
          button.click();
          for (;;) {
            await new Promise(requestAnimationFrame);
            if (document.querySelector('.form-line')?.textContent.includes(expected))
              return performance.now() - began;
            if (performance.now() - began > 60_000) throw new Error(`never ${expected}`);
          }
        }, limits),
      );
      await page.getByText('in this browser’s book').waitFor();
    }
    await page.getByRole('link', { name: 'Bench book' }).first().click();
    await page.locator('a.book-line').first().waitFor();
  }
  const bareText = `reading its row and its packed log of ${bytes} bytes alone ${middle(bareReads).toFixed(1)} ms`;
  const sayRun = (what, values, until) => {
    say({ what, value: Math.round(middle(values)), unit: 'ms' });
    const of = `${until} ${Math.round(middle(values))} ms`;
    say({ what, ratio: middle(values) / middle(bareReads), of, to: bareText });
  };
  sayRun(
    'opening a six-hour run from the book, judged again from its bytes',
    opened,
    'from the press until its sheet stands',
  );
  sayRun(
    'a six-hour run in the book judged by other kept limits',
    switched,
    'from the press until the verdict stands',
  );
} finally {
  await end();
}
