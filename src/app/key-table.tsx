import { useAround } from './habits.ts';
import { useDialog } from './use-dialog.ts';

const keys: readonly (readonly [string, string])[] = [
  ['N', 'Bring in a log'],
  ['B', 'Bench book'],
  ['/', 'to the search line of the book'],
  ['↑ ↓ Enter', 'choose and open a unit in the book'],
  ['R', 'Set the relief'],
  ['G', 'Check a gauge'],
  ['D', 'Make the delivery record'],
  ['C', 'Deliver with a concession, where a limit failed'],
  ['Enter', 'Judge this run, once nothing is left to put right'],
  [
    '← →',
    'along the strip, one column; with Shift ten; with Ctrl to the next border, gap or set-aside reading',
  ],
  ['Home End', 'start and end of what is shown'],
  ['+ − 0', 'look closer, wider, whole run'],
  ['L', 'Lay another run over this one'],
  ['F', 'fold or unfold the scale'],
  ['[ ]', 'previous and next border'],
  ['U', 'next unit for viewing'],
  ['Ctrl Z', 'put back the last change by hand; with Shift make it again'],
  ['Esc', 'leave a closer look, or this table'],
  ['?', 'this table'],
];

/** The keys, and the switch that turns single letters off. */
export function KeyTable({ shown, onClose }: { shown: boolean; onClose: () => void }): React.ReactElement {
  const { habits, changeHabits } = useAround();
  const dialog = useDialog(shown);
  return (
    <dialog ref={dialog} className="keys" aria-labelledby="keys-title" onClose={onClose}>
      <h2 id="keys-title">Keys</h2>
      <dl>
        {keys.map(([key, does]) => (
          <div key={key}>
            <dt>
              <kbd>{key}</kbd>
            </dt>
            <dd>{does}</dd>
          </div>
        ))}
      </dl>
      <label className="check">
        <input
          type="checkbox"
          checked={habits.keys}
          onChange={(event) => changeHabits({ keys: event.currentTarget.checked })}
        />
        Single letters work as keys
      </label>
      <button type="button" className="button" onClick={onClose}>
        Close <kbd>Esc</kbd>
      </button>
    </dialog>
  );
}
