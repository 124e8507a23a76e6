import axe from 'axe-core';
import { flushSync } from 'react-dom';
import { afterEach, beforeAll, describe, expect, test } from 'vitest';
import { page, userEvent } from 'vitest/browser';
import { SetAside } from '#formats/log.ts';
import {
  judged,
  mouse,
  plain,
  putOnPage,
  settled,
  until,
  type JudgedSample,
  type OnPage,
} from './strip-on-page.tsx';

let spikes: JudgedSample, over5: JudgedSample, cut: JudgedSample, cycled: JudgedSample;
beforeAll(async () => {
  spikes = await judged('spikes-and-dropouts');
  over5 = await judged('five-over-the-band');
  cut = await judged('supply-cut-oil-cold-again', 'example-pressure-only');
  cycled = await judged('solenoid-cycled-all-day', 'example-pressure-only');
});
let strip: OnPage | null = null;
afterEach(() => {
  strip?.end();
  strip = null;
  delete document.documentElement.dataset['paper'];
});
const put = async (...input: Parameters<typeof putOnPage>): Promise<OnPage> =>
  (strip = await putOnPage(...input));

/** The reading nearest to an instant, found by looking at every row. */
function nearest({ series }: JudgedSample, at_s: number): number {
  let best = 0;
  series.time_s.forEach((time, row) => {
    if (Math.abs(time - at_s) < Math.abs((series.time_s[best] ?? NaN) - at_s)) best = row;
  });
  return best;
}
const number = (value: number | undefined, decimals: number): string =>
  (value ?? NaN).toFixed(decimals).replace('-', '\u2212');
const end_s = ({ series }: JudgedSample): number => series.time_s.at(-1) ?? 0;
const canvasOf = (): HTMLCanvasElement => {
  const canvas = document.querySelector<HTMLCanvasElement>('.strip-plot canvas');
  if (canvas === null) throw new Error('no canvas');
  return canvas;
};
const boxOf = (element: Element): DOMRect => element.getBoundingClientRect();

/** Of the text alone: a label that is pressed has room for the hand around it. */
function textBoxOf(label: Element): { left: number; right: number; top: number; bottom: number } {
  const { left, right, top, bottom } = boxOf(label);
  const { paddingLeft, paddingTop } = getComputedStyle(label);
  const [x, y] = [Number.parseFloat(paddingLeft), Number.parseFloat(paddingTop)];
  return { left: left + x, right: right - x, top: top + y, bottom: bottom - y };
}

/** Number of pixels near a colour in a column or row of the plot. */
function pixelsLike(colour: readonly [number, number, number], along: number, turned: boolean): number {
  const canvas = canvasOf(),
    plot = boxOf(document.querySelector('.strip-over') ?? canvas),
    box = boxOf(canvas);
  const ratio = canvas.width / box.width;
  const x = Math.round((plot.left - box.left + (turned ? 0 : along)) * ratio),
    y = Math.round((plot.top - box.top + (turned ? along : 0)) * ratio);
  const wide = turned ? Math.round(plot.width * ratio) : 1,
    tall = turned ? 1 : Math.round(plot.height * ratio);
  const data = canvas.getContext('2d')?.getImageData(x, y, wide, tall).data ?? new Uint8ClampedArray();
  let count = 0;
  for (let k = 0; k < data.length; k += 4) {
    const away = colour.reduce((sum, part, channel) => sum + Math.abs(part - (data[k + channel] ?? 0)), 0);
    if (away < 30 && (data[k + 3] ?? 0) > 200) count++;
  }
  return count;
}
/** --pressure by day. */
const PRESSURE = [0x0f, 0x3d, 0x5e] as const;

