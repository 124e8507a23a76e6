import { useEffect, useRef, useState } from 'react';
import type { ShownFrame } from './frame.ts';
import type { ReadOut } from './read-out.ts';

/** Whether the browser rounds lengths: without it the tab's text may stand half a pixel off. */
const ROUNDS = CSS.supports('transform', 'translateX(round(1.5px, 1px))');

/** Middle under the hairline, held between the ends of the paper. In percent of the tab: asked for its width, the page would be laid out twice. */
function underHairline(at: number, { left, width }: ShownFrame['plot']): string {
  const place = `max(${Math.min(16, left)}px, min(${left + width}px - 100%, ${at}px - 50%))`;
  return `translateX(${ROUNDS ? `round(${place}, 1px)` : place})`;
}

/** The tab that hangs below the time axis, so that no reading is covered; on a phone it stays above the foot, not under the thumb. */
export function ReadOutTab({
  out,
  frame,
  at_s,
}: {
  out: ReadOut;
  frame: ShownFrame;
  at_s: number;
}): React.ReactElement {
  const { plot, turned } = frame;
  const along = frame.x(at_s);
  const at = plot.left + along;
  const seen = !turned && along >= -0.5 && along <= frame.along + 0.5;
  return (
    <div className={`strip-tab-row${turned ? ' turned' : ''}`} aria-hidden="true">
      <div
        className="strip-stem"
        style={{
          visibility: seen ? 'visible' : 'hidden',
          transform: `translateX(${Math.round(at)}px)`,
        }}
      />
      <div className="strip-tab" style={{ transform: turned ? 'none' : underHairline(at, plot) }}>
        {out.pressure !== null && <b className="strip-tab-value">{out.pressure}</b>}
        {out.place !== null && <span className={out.pressure === null ? 'tab-alone' : ''}>{out.place}</span>}
        {out.raw !== null && <span className="tone-ink2">{out.raw}</span>}
        {out.oil !== null && <span className="tone-oil">{out.oil}</span>}
        {out.others.map((words) => (
          <span key={words}>{words}</span>
        ))}
        <span className="tone-ink2">{out.time}</span>
      </div>
    </div>
  );
}

const QUIET_ms = 500;

/** Says the reading under the pointer, not more than twice a second. The slider says its own when keys move it. */
export function SpokenReadOut({ text }: { text: string }): React.ReactElement {
  const [said, setSaid] = useState('');
  const last = useRef(0);
  useEffect(() => {
    const wait = Math.max(0, last.current + QUIET_ms - performance.now());
    const timer = setTimeout(() => {
      last.current = performance.now();
      setSaid(text);
    }, wait);
    return () => clearTimeout(timer);
  }, [text]);
  return (
    <p className="unseen" aria-live="polite">
      {said}
    </p>
  );
}
