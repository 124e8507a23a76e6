import { useEffect, useId, useRef, useState } from 'react';
import type { RecordChoices } from '#worker/record-messages.ts';
import { useAround } from './habits.ts';
import type { Trouble } from './state.ts';
import { TroubleLine } from './trouble.tsx';
import { troubleOf } from './trouble-of.ts';

/** After so long without another letter the pages are drawn again. */
const PAUSE_MS = 400;

/** The pages as they will be saved, drawn again as the record changes. */
export function RecordPreview({ choices }: { choices: RecordChoices }): React.ReactElement {
  const { desk } = useAround();
  const [pages, setPages] = useState<string[]>([]);
  const [trouble, setTrouble] = useState<Trouble | null>(null);
  const id = useId();
  const { logo, ...plain } = choices;
  const wanted = JSON.stringify([plain, logo?.bytes.length, logo?.width, logo?.height]);
  const latest = useRef({ choices, wanted });
  useEffect(() => {
    latest.current = { choices, wanted };
  });
  // One drawing at a time: the next begins when it is done, with what is wanted by then.
  const drawing = useRef(false);
  const here = useRef(true);
  useEffect(() => {
    here.current = true;
    return () => {
      here.current = false;
    };
  }, []);

  useEffect(() => {
    async function draw(): Promise<void> {
      if (drawing.current) return;
      drawing.current = true;
      for (let drawn = ''; here.current && drawn !== latest.current.wanted;) {
        drawn = latest.current.wanted;
        const outcome = await desk.record.preview(latest.current.choices).outcome;
        if (!here.current) break;
        setTrouble(outcome.kind === 'answer' ? null : troubleOf(outcome));
        if (outcome.kind === 'answer')
          setPages(
            outcome.answer.pages.map((svg) =>
              URL.createObjectURL(new Blob([svg], { type: 'image/svg+xml' })),
            ),
          );
      }
      drawing.current = false;
    }
    const timer = window.setTimeout(() => void draw(), PAUSE_MS);
    return () => window.clearTimeout(timer);
  }, [desk, wanted]);
  useEffect(
    () => () => {
      for (const address of pages) URL.revokeObjectURL(address);
    },
    [pages],
  );
  return (
    <figure className="across preview record-pages" aria-labelledby={id}>
      <figcaption id={id} className="second">
        <span role="status">
          {pages.length === 0
            ? 'Drawing the pages …'
            : `The record as it will be saved: ${pages.length} ${pages.length === 1 ? 'page' : 'pages'}`}
        </span>
      </figcaption>
      {trouble !== null && <TroubleLine trouble={trouble} />}
      <div className="pages">
        {pages.map((address, index) => (
          <img key={address} src={address} alt={`Page ${index + 1} of ${pages.length} of the record`} />
        ))}
      </div>
    </figure>
  );
}