describe('what stands under the cursor', () => {
  test('by mouse: smoothed pressure, lowest and highest reading of that px, and oil, as in the data', async () => {
    const { over, says } = await put(over5);
    const { series } = over5;
    const width = boxOf(over()).width,
      perPx = end_s(over5) / width;
    for (const x of [40, 211, 400.5, 777, width - 30]) {
      mouse(over(), 'pointermove', x, 90);
      await settled();
      const row = nearest(over5, x * perPx);
      const at_s = series.time_s[row] ?? NaN;
      const smoothed = `${number(series.pressure?.smoothed[row], 1)} psi`;
      expect(says()).toContain(smoothed);
      expect(says()).toContain(`oil ${number(series.oil?.smoothed[row], 1)} °C`);
      let low = Infinity,
        high = -Infinity;
      series.time_s.forEach((time, index) => {
        if (index !== row && (time < at_s - perPx / 2 || time >= at_s + perPx / 2)) return;
        if (series.pressure?.flags[index] !== SetAside.kept) return;
        low = Math.min(low, series.pressure.values[index] ?? NaN);
        high = Math.max(high, series.pressure.values[index] ?? NaN);
      });
      expect(says()).toContain(`raw ${number(low, 1)} to ${number(high, 1)}`);
      const above = (series.pressure?.smoothed[row] ?? NaN) - 420;
      expect(says()).toContain(`${number(above, 1)} above the band`);
      // The tab that is seen says the same.
      expect(plain(document.querySelector('.strip-tab')?.textContent ?? '')).toContain(smoothed);
    }
  });

  test('by keys: start, end, one px, ten px; never the same reading twice', async () => {
    const { over, says, handle } = await put(over5);
    const { series } = over5;
    over().focus();
    await userEvent.keyboard('{Home}');
    expect(says()).toContain(`${number(series.pressure?.smoothed[0], 1)} psi`);
    const perPx = end_s(over5) / boxOf(over()).width;
    let row = 0;
    for (const [keys, px] of [
      ['{ArrowRight}', 1],
      ['{Shift>}{ArrowRight}{/Shift}', 10],
      ['{ArrowRight}', 1],
      ['{ArrowLeft}', -1],
    ] as const) {
      await userEvent.keyboard(keys);
      row = nearest(over5, (series.time_s[row] ?? NaN) + px * perPx);
      expect(over().getAttribute('aria-valuenow')).toBe(String(Math.round(series.time_s[row] ?? NaN)));
      expect(says()).toContain(`${number(series.pressure?.smoothed[row], 1)} psi`);
    }
    await userEvent.keyboard('{End}');
    expect(says()).toContain(`${number(series.pressure?.smoothed.at(-1), 1)} psi`);
    // Looked at so closely that a px is less than a reading, an arrow still moves on by one.
    handle().lookAt({ from_s: 7000, to_s: 7040 });
    await settled();
    const before = nearest(over5, Number(over().getAttribute('aria-valuenow')));
    await userEvent.keyboard('{ArrowRight}');
    expect(over().getAttribute('aria-valuenow')).toBe(String(Math.round(series.time_s[before + 1] ?? NaN)));
  });

  test('Ctrl and arrow: from border to border, through what was set aside, each once', async () => {
    const { over } = await put(spikes);
    const start = (kind: string): number =>
      spikes.assessment.phases.find((phase) => phase.kind === kind)?.start_s ?? NaN;
    over().focus();
    await userEvent.keyboard('{Home}');
    const found: number[] = [];
    for (let presses = 0; presses < 200; presses++) {
      await userEvent.keyboard('{Control>}{ArrowRight}{/Control}');
      const now = Number(over().getAttribute('aria-valuenow'));
      if (now === found.at(-1)) break;
      found.push(now);
    }
    expect(found).toEqual([...found].sort((a, b) => a - b));
    expect(found).toContain(Math.round(start('hold')));
    expect(found).toContain(Math.round(start('warm-up')));
    const { series } = spikes;
    series.pressure?.flags.forEach((flag, row) => {
      if (flag === SetAside.spike) expect(found).toContain(Math.round(series.time_s[row] ?? NaN));
    });
    expect(found.at(-1)).toBe(Math.round(end_s(spikes)));
  });

  test('over a reading that was set aside it says which kind and the value', async () => {
    const { handle, says } = await put(spikes);
    const { pressure, time_s } = spikes.series;
    const row = pressure?.flags.indexOf(SetAside.spike) ?? -1;
    handle().goTo(time_s[row] ?? NaN);
    await settled();
    expect(says()).toContain(`set aside: spike ${number(pressure?.values[row], 1)}`);
  });

  test('in another unit the same reading, converted', async () => {
    const { handle, says } = await put(over5, { unit: 'bar' });
    handle().goTo(9000);
    await settled();
    const row = nearest(over5, 9000);
    // 1 psi = 0.0689475729 bar, computed from the definitions (pound, inch, standard gravity).
    const bar = (over5.series.pressure?.smoothed[row] ?? NaN) * 0.0689475729;
    expect(says()).toContain(`${number(bar, 2)} bar`);
  });
});

