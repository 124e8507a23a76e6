import { createRoot } from 'react-dom/client';
import { useState } from 'react';
import { page } from 'vitest/browser';
import { assess } from '#assessment/assess.ts';
import type { Assessment } from '#formats/assessment.ts';
import { readRig, readSpec } from '#formats/check.ts';
import type { Series } from '#formats/series.ts';
import { readLog } from '#log/read-log.ts';
import { Strip } from '../../src/app/chart/strip.tsx';
import type { StripHandle, StripProps } from '../../src/app/chart/strip-props.ts';
import '../../src/app/paper.css';
import '../../src/app/sheet.css';

const logs = import.meta.glob<string>('../../sample-runs/logs/*.csv', { query: '?raw', import: 'default' });
const specs = import.meta.glob<string>('../../sample-runs/specs/*.json', {
  query: '?raw',
  import: 'default',
});
const rigs = import.meta.glob<string>('../../sample-runs/rigs/*.json', { query: '?raw', import: 'default' });

async function textOf(files: Record<string, () => Promise<string>>, name: string): Promise<string> {
  const entry = Object.entries(files).find(([path]) => path.endsWith(`/${name}`));
  if (entry === undefined) throw new Error(`no ${name} among the sample runs`);
  return await entry[1]();
}

export interface JudgedSample {
  assessment: Assessment;
  series: Series;
}

/** A sample run, read and judged in this page. */
export async function judged(log: string, spec = 'example-400-420', rig = 'bench-1'): Promise<JudgedSample> {
  const rigRead = readRig(await textOf(rigs, `${rig}.json`), null);
  const specRead = readSpec(await textOf(specs, `${spec}.json`), null);
  if (!rigRead.ok || !specRead.ok) throw new Error('the sample files do not read');
  const bytes = new TextEncoder().encode(await textOf(logs, `${log}.csv`));
  const read = readLog(bytes, { fileName: `${log}.csv`, rig: rigRead.value, sha256: '0'.repeat(64) });
  if (!read.ok) throw new Error(JSON.stringify(read.problems));
  const result = assess({
    log: read.value,
    rig: rigRead.value,
    spec: specRead.value,
    judge: null,
    programVersion: '0',
  });
  if (!result.ok) throw new Error(JSON.stringify(result.problems));
  return result.value;
}

/** A strip on the page, as the run sheet mounts it. */
export interface OnPage {
  handle: () => StripHandle;
  over: () => HTMLElement;
  /** What the slider says of the reading under the cursor. */
  says: () => string;
  end: () => void;
}

export async function putOnPage(
  sample: JudgedSample,
  options: Omit<Partial<StripProps>, 'ref' | 'folded' | 'onFold'> & {
    width?: number;
    height?: number;
    /** Called where the paper stands and the readings are not drawn yet. */
    onPaper?: (handle: StripHandle | null) => void;
  } = {},
): Promise<OnPage> {
  const { width = 1280, height = 800, onPaper, ...props } = options;
  await page.viewport(width, height);
  const host = document.createElement('main');
  document.body.append(host);
  document.body.style.margin = '0';
  let handle: StripHandle | null = null;
  const take = (given: StripHandle | null): void => {
    handle = given;
  };
  const root = createRoot(host);
  root.render(<Mounted sample={sample} props={props} take={take} />);
  const over = (): HTMLElement => {
    const element = host.querySelector<HTMLElement>('.strip-over');
    if (element === null) throw new Error('the strip is not there');
    return element;
  };
  // Told at once: a picture later the readings may stand already.
  const watcher = new MutationObserver(() => {
    if (host.querySelector('.strip-plot[aria-busy] canvas') === null) return;
    watcher.disconnect();
    onPaper?.(handle);
  });
  watcher.observe(host, { childList: true, subtree: true });
  await until(() => host.querySelector('.strip-plot:not([aria-busy]) canvas') !== null);
  await settled();
  return {
    handle: () => {
      if (handle === null) throw new Error('the strip gave no handle');
      return handle;
    },
    over,
    says: () => plain(over().getAttribute('aria-valuetext') ?? ''),
    end: () => {
      root.unmount();
      host.remove();
    },
  };
}

function Mounted({
  sample,
  props,
  take,
}: {
  sample: JudgedSample;
  props: Omit<Partial<StripProps>, 'ref' | 'folded' | 'onFold'>;
  take: (given: StripHandle | null) => void;
}): React.ReactElement {
  const [folded, setFolded] = useState(true);
  const { assessment, series } = sample;
  return (
    <Strip
      unit="psi"
      assessment={assessment}
      series={series}
      {...props}
      ref={take}
      folded={folded}
      onFold={setFolded}
    />
  );
}

export const plain = (text: string): string => text.replaceAll('\u00a0', ' ');

/** Some frames: by then the page has drawn what was asked. */
export async function settled(): Promise<void> {
  for (let frames = 0; frames < 3; frames++) await new Promise((go) => requestAnimationFrame(go));
}

export async function until(holds: () => boolean, wait_ms = 10_000): Promise<void> {
  const end = performance.now() + wait_ms;
  while (!holds()) {
    if (performance.now() > end) throw new Error('waited in vain');
    await settled();
  }
}

/** Moves the mouse over the plot, px from its left top corner. */
export function mouse(
  over: HTMLElement,
  type: string,
  x: number,
  y: number,
  more: PointerEventInit = {},
): void {
  const box = over.getBoundingClientRect();
  over.dispatchEvent(
    new PointerEvent(type, {
      bubbles: true,
      cancelable: true,
      pointerId: 1,
      pointerType: 'mouse',
      button: type === 'pointermove' ? -1 : 0,
      clientX: box.left + x,
      clientY: box.top + y,
      ...more,
    }),
  );
}
