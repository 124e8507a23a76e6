import type { Assessment } from '#formats/assessment.ts';
import { shareText, statedText, unitLabel, withUnit } from './shown-numbers.ts';
import { methodWords } from './what-if.tsx';

/** Every default and choice that was used, as the assessment lists it. */
export function Settings({ assessment }: { assessment: Assessment }): React.ReactElement {
  const lines = Object.entries(assessment.settings).flatMap(([name, value]) => {
    const text =
      name === 'smoothing'
        ? smoothingText(assessment.settings.smoothing)
        : name === 'coverageProbability' && typeof value === 'number'
          ? shareText(value, 2)
          : settingText(value);
    return text === null ? [] : [[settingName(name), text] as const];
  });
  return (
    <section aria-labelledby="settings">
      <details>
        <summary>
          <h2 id="settings">Settings used</h2>
        </summary>
        <dl className="facts">
          {lines.map(([name, text]) => (
            <div key={name}>
              <dt>{name}</dt>
              <dd>{text}</dd>
            </div>
          ))}
          <div>
            <dt>Program</dt>
            <dd>version {assessment.program.version}</dd>
          </div>
        </dl>
      </details>
    </section>
  );
}

/** "running median over 30 s". */
const smoothingText = ({ method, window_s }: Assessment['settings']['smoothing']): string =>
  method === 'none' ? methodWords.none : `${methodWords[method]} over ${withUnit(statedText(window_s), 's')}`;

/** "settlingTolerance" → "settling tolerance", "minimumDip_s" → "minimum dip, s". */
function settingName(name: string): string {
  const [words = name, unit] = name.split('_');
  const spaced = words.replace(/([A-Z])/gu, (letter) => ` ${letter.toLowerCase()}`);
  const label = unit === undefined ? '' : `, ${unitLabel(unit)}`;
  return spaced.slice(0, 1).toUpperCase() + spaced.slice(1) + label;
}

function settingText(value: unknown): string | null {
  if (typeof value === 'number') return statedText(value);
  if (typeof value === 'string') return value.replaceAll('-', ' ');
  if (typeof value === 'boolean') return value ? 'yes' : 'no';
  if (value === null) return 'not set';
  if (Array.isArray(value)) return value.map(settingText).join(', ');
  if (typeof value !== 'object' || value === undefined) return null;
  if ('value' in value && 'unit' in value && typeof value.unit === 'string')
    return typeof value.value === 'number' ? withUnit(statedText(value.value), value.unit) : 'not set';
  return Object.entries(value)
    .map(([key, part]) => `${settingName(key).toLowerCase()} ${settingText(part) ?? ''}`)
    .join(', ');
}