describe('a part without record', () => {
  test.each([1280, 420])('is said under the cursor, and no line crosses it, at %i px', async (width) => {
    const { over, handle, says } = await put(cut, { width });
    const gap = cut.series.gaps[0] ?? { start_s: NaN, end_s: NaN };
    handle().goTo((gap.start_s + gap.end_s) / 2);
    await settled();
    expect(says()).toContain('no record');
    const turned = width === 420;
    const box = boxOf(over());
    const perPx = end_s(cut) / (turned ? box.height : box.width);
    const within = (gap.start_s + (gap.end_s - gap.start_s) * 0.3) / perPx;
    expect(pixelsLike(PRESSURE, within, turned)).toBe(0);
    expect(pixelsLike(PRESSURE, gap.start_s / perPx - 12, turned)).toBeGreaterThan(0);
    expect(pixelsLike(PRESSURE, gap.end_s / perPx + 40, turned)).toBeGreaterThan(0);
  });

  test('is one stop for the arrow keys', async () => {
    const { over, handle, says } = await put(spikes);
    const gap = spikes.series.gaps[0] ?? { start_s: NaN, end_s: NaN };
    handle().goTo(gap.start_s);
    await settled();
    over().focus();
    expect(says()).not.toContain('no record');
    await userEvent.keyboard('{ArrowRight}');
    expect(says()).toContain('no record for 5 min');
    await userEvent.keyboard('{ArrowRight}');
    expect(says()).not.toContain('no record');
    expect(Number(over().getAttribute('aria-valuenow'))).toBe(Math.round(gap.end_s));
    await userEvent.keyboard('{ArrowLeft}');
    expect(says()).toContain('no record');
  });
});

