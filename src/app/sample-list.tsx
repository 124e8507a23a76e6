import { useAround } from './habits.ts';
import { TroubleLine } from './trouble.tsx';
import { useComeIntoView } from './use-come-into-view.ts';

/** "power-cut-after-three-hours.csv" as a name: "Power cut after three hours". */
const named = (file: string): string => {
  const words = file.replace(/\.\w+$/u, '').replaceAll('-', ' ');
  return words.slice(0, 1).toUpperCase() + words.slice(1);
};

/** The invented runs that come with the program. */
export function SampleList(): React.ReactElement {
  const { desk, state } = useAround();
  const { samples } = state;
  const heading = useComeIntoView((pressed) => pressed?.getAttribute('aria-expanded') === 'true');
  return (
    <section className="samples" aria-labelledby="samples-title">
      <h2 id="samples-title" ref={heading} tabIndex={-1}>
        Sample runs
      </h2>
      <p className="second">Invented runs of an invented shop. The limits are examples, for no real unit.</p>
      {samples === null && <p className="second">Looking for them …</p>}
      {samples !== null && !Array.isArray(samples) && <TroubleLine trouble={samples} />}
      {Array.isArray(samples) && (
        <ul>
          {samples.map((sample) => (
            <li key={sample.log}>
              <button type="button" className="link" onClick={() => void desk.trySample(sample)}>
                <b>{named(sample.log)}</b>
                <span className="second">{sample.odd}</span>
              </button>
            </li>
          ))}
        </ul>
      )}
    </section>
  );
}
