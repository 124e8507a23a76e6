import type { Role } from '#formats/log.ts';
import { unitKind, type UnitName } from '#units/unit.ts';

/** A column as the finding of roles sees it. */
export interface RoleColumn {
  heading: string;
  unit: UnitName | null;
  /** A unit is written that is none of ours (`KW`). */
  unknownUnit: boolean;
  /** It holds no number at all. */
  empty: boolean;
  /** Every number is 0 or 1. */
  switches: boolean;
}

const words = {
  pressure:
    /press(?:ure|ion|ione)?|druck|presi[oó]n|tryck|trykk|tlak|ci[sś]nienie|nyom[aá]s|давлен|basın[cç]|压力|圧力|(?:^|[^a-z])p(?:[\s_.\-\d[(]|$)|(?:^|[^a-z])(?:line|main|system|accumulator)(?![a-z])/iu,
  surroundings:
    /ambient|room|dew|(?:^|[^a-z])air(?![a-z])|umgebung|raumtemp|outside|cold ?junction|(?:^|[^a-z])cj(?:c|t)?(?![a-z])/iu,
  atmosphere: /baro|atmos|ambient|umgebung|luftdruck/iu,
  oil: /oil|öl(?![a-z])|oel|huile|aceite|olie|olja|olej|масл|yağ|油|sump|fluid|atf|getriebe/iu,
  temperature: /temp|thermo|темп|sıcaklık|温度|油温|(?:^|[^a-z])t(?:[\s_.\-\d[(]|$)/iu,
  speed: /rpm|оборот|转速|回転|speed|drehzahl|shaft|tach|rev(?:s|olutions)|(?:^|[^a-z])n(?:[\s_[(]|$)/iu,
  solenoid: /solenoid|(?:^|[^a-z])sol(?![a-z])|coil|magnet|valve current/iu,
  current: /current|strom|amps?(?![a-z])/iu,
  command:
    /command|cmd|engage|on ?\/? ?off|switch|relay|solenoid|(?:^|[^a-z])sol(?![a-z])|(?:^|[^a-z])od(?![a-z])/iu,
  flow: /flow|durchfluss|volumenstrom|d[eé]bit|caudal/iu,
} as const;

/** Whether a heading may be that of the solenoid's command. */
export const namesCommand = (heading: string): boolean => words.command.test(heading);

/** What is wanted, not what is: setpoints, limits. */
const wanted =
  /set ?-?_?point|(?:^|[^a-z])(?:set|target|limit|alarm|demand|desired|nominal|threshold)(?![a-z])|(?:^|[^a-z])soll(?=$|[^a-z]|wert|druck|temp|drehzahl)|grenzwert/iu;
/** Temperatures of other things on a bench than its oil. */
const elsewhere =
  /cpu|mcu|(?:^|[^a-z])(?:board|chip|pcb|die|internal|device)(?![a-z])|logger|motor|engine|bearing|(?:^|[^a-z])lager|coolant|water|wasser|exhaust|abgas|winding|wicklung|batter|inverter|cabinet|schrank|controller/iu;
const spelledOut = /press|druck|presi|tryck|trykk|tlak|давлен|basın[cç]|压力|圧力/iu;

/** Roles of the columns, and the roles that several could have: those columns stay without one. */
export interface RolesFound {
  roles: (Role | null)[];
  candidates: { role: Role; places: number[] }[];
}

/**
 * Tells roles from headings and units. Never a guess: two columns that could both be the pressure get no role. A single temperature
 * without a further word is the oil's: it is what a bench logs beside the pressure (common practice, no source).
 * @param taken roles given by the rig file or the user, which need no finding
 */
export function findRoles(columns: readonly RoleColumn[], taken: ReadonlySet<Role>): RolesFound {
  const roles: (Role | null)[] = columns.map(() => null);
  const candidates: RolesFound['candidates'] = [];
  const give = (role: Role, places: number[]): void => {
    const free = places.filter((place) => roles[place] === null);
    if (taken.has(role) || free.length === 0) return;
    const [only] = free;
    if (free.length === 1 && only !== undefined) roles[only] = role;
    else candidates.push({ role, places: free });
  };
  // A column without a reading is named only where no other could be meant.
  const where = (test: (column: RoleColumn, place: number) => boolean): number[] => {
    const all = columns.flatMap((column, place) => (test(column, place) ? [place] : []));
    const filled = all.filter((place) => columns[place]?.empty === false);
    return filled.length > 0 ? filled : all;
  };
  const kind = (column: RoleColumn): string | null => (column.unit === null ? null : unitKind(column.unit));

  const pressures = where(
    (c) =>
      (kind(c) === 'pressure' ||
        (c.unit === null &&
          (c.unknownUnit ? spelledOut : words.pressure).test(c.heading) &&
          !words.temperature.test(c.heading))) &&
      !words.atmosphere.test(c.heading) &&
      !wanted.test(c.heading),
  );
  const named = pressures.filter((place) => kind(columns[place] ?? noColumn) === 'pressure');
  // A column that only sounds like pressure does not contest one that says its unit.
  give(
    'pressure',
    named.length > 0 && pressures.length > named.length ? contest(columns, pressures, named) : pressures,
  );

  const isPressure = new Set(pressures);
  const temperatures = where(
    (c, place) =>
      (kind(c) === 'temperature' ||
        (c.unit === null && words.temperature.test(c.heading) && !isPressure.has(place))) &&
      !wanted.test(c.heading),
  );
  const isAmbient = (place: number): boolean => words.surroundings.test(columns[place]?.heading ?? '');
  give('ambient-temperature', temperatures.filter(isAmbient));
  const others = temperatures.filter((place) => !isAmbient(place));
  const oil = others.filter((place) => words.oil.test(columns[place]?.heading ?? ''));
  if (oil.length > 0) give('oil-temperature', oil);
  else
    give(
      'oil-temperature',
      others.filter((place) => !elsewhere.test(columns[place]?.heading ?? '')),
    );

  const speeds = where(
    (c) =>
      (c.unit === 'rpm' || (c.unit === null && !c.switches && words.speed.test(c.heading))) &&
      !wanted.test(c.heading),
  );
  give('shaft-speed', speeds);
  const currents = where((c) => kind(c) === 'current');
  const solenoids = currents.filter((place) => words.solenoid.test(columns[place]?.heading ?? ''));
  give('solenoid-current', solenoids);
  give(
    'solenoid-command',
    where((c) => c.switches && (kind(c) === null || kind(c) === 'plain') && words.command.test(c.heading)),
  );
  give(
    'flow',
    where(
      (c) =>
        (kind(c) === 'flow' || (c.unit === null && words.flow.test(c.heading))) && !wanted.test(c.heading),
    ),
  );
  return { roles, candidates };
}

const noColumn: RoleColumn = { heading: '', unit: null, unknownUnit: false, empty: true, switches: false };
/** Headings with the word itself (`Pressure`) contest; a lone letter P or "line" does not. */
function contest(columns: readonly RoleColumn[], all: readonly number[], named: readonly number[]): number[] {
  const sure = new Set(named);
  return all.filter((place) => sure.has(place) || spelledOut.test(columns[place]?.heading ?? ''));
}

const kindsOfRole: Readonly<Record<Role, readonly string[] | null>> = {
  pressure: ['pressure'],
  'oil-temperature': ['temperature'],
  'ambient-temperature': ['temperature'],
  'shaft-speed': ['speed'],
  'solenoid-current': ['current'],
  'solenoid-command': ['plain', 'voltage', 'current'],
  flow: ['flow'],
  ignored: null,
};
/** Whether a unit can be a role's. */
export const unitFitsRole = (unit: UnitName, role: Role): boolean =>
  kindsOfRole[role]?.includes(unitKind(unit)) ?? true;