describe('looking closer', () => {
  type Seen = ({ from_s: number; to_s: number } | null)[];

  test('by drag, keys, wheel; the whole run comes back; nothing that was judged changes', async () => {
    const before = JSON.stringify(over5.assessment);
    const sum = (values: Float64Array | undefined): number =>
      values?.reduce((total, value) => total + value, 0) ?? NaN;
    const sums = (): number[] => [
      sum(over5.series.pressure?.smoothed),
      sum(over5.series.pressure?.values),
      sum(over5.series.time_s),
    ];
    const sumsBefore = sums();
    const seen: Seen = [];
    const { over, handle, says } = await put(over5, { onShown: (shown) => seen.push(shown) });
    const perPx = end_s(over5) / boxOf(over()).width;
    // The raw readings are those of one px, which holds fewer of them the closer one looks.
    const reading = (): string => says().replace(/raw [\d.]+(?: to [\d.]+)?, /u, '');
    handle().goTo(9000);
    await settled();
    const wholeRun = reading();

    mouse(over(), 'pointerdown', 300, 60);
    mouse(over(), 'pointermove', 420, 70);
    await settled();
    expect(document.querySelector('.strip-marked')?.textContent).toMatch(/min/u);
    mouse(over(), 'pointerup', 500, 70);
    await settled();
    expect(seen.at(-1)?.from_s).toBeCloseTo(300 * perPx, 0);
    expect(seen.at(-1)?.to_s).toBeCloseTo(500 * perPx, 0);
    handle().goTo(9000);
    await settled();
    expect(reading()).toBe(wholeRun);

    over().focus();
    const length = (): number => (seen.at(-1)?.to_s ?? NaN) - (seen.at(-1)?.from_s ?? NaN);
    const dragged = length();
    await userEvent.keyboard('+');
    expect(length()).toBeCloseTo(dragged / 2, 3);
    await userEvent.keyboard('-');
    expect(length()).toBeCloseTo(dragged, 3);
    await userEvent.keyboard('{Escape}');
    expect(seen.at(-1)).toBeNull();

    const box = boxOf(over());
    const turned = over().dispatchEvent(
      new WheelEvent('wheel', {
        deltaY: -300,
        ctrlKey: true,
        cancelable: true,
        bubbles: true,
        clientX: box.left + 502,
        clientY: box.top + 20,
      }),
    );
    // The page itself must not grow.
    expect(turned).toBe(false);
    await settled();
    const { from_s, to_s } = seen.at(-1) ?? { from_s: NaN, to_s: NaN };
    expect(to_s - from_s).toBeLessThan(end_s(over5));
    expect((502 * perPx - from_s) / (to_s - from_s)).toBeCloseTo(502 / box.width, 3);
    await page.getByRole('button', { name: 'Whole run' }).click();
    expect(seen.at(-1)).toBeNull();

    expect(JSON.stringify(over5.assessment)).toBe(before);
    expect(sums()).toEqual(sumsBefore);
  });

  test('a part looks the same however one came to it', async () => {
    const { handle, over } = await put(spikes);
    const picture = (): Uint8ClampedArray => {
      const canvas = canvasOf();
      return (
        canvas.getContext('2d')?.getImageData(0, 0, canvas.width, canvas.height).data ??
        new Uint8ClampedArray()
      );
    };
    const part = { from_s: end_s(spikes) * 0.31, to_s: end_s(spikes) * 0.52 };
    handle().lookAt(part);
    await settled();
    const straight = picture();
    const unlike = (other: Uint8ClampedArray): number =>
      other.reduce((count, part, at) => count + (part === straight[at] ? 0 : 1), 0);
    handle().wholeRun();
    await settled();
    expect(unlike(picture())).toBeGreaterThan(1000);
    handle().lookAt({ from_s: end_s(spikes) * 0.1, to_s: end_s(spikes) * 0.31 });
    for (let turns = 0; turns < 12; turns++) {
      over().dispatchEvent(new WheelEvent('wheel', { deltaX: 61.3, cancelable: true, bubbles: true }));
      await settled();
    }
    handle().lookAt(part);
    await settled();
    expect(unlike(picture())).toBe(0);
  });

  test('the wheel alone scrolls the page', async () => {
    const { over } = await put(over5);
    const left = over().dispatchEvent(
      new WheelEvent('wheel', { deltaY: 120, cancelable: true, bubbles: true }),
    );
    expect(left).toBe(true);
  });

  test('two fingers: what is under them stays under them', async () => {
    const seen: Seen = [];
    const { over } = await put(over5, { onShown: (shown) => seen.push(shown) });
    const perPx = end_s(over5) / boxOf(over()).width;
    const finger = async (type: string, pointerId: number, x: number): Promise<void> => {
      mouse(over(), type, x, 60, { pointerType: 'touch', pointerId, button: 0 });
      await settled();
    };
    await finger('pointerdown', 1, 400);
    await finger('pointerdown', 2, 500);
    await finger('pointermove', 1, 300);
    await finger('pointermove', 2, 700);
    const { from_s, to_s } = seen.at(-1) ?? { from_s: NaN, to_s: NaN };
    const now = (to_s - from_s) / boxOf(over()).width;
    expect(from_s + 300 * now).toBeCloseTo(400 * perPx, 0);
    expect(from_s + 700 * now).toBeCloseTo(500 * perPx, 0);
    await finger('pointerup', 1, 300);
    await finger('pointerup', 2, 700);
  });

  test('never closer than a few readings, never beyond the run', async () => {
    const seen: Seen = [];
    const { handle } = await put(over5, { onShown: (shown) => seen.push(shown) });
    for (let presses = 0; presses < 20; presses++) {
      handle().closer();
      await settled();
    }
    const closest = seen.at(-1) ?? { from_s: NaN, to_s: NaN };
    expect(closest.to_s - closest.from_s).toBeGreaterThanOrEqual(8 * over5.series.medianInterval_s - 1e-6);
    handle().lookAt({ from_s: -500, to_s: 300 });
    await settled();
    expect(seen.at(-1)?.from_s).toBe(0);
  });
});

