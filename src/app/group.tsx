import { useId } from 'react';
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

export function ChoiceBox(props: {
  name: string;
  label: string;
  meaning: string;
  checked: boolean;
  onChoose: () => void;
  onAgain?: () => void;
}): React.ReactElement {
  return (
    <label className="choice">
      <input
        type="radio"
        name={props.name}
        checked={props.checked}
        onChange={props.onChoose}
        onClick={() => props.checked && props.onAgain?.()}
      />
      <span>
        <b>{props.label}</b>
        <span className="second">{props.meaning}</span>
      </span>
    </label>
  );
}
