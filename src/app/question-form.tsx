import { ChoiceBox, QuestionGroup } from './group.tsx';
import type { Question } from './questions.ts';

/** A question with its choices; nothing is chosen beforehand. */
export function QuestionForm(props: {
  question: Question;
  chosen: string | null;
  onChoose: (choice: string) => void;
}): React.ReactElement {
  const { question, chosen, onChoose } = props;
  return (
    <QuestionGroup title={question.title} text={question.text} open={chosen === null}>
      <div className="choices">
        {question.choices.map((choice) => (
          <ChoiceBox
            key={choice.id}
            name={question.id}
            label={choice.label}
            meaning={choice.meaning}
            checked={choice.id === chosen}
            onChoose={() => onChoose(choice.id)}
          />
        ))}
      </div>
    </QuestionGroup>
  );
}