describe('the paper', () => {
  test('folded, each limit is drawn at its place, under its number; unfolded, the scale is whole', async () => {
    const { over } = await put(over5);
    const plot = boxOf(over()),
      canvas = canvasOf(),
      box = boxOf(canvas);
    const ratio = canvas.width / box.width;
    const x = Math.round((plot.left - box.left + plot.width * 0.6) * ratio);
    const column =
      canvas.getContext('2d')?.getImageData(x, 0, 1, canvas.height).data ?? new Uint8ClampedArray();
    // --limit by day.
    const colour = [0x1b, 0x5e, 0x3a] as const;
    const numbers = (): (string | null)[] =>
      [...document.querySelectorAll('.strip-label.right')].map((label) => label.textContent);
    for (const limit of ['400', '420']) {
      const label = [...document.querySelectorAll('.strip-label.right')].find(
        (found) => found.textContent === limit,
      );
      if (label === undefined) throw new Error(`no number for ${limit}`);
      const middle = boxOf(label).top + boxOf(label).height / 2 - box.top;
      const drawn = [-2, -1, 0, 1, 2].some((step) => {
        const k = Math.round(middle * ratio + step) * 4;
        return colour.every((part, channel) => Math.abs(part - (column[k + channel] ?? 0)) < 12);
      });
      expect(drawn, limit).toBe(true);
    }
    expect(numbers()).not.toContain('200');
    await page.getByRole('button', { name: '0 to 390 psi folded away. Unfold' }).click();
    await until(() => numbers().includes('200'));
    await page.getByRole('button', { name: 'Fold' }).click();
    await until(() => !numbers().includes('200'));
  });

  const widths = [
    [1280, 800],
    [1000, 700],
    [700, 600],
    [420, 900],
    [320, 600],
  ] as const;

  test.each(widths)('no text lies over another at %i px', async (width, height) => {
    for (const sample of [over5, spikes, cut, cycled])
      for (const unit of ['psi', 'bar'] as const) {
        const { handle } = await put(sample, { width, height, unit });
        for (const look of [null, { from_s: 0, to_s: 1500 }, { from_s: 9000, to_s: 9060 }]) {
          if (look !== null) handle().lookAt(look);
          await settled();
          const labels = [
            ...document.querySelectorAll('.strip-paper .strip-label, .strip-head .strip-label'),
          ].map((label) => ({
            text: label.textContent,
            box: textBoxOf(label),
            head: label.closest('.strip-head') !== null,
          }));
          expect(labels.length).toBeGreaterThan(5);
          for (const [index, a] of labels.entries())
            for (const b of labels.slice(index + 1)) {
              if (a.head !== b.head) continue;
              const over =
                Math.min(a.box.right, b.box.right) - Math.max(a.box.left, b.box.left) > 1 &&
                Math.min(a.box.bottom, b.box.bottom) - Math.max(a.box.top, b.box.top) > 1;
              expect.soft(over, `"${a.text}" and "${b.text}"`).toBe(false);
            }
        }
        strip?.end();
      }
  });

  test.each(widths)('nothing reaches out of the window at %i px', async (width, height) => {
    for (const sample of [over5, cut]) {
      await put(sample, { width, height, unit: 'kgf/cm2' });
      expect(document.documentElement.scrollWidth).toBeLessThanOrEqual(width);
      for (const label of document.querySelectorAll('.strip-label, .strip-tab')) {
        expect.soft(boxOf(label).left, label.textContent ?? '').toBeGreaterThanOrEqual(0);
        expect.soft(boxOf(label).right, label.textContent ?? '').toBeLessThanOrEqual(width + 1);
      }
      strip?.end();
    }
  });

  test('the first picture comes in pieces, paper first, and is the same as one drawn at once', async () => {
    const half = 500;
    let readings = NaN,
      drawn = NaN;
    const pixels = (): number => {
      const canvas = canvasOf();
      const data = canvas.getContext('2d')?.getImageData(0, 0, canvas.width, canvas.height).data;
      return data?.reduce((count, part, at) => count + (at % 4 === 3 && part > 200 ? 1 : 0), 0) ?? 0;
    };
    await put(over5, {
      onPaper: () =>
        // The library draws when what runs now has ended.
        queueMicrotask(() => {
          readings = pixelsLike(PRESSURE, half, false);
          drawn = pixels();
        }),
    });
    const whole = canvasOf().toDataURL();
    expect(readings).toBe(0);
    expect(drawn).toBeGreaterThan(1000);
    expect(pixels()).toBeGreaterThan(drawn);
    expect(pixelsLike(PRESSURE, half, false)).toBeGreaterThan(0);
    window.dispatchEvent(new Event('beforeprint'));
    await Promise.resolve();
    expect(canvasOf().toDataURL()).not.toBe(whole);
    window.dispatchEvent(new Event('afterprint'));
    await until(() => canvasOf().toDataURL() === whole);
  });

  test('put on paper before its first picture is whole, it is drawn at once', async () => {
    let early = '';
    await put(over5, {
      onPaper: () => {
        window.dispatchEvent(new Event('beforeprint'));
        expect(document.querySelector('.strip-plot')?.hasAttribute('aria-busy')).toBe(false);
        // The library draws when what runs now has ended.
        void Promise.resolve().then(() => (early = canvasOf().toDataURL()));
      },
    });
    const printed = canvasOf().toDataURL();
    expect(pixelsLike(PRESSURE, 300, false)).toBeGreaterThan(0);
    expect(early).toBe(printed);
    window.dispatchEvent(new Event('afterprint'));
    await until(() => canvasOf().toDataURL() !== printed);
    window.dispatchEvent(new Event('beforeprint'));
    await Promise.resolve();
    expect(canvasOf().toDataURL()).toBe(printed);
    window.dispatchEvent(new Event('afterprint'));
    await settled();
  });

  test('laid out anew before its first picture is whole, its readings stand where they belong', async () => {
    const narrow = (): void => {
      const main = document.querySelector<HTMLElement>('main');
      if (main !== null) main.style.width = '900px';
      // At once, in the midst of the pieces.
      flushSync(() => window.dispatchEvent(new Event('resize')));
    };
    await put(over5, { onPaper: narrow });
    const early = canvasOf().toDataURL();
    expect(boxOf(canvasOf()).width).toBeLessThan(901);
    strip?.end();
    await put(over5);
    expect(canvasOf().toDataURL()).not.toBe(early);
    narrow();
    await until(() => canvasOf().toDataURL() === early);
  });

  test('looked at closer before its first picture is whole, it shows that part', async () => {
    const { handle } = await put(over5, { onPaper: (early) => early?.closer() });
    await until(() => document.querySelector('.strip-whole') !== null);
    const closer = canvasOf().toDataURL();
    handle().wholeRun();
    await until(() => document.querySelector('.strip-whole') === null);
    expect(canvasOf().toDataURL()).not.toBe(closer);
    handle().closer();
    await until(() => canvasOf().toDataURL() === closer);
  });

  test('night paper: the canvas takes the new colours', async () => {
    const { over } = await put(over5);
    const at = boxOf(over()).width * 0.6;
    expect(pixelsLike(PRESSURE, at, false)).toBeGreaterThan(0);
    document.documentElement.dataset['paper'] = 'night';
    // --pressure by night.
    const NIGHT = [0xf7, 0xf4, 0xe8] as const;
    await until(() => pixelsLike(PRESSURE, at, false) === 0);
    expect(pixelsLike(NIGHT, at, false)).toBeGreaterThan(0);
  });
});

