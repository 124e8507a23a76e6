import { useEffect, useId, useRef } from 'react';
import { Mark } from './marks/mark.tsx';

/** A question with its answers under one heading, named by it for those who hear the page. */
export function QuestionGroup(props: {
  title: string;
  text: string;
  /** Still to be answered, and needed. */
  open: boolean;
  children: React.ReactNode;
}): React.ReactElement {
  const title = useId(),
    text = useId();
  return (
    <div
      className="question-body"
      role="radiogroup"
      aria-labelledby={title}
      aria-describedby={text}
      data-open={props.open}
    >
      <Mark verdict="not-assessed" criterion={null} />
      <div>
        <h2 id={title}>{props.title}</h2>
        <p id={text}>{props.text}</p>
        {props.children}
      </div>
    </div>
  );
}

/** Whether the choices are being gone over with the arrow keys; the key is pressed on the one before. */
function usePassing(watched: boolean): React.RefObject<boolean> {
  const passing = useRef(false);
  useEffect(() => {
    if (!watched) return undefined;
    const key = (event: KeyboardEvent): void => void (passing.current = event.key.startsWith('Arrow'));
    const pointer = (): void => void (passing.current = false);
    document.addEventListener('keydown', key, { capture: true });
    document.addEventListener('pointerdown', pointer, { capture: true });
    return () => {
      document.removeEventListener('keydown', key, { capture: true });
      document.removeEventListener('pointerdown', pointer, { capture: true });
    };
  }, [watched]);
  return passing;
}

export function ChoiceBox(props: {
  name: string;
  label: string;
  meaning: string;
  checked: boolean;
  onChoose: () => void;
  onAgain?: () => void;
  /** Choosing it opens something: going over it with the arrow keys does not (WCAG 2.2, 3.2.2). */
  opens?: boolean;
}): React.ReactElement {
  const passing = usePassing(props.opens === true);
  return (
    <label className="choice">
      <input
        type="radio"
        name={props.name}
        checked={props.checked}
        onChange={() => {
          if (!passing.current) props.onChoose();
        }}
        onClick={() => props.checked && props.onAgain?.()}
      />
      <span>
        <b>{props.label}</b>
        <span className="second">{props.meaning}</span>
      </span>
    </label>
  );
}
