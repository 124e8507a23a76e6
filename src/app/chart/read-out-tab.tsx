import { useEffect, useLayoutEffect, useRef, useState } from 'react';
import type { ShownFrame } from './frame.ts';
import type { ReadOut } from './read-out.ts';

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
  const tab = useRef<HTMLDivElement>(null),
    stem = useRef<HTMLDivElement>(null);
  useLayoutEffect(() => {
    if (tab.current === null || stem.current === null) return;
    const at = frame.plot.left + frame.x(at_s);
    const width = tab.current.offsetWidth;
    const high = frame.plot.left + frame.plot.width,
      low = Math.min(16, frame.plot.left);
    tab.current.style.transform = frame.turned
      ? 'none'
      : `translateX(${Math.round(Math.max(low, Math.min(high - width, at - width / 2)))}px)`;
    const seen = !frame.turned && frame.x(at_s) >= -0.5 && frame.x(at_s) <= frame.along + 0.5;
    stem.current.style.visibility = seen ? 'visible' : 'hidden';
    stem.current.style.transform = `translateX(${Math.round(at)}px)`;
  });
  return (
    <div className={`strip-tab-row${frame.turned ? ' turned' : ''}`} aria-hidden="true">
      <div className="strip-stem" ref={stem} />
      <div className="strip-tab" ref={tab}>
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