describe('for everyone', () => {
  test.each([
    ['wide, day', 1280, 'day'],
    ['wide, night', 1280, 'night'],
    ['in the hand, day', 420, 'day'],
    ['in the hand, night', 420, 'night'],
  ] as const)('axe-core finds nothing: %s', async (_, width, paper) => {
    document.documentElement.dataset['paper'] = paper;
    document.documentElement.lang = 'en';
    document.title = 'Strip';
    const { handle } = await put(spikes, { width, onBorderMove: () => undefined });
    for (const name of ['Show as table', '63 set aside']) await page.getByRole('button', { name }).click();
    handle().closer();
    await settled();
    // The table's hundreds of rows, made alike by one line, are looked at once; then thirty, for they cost more than all the rest.
    const first = width === 1280 && paper === 'day';
    const rows = '.strip-table tbody tr:nth-child(n + 31)';
    expect(document.querySelectorAll(rows).length).toBeGreaterThan(100);
    const found = await axe.run(
      { include: ['main'], exclude: first ? [] : [rows] },
      {
        runOnly: ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice'],
      },
    );
    const words = found.violations.map(
      ({ id, nodes }) => `${id}: ${nodes.map(({ html }) => html).join(' ')}`,
    );
    expect(words).toEqual([]);
    expect(found.passes.length).toBeGreaterThan(10);
  });

  test('a summary in sentences, and a table with a row a minute that holds the data', async () => {
    await put(spikes);
    const summary = plain(document.querySelector('.strip .unseen')?.textContent ?? '');
    for (const words of [
      'warm-up 41 min',
      'hold 5 h 34 min',
      '400 to 420 psi',
      'One part without record',
      '63 readings set aside',
    ])
      expect(summary).toContain(words);
    await page.getByRole('button', { name: 'Show as table' }).click();
    const rows = [...document.querySelectorAll('.strip-table tbody tr')];
    expect(rows.length).toBe(Math.floor(end_s(spikes) / 60) + 1);
    const { series } = spikes;
    const cells = [...(rows[100]?.children ?? [])].map((cell) => plain(cell.textContent ?? ''));
    const kept: number[] = [];
    series.time_s.forEach((time, row) => {
      if (time >= 6000 && time < 6060 && series.pressure?.flags[row] === SetAside.kept)
        kept.push(series.pressure.values[row] ?? NaN);
    });
    expect(cells[0]).toBe('1 h 40 min');
    expect(cells.slice(-3, -1)).toEqual([number(Math.min(...kept), 1), number(Math.max(...kept), 1)]);
  });

  test('what was set aside is listed by kind, and choosing one moves the cursor there', async () => {
    const { over, says } = await put(spikes);
    await page.getByRole('button', { name: '63 set aside' }).click();
    const heads = [...document.querySelectorAll<HTMLElement>('.strip-set-aside summary')];
    const words = heads.map((head) => plain(head.textContent ?? ''));
    expect(words.some((head) => head.startsWith('Pressure: 45 spikes, first at '))).toBe(true);
    expect(words.some((head) => head.includes('12 fault tokens'))).toBe(true);
    const group = heads.find((head) => head.textContent?.includes('spikes'));
    group?.click();
    group?.parentElement?.querySelector<HTMLElement>('li:nth-child(3) button')?.click();
    await settled();
    expect(says()).toContain('set aside: spike');
    expect(document.activeElement).toBe(over());
  });

  test('moved with the mouse, the reading is said politely and not more than twice a second', async () => {
    const { over } = await put(over5);
    mouse(over(), 'pointermove', 100, 50);
    await until(() => (document.querySelector('[aria-live="polite"]')?.textContent ?? '') !== '');
    let said = 0;
    const observer = new MutationObserver((changes) => (said += changes.length));
    const live = document.querySelector('[aria-live="polite"]');
    if (live !== null) observer.observe(live, { childList: true, characterData: true, subtree: true });
    const start = performance.now();
    for (let moves = 0; moves < 40; moves++) {
      mouse(over(), 'pointermove', 101 + 3 * moves, 50);
      await settled();
    }
    const elapsed_ms = performance.now() - start;
    observer.disconnect();
    // Counted, not timed: on a busy machine the page draws a reading late and the next one in time. One more for that one.
    const most = Math.floor(elapsed_ms / 500) + 2;
    expect(said).toBeGreaterThan(0);
    expect(said).toBeLessThanOrEqual(most);
  });
});

