import { useState, type ReactNode, type RefObject } from 'react';
import type { Assessment } from '#formats/assessment.ts';
import { Strip } from './chart/strip.tsx';
import type { Shown, StripHandle, StripProps } from './chart/strip-props.ts';
import { shownKey } from './shown-numbers.ts';
import { SpanBar } from './span-bar.tsx';

/**
 * The strip, the bar that names a part of it, and the sheet under them. Which part is shown is theirs alone: the sheet is not built
 * anew with every step along the run.
 */
export function RunStrip({
  strip,
  judged,
  children,
  ...drawn
}: Omit<StripProps, 'ref' | 'onShown'> & {
  strip: RefObject<StripHandle | null>;
  /** The bar speaks of the run as it was judged, also while a trial is drawn. */
  judged: Assessment;
  children: ReactNode;
}): React.ReactElement {
  const [shown, setShown] = useState<Shown | null>(null);
  return (
    <>
      <Strip key={shownKey()} ref={strip} onShown={setShown} {...drawn} />
      <div className="sheet">
        {drawn.assessment !== judged && (
          <p className="aside-line" role="status">
            The strip shows a trial with another smoothing or rule, marked so here and kept nowhere.
          </p>
        )}
        <SpanBar
          assessment={judged}
          shown={shown}
          onLook={(part) => {
            if (part === null) strip.current?.wholeRun();
            else strip.current?.lookAt(part);
          }}
        />
        {children}
      </div>
    </>
  );
}
