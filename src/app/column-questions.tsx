import { useId, useState } from 'react';
import { ChoiceBox, QuestionGroup } from './group.tsx';
import { useAround } from './habits.ts';
import type { Draft } from './state.ts';
import { fieldNumber } from './shown-numbers.ts';
import { ambiguousText, typedNumber } from './typed-number.ts';

const intervalMeanings: readonly (readonly [number, string])[] = [
  [1, 'a row each second'],
  [2, 'a row every two seconds'],
  [60, 'a row a minute'],
];

/** What nothing in the file decides about its time, and must be said; empty where all is told. */
export function layoutQuestions(
  draft: Draft,
): { id: 'date-order' | 'interval'; toSay: string; open: boolean }[] {
  const remarks = [
    ...(draft.firstRead?.inspection.remarks ?? []),
    ...(draft.understood?.inspection.remarks ?? []),
  ];
  const time = { ...draft.rig?.rig.time, ...draft.layout.time };
  const orders = ordersOf(remarks);
  return [
    ...(draft.timeMissing
      ? [
          {
            id: 'interval' as const,
            toSay: 'how far apart the rows are',
            open: draft.layout.time === undefined,
          },
        ]
      : []),
    ...(orders.length > 0
      ? [
          {
            id: 'date-order' as const,
            toSay: orders.includes('year-month-day') ? 'the order of the date' : 'day or month first',
            open: time.dateOrder === undefined,
          },
        ]
      : []),
  ];
}

type DateOrder = 'day-month-year' | 'month-day-year' | 'year-month-day';
const firstWords: Readonly<Record<DateOrder, string>> = {
  'day-month-year': 'Day first',
  'month-day-year': 'Month first',
  'year-month-day': 'Year first',
};

/** The orders that a date reads in, where nothing in the log decides between them; as the remark names them. */
function ordersOf(remarks: readonly { code: string; text: string }[]): DateOrder[] {
  const text = remarks.find(({ code }) => code === 'date-order-undecided')?.text ?? '';
  return Object.keys(firstWords).filter((order): order is DateOrder => text.includes(order));
}

/** Those questions, with their choices; nothing is chosen beforehand. */
export function LayoutQuestions({ draft }: { draft: Draft }): React.ReactElement {
  return (
    <>
      {layoutQuestions(draft).map(({ id, open }) =>
        id === 'interval' ? (
          <IntervalQuestion key={id} draft={draft} open={open} />
        ) : (
          <DateOrderQuestion key={id} draft={draft} open={open} />
        ),
      )}
    </>
  );
}

function DateOrderQuestion({ draft, open }: { draft: Draft; open: boolean }): React.ReactElement {
  const { desk } = useAround();
  const name = useId();
  const chosen = { ...draft.rig?.rig.time, ...draft.layout.time }.dateOrder ?? null;
  const text = (draft.firstRead ?? draft.understood)?.inspection.remarks?.find(
    ({ code }) => code === 'date-order-undecided',
  )?.text;
  const date = /"([^"]+)"/u.exec(text ?? '')?.[1] ?? 'the date';
  const orders = ordersOf((draft.firstRead ?? draft.understood)?.inspection.remarks ?? []);
  return (
    <QuestionGroup
      title={
        orders.includes('year-month-day')
          ? 'In which order does the date stand?'
          : 'Which comes first, day or month?'
      }
      text={`${date} reads ${orders.length > 2 ? 'in several' : 'both'} ways, and nothing in the file decides. Times within the run are not touched by it; the date on the record is.`}
      open={open}
    >
      <div className="choices">
        {orders.map((order) => (
          <ChoiceBox
            key={order}
            name={name}
            label={firstWords[order]}
            meaning={`${date} is ${order.replaceAll('-', ', ')}`}
            checked={chosen === order}
            onChoose={() => desk.layOut({ time: { dateOrder: order } })}
          />
        ))}
      </div>
    </QuestionGroup>
  );
}

function IntervalQuestion({ draft, open }: { draft: Draft; open: boolean }): React.ReactElement {
  const { desk } = useAround();
  const name = useId();
  const [typed, setTyped] = useState('');
  const chosen = draft.layout.time?.interval_s ?? null;
  const take = (interval_s: number): void => desk.layOut({ time: { form: 'sample-number', interval_s } });
  const value = typedNumber(typed) ?? NaN;
  const wrong = typed.trim() !== '' && !(value > 0 && value <= 3600);
  return (
    <QuestionGroup
      title="How far apart are the rows?"
      text="No column can be read as time, so each row counts as one sample. If a column is the time, say which under “How it is laid out”."
      open={open}
    >
      <div className="choices">
        {intervalMeanings.map(([seconds, meaning]) => (
          <ChoiceBox
            key={seconds}
            name={name}
            label={`${fieldNumber(seconds)} s`}
            meaning={meaning}
            checked={chosen === seconds}
            onChoose={() => {
              setTyped('');
              take(seconds);
            }}
          />
        ))}
      </div>
      <div className="band-fields">
        <label>
          <span className="field-name">or seconds between rows</span>
          <input
            inputMode="decimal"
            value={typed}
            autoComplete="off"
            aria-invalid={wrong}
            onChange={(event) => {
              const text = event.currentTarget.value;
              setTyped(text);
              const seconds = typedNumber(text) ?? NaN;
              if (seconds > 0 && seconds <= 3600) take(seconds);
            }}
          />
        </label>
        {wrong && (
          <p className="field-wrong" role="alert">
            {ambiguousText(typed) ?? 'Give seconds above 0, at most 3600.'}
          </p>
        )}
      </div>
    </QuestionGroup>
  );
}