describe('borders of the hold', () => {
  test('are sliders: arrows 10 s, with Shift a minute, never over a neighbour', async () => {
    const moves: [string, number, boolean][] = [];
    const { handle } = await put(over5, { onBorderMove: (...move) => moves.push(move) });
    const { phases } = over5.assessment;
    const hold = phases.find(({ kind }) => kind === 'hold') ?? { start_s: NaN, end_s: NaN };
    const warmUp = phases.find(({ kind }) => kind === 'warm-up') ?? { start_s: NaN };
    const slider = document.querySelector<HTMLElement>('.strip-handle[data-border="hold-start"]');
    expect(plain(slider?.getAttribute('aria-valuetext') ?? '')).toContain(
      `Hold starts at ${Math.floor(hold.start_s / 60)} min ${Math.round(hold.start_s % 60)} s`,
    );
    handle().nextBorder();
    await settled();
    expect(document.activeElement).toBe(slider);
    await userEvent.keyboard('{ArrowRight}');
    expect(moves.at(-1)).toEqual(['hold-start', hold.start_s + 10, true]);
    // The next goes on from there, though the run was not judged anew yet.
    await userEvent.keyboard('{Shift>}{ArrowRight}{/Shift}');
    expect(moves.at(-1)).toEqual(['hold-start', hold.start_s + 70, true]);
    await userEvent.keyboard('{Home}');
    expect(moves.at(-1)?.[1]).toBe(warmUp.start_s);
    await userEvent.keyboard('{End}');
    expect(moves.at(-1)?.[1]).toBeCloseTo(hold.end_s - 600, 0);
  });

  test('follow the hand, and stop where they must', async () => {
    const moves: [string, number, boolean][] = [];
    await put(over5, { onBorderMove: (...move) => moves.push(move) });
    const slider = document.querySelector<HTMLElement>('.strip-handle[data-border="hold-start"]');
    if (slider === null) throw new Error('no handle');
    const plot = boxOf(document.querySelector('.strip-over') ?? slider),
      perPx = end_s(over5) / plot.width;
    // An event of our own has no pointer that could be captured.
    slider.setPointerCapture = () => undefined;
    const send = async (type: string, x: number): Promise<void> => {
      slider.dispatchEvent(
        new PointerEvent(type, {
          bubbles: true,
          pointerId: 5,
          button: 0,
          clientX: plot.left + x,
          clientY: plot.top - 8,
        }),
      );
      await settled();
    };
    await send('pointerdown', 100);
    await send('pointermove', 300);
    expect(moves.at(-1)?.[1]).toBeCloseTo(300 * perPx, 0);
    expect(moves.at(-1)?.[2]).toBe(false);
    await send('pointermove', -60);
    expect(document.querySelector('.strip-tab')?.textContent).toContain('it can go no further');
    await send('pointermove', 300);
    await send('pointerup', 300);
    expect(moves.at(-1)?.[2]).toBe(true);
    expect(Math.abs(boxOf(slider).left + 22 - (plot.left + 300))).toBeLessThan(2);
  });
});
