import type { KeptRig, KeptSpec } from '#formats/book.ts';
import { writeJson } from '#formats/number.ts';
import { newestRig, newestSpec } from './book-shelf-desk.ts';
import { dayText } from './book-words.ts';
import { useAround } from './habits.ts';
import { useComeIntoView } from './use-come-into-view.ts';
import { bandText } from './limits-question.tsx';
import { putDown } from './put-down.ts';

/** Limits and benches that the shop keeps under a name, every version of each. */
export function BookShelf(): React.ReactElement {
  const { bookState } = useAround();
  const heading = useComeIntoView();
  const specs = bookState.specs.filter(({ removedAt }) => removedAt === null);
  const rigs = bookState.rigs.filter(({ removedAt }) => removedAt === null);
  return (
    <section className="part opens shelf" aria-labelledby="shelf">
      <h2 id="shelf" ref={heading} tabIndex={-1}>
        Limits and benches
      </h2>
      <p className="second">
        A later version never changes what was judged by an earlier one: each run keeps its own.
      </p>
      <h3>Limits</h3>
      <ul>
        {specs.length === 0 && <li>None yet. Bring in a log, and keep its limits under a name.</li>}
        {specs.map((kept) => (
          <Kept
            key={kept.id}
            kept={kept}
            name={newestSpec(kept)?.name ?? ''}
            versions={kept.versions.map(({ savedAt, spec }) => ({
              savedAt,
              text: bandText(spec),
              file: spec,
            }))}
            ending="spec"
          />
        ))}
      </ul>
      <h3>Benches</h3>
      <ul>
        {rigs.length === 0 && <li>None yet. A bench is kept when its logger is remembered.</li>}
        {rigs.map((kept) => (
          <Kept
            key={kept.id}
            kept={kept}
            name={newestRig(kept)?.name ?? ''}
            versions={kept.versions.map(({ savedAt, rig }) => ({
              savedAt,
              text: (rig.channels ?? []).map(({ column }) => column).join(', '),
              file: rig,
            }))}
            ending="rig"
          />
        ))}
      </ul>
    </section>
  );
}

function Kept(props: {
  kept: KeptSpec | KeptRig;
  name: string;
  versions: readonly { savedAt: string; text: string; file: object }[];
  ending: 'spec' | 'rig';
}): React.ReactElement {
  const { kept, name, versions, ending } = props;
  const { book, bookState } = useAround();
  return (
    <li>
      <details>
        <summary>
          <b>{name}</b>{' '}
          <span className="second">
            {versions.at(-1)?.text}
            {versions.length > 1 ? `; ${versions.length} versions` : ''}
          </span>
        </summary>
        <ol>
          {versions.map(({ savedAt, text, file }, index) => (
            <li key={`${savedAt} ${index}`}>
              Version {index + 1}, {dayText(savedAt, bookState.today)}: {text}{' '}
              <button
                type="button"
                className="link"
                aria-label={`Save version ${index + 1} of ${name} as a file`}
                onClick={() =>
                  putDown(
                    `${name.replace(/[\\/:*?"<>|\p{Cc}]/gu, '-')} ${ending} ${index + 1}.json`,
                    new TextEncoder().encode(writeJson(file)),
                    'application/json',
                  )
                }
              >
                Save as a file
              </button>
            </li>
          ))}
        </ol>
        <button type="button" className="link" onClick={() => void book.remove(kept)}>
          Remove {name}
        </button>
      </details>
    </li>
  );
}
