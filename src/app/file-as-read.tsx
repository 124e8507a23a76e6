import { roles, type Role } from '#formats/log.ts';
import { statedText, unitLabel, withUnit } from './shown-numbers.ts';
import { unitKind, unitNames, type UnitName } from '#units/unit.ts';
import type { ExcerptLine } from '#worker/messages.ts';
import { channelsAsked } from './desk.ts';
import { useAround } from './habits.ts';
import { corrected, questionsOf, type LoggedChannel } from './questions.ts';
import { roleWords, unitOriginWords } from './role-words.ts';
import { Sparkline } from './sparkline.tsx';
import type { Draft } from './state.ts';
import { startAndEnd } from './understood-words.ts';

/** The file's own lines, and above each column what it was read as; both can be put right. */
export function FileAsRead(props: {
  draft: Draft;
  openColumns: readonly string[];
}): React.ReactElement | null {
  const { draft, openColumns } = props;
  const { understood } = draft;
  if (understood === null) return null;
  const { excerpt, inspection, outlines } = understood;
  const asked = channelsAsked(draft);
  const { corrections } = questionsOf(asked, draft.answers);
  const channels = corrected(asked, corrections);
  const channelAt = (place: number): LoggedChannel | undefined =>
    channels.find(({ column }) => column === excerpt.columns[place]);
  const indexOf = (column: string): number =>
    inspection.log.channels.findIndex((channel) => channel.column === column);
  const places = excerpt.columns.map((_, place) => place);
  const when = startAndEnd(inspection.log);
  return (
    <div className="file">
      <h2>
        {draft.file.more === undefined ? 'The file, as read' : 'The first file, as read'}{' '}
        <span className="second">Click a name or a unit to change what a column means.</span>
      </h2>
      {/* Wide files scroll here, never the page; the keyboard must reach what is scrolled. */}
      <div className="lines" tabIndex={0} role="region" aria-label="The file, as read">
        <table>
          <thead>
            <tr>
              <td />
              {places.map((place) => (
                <th key={place} scope="col">
                  <ColumnMeaning
                    channel={channelAt(place)}
                    open={openColumns.some((id) => id.includes(excerpt.columns[place] ?? '\u0000'))}
                    name={excerpt.columns[place] ?? ''}
                  />
                </th>
              ))}
            </tr>
          </thead>
          <tbody>
            {excerpt.lines.map((line, index) =>
              line === null ? (
                <tr key={`left-out-${index}`}>
                  <th scope="row">
                    <span aria-label="lines left out">⋮</span>
                  </th>
                  <td colSpan={Math.max(1, places.length)} />
                </tr>
              ) : (
                <Line key={line.line} line={line} delimiter={excerpt.delimiter} width={places.length} />
              ),
            )}
            <tr className="all">
              <th scope="row">all</th>
              {places.map((place) => {
                const channel = channelAt(place);
                const outline = channel === undefined ? undefined : outlines[indexOf(channel.column)];
                return (
                  <td key={place}>
                    {channel === undefined || outline === undefined ? (
                      <span className="word">{place === 0 ? when : ''}</span>
                    ) : (
                      <>
                        <Sparkline
                          outline={outline}
                          warm={channel.role === 'oil-temperature'}
                          label={`${channel.column}, whole run: ${rangeText(channel)}`}
                        />
                        <span className="word">{rangeText(channel)}</span>
                      </>
                    )}
                  </td>
                );
              })}
            </tr>
          </tbody>
        </table>
      </div>
    </div>
  );
}

const short = (value: number): string => statedText(Number(value.toPrecision(5)));
function rangeText({ min, max }: LoggedChannel): string {
  return min === null || max === null ? 'no reading' : `${short(min)} to ${short(max)}`;
}

/** Units that a column of this role can have. */
function unitsFor(role: Role | null): readonly UnitName[] {
  const kinds: Partial<Record<Role, string>> = {
    pressure: 'pressure',
    'oil-temperature': 'temperature',
    'ambient-temperature': 'temperature',
    'shaft-speed': 'speed',
    'solenoid-current': 'current',
    flow: 'flow',
  };
  const kind = role === null ? undefined : kinds[role];
  return kind === undefined ? [] : unitNames.filter((unit) => unitKind(unit) === kind);
}

function ColumnMeaning(props: {
  channel: LoggedChannel | undefined;
  open: boolean;
  name: string;
}): React.ReactElement {
  const { channel, open, name } = props;
  const { desk } = useAround();
  if (channel === undefined)
    return (
      <>
        <span className="role">
          <b>when</b>
          <span className="unit-line">time</span>
        </span>
        <span className="bracket" />
      </>
    );
  const units = unitsFor(channel.role);
  return (
    <>
      <span className={`role${open ? ' open' : ''}`}>
        <select
          aria-label={`What column ${name} means`}
          value={channel.role ?? ''}
          onChange={(event) => {
            const role = roles.find((each) => each === event.currentTarget.value);
            if (role !== undefined) desk.correct({ column: channel.column, role });
          }}
        >
          {channel.role === null && <option value="">not known</option>}
          {roles.map((role) => (
            <option key={role} value={role}>
              {roleWords[role]}
            </option>
          ))}
        </select>
        <span className="unit-line">
          {units.length === 0 ? (
            <span>{channel.unit === null ? 'not used' : withUnit('', channel.unit).trim()}</span>
          ) : (
            <>
              <select
                aria-label={`Unit of column ${name}`}
                value={channel.unit ?? ''}
                onChange={(event) => {
                  const unit = units.find((each) => each === event.currentTarget.value);
                  if (unit !== undefined) desk.correct({ column: channel.column, unit });
                }}
              >
                {channel.unit === null && <option value="">unit missing</option>}
                {channel.unit !== null && !units.includes(channel.unit) && (
                  <option value={channel.unit}>{unitLabel(channel.unit)}</option>
                )}
                {units.map((unit) => (
                  <option key={unit} value={unit}>
                    {unitLabel(unit)}
                  </option>
                ))}
              </select>
              {channel.unit !== null && channel.unitFrom !== null && (
                <span>{unitOriginWords[channel.unitFrom]}</span>
              )}
            </>
          )}
        </span>
      </span>
      <span className={`bracket${open ? ' open' : ''}`} />
    </>
  );
}

function Line(props: { line: ExcerptLine; delimiter: string; width: number }): React.ReactElement {
  const { line, delimiter, width } = props;
  if (line.kind === 'before')
    return (
      <tr className="preamble">
        <th scope="row">{line.line}</th>
        <td colSpan={Math.max(1, width)}>{line.cells[0]}</td>
      </tr>
    );
  const sign = delimiter === '\t' ? '⇥' : delimiter;
  return (
    <tr className={line.kind === 'row' ? undefined : 'heading'}>
      <th scope="row">{line.line}</th>
      {Array.from({ length: Math.max(width, line.cells.length) }, (_, place) => {
        const cell = line.cells[place];
        return (
          <td key={place}>
            {cell === undefined ? null : place === line.setAside ? <s>{cell}</s> : cell}
            {cell !== undefined && place < line.cells.length - 1 && <span className="delimiter">{sign}</span>}
            {place === line.setAside && <span className="word"> set aside</span>}
          </td>
        );
      })}
    </tr>
  );
}
