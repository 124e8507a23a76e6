import { describe, expect, test } from 'vitest';
import { findRoles, unitFitsRole } from '#log/find-roles.ts';
import { readHeading } from '#log/header-unit.ts';
import type { Role } from '#formats/log.ts';

/** Roles of headings alone, units out of the headings. */
function rolesOf(headings: string[], options: { taken?: Role[]; switches?: string[] } = {}): (Role | null)[] {
  const columns = headings.map((heading) => {
    const { unit, unitText } = readHeading(heading);
    return {
      heading,
      unit,
      unknownUnit: unit === null && unitText !== null,
      empty: false,
      switches: options.switches?.includes(heading) === true,
    };
  });
  return findRoles(columns, new Set(options.taken)).roles;
}

describe('roles from headings and units', () => {
  test.each<[string[], (Role | null)[]]>([
    [
      ['pressure_psi', 'oil_degC', 'shaft_rpm', 'solenoid_A'],
      ['pressure', 'oil-temperature', 'shaft-speed', 'solenoid-current'],
    ],
    [
      ['Druck [bar]', 'Öl [°C]', 'Drehzahl [1/min]', 'Magnetstrom [A]'],
      ['pressure', 'oil-temperature', 'shaft-speed', 'solenoid-current'],
    ],
    [
      ['Давление, кПа', 'Температура масла, °С', 'Частота, об/мин'],
      ['pressure', 'oil-temperature', 'shaft-speed'],
    ],
    [
      ['压力 (MPa)', '油温 (°C)', '转速'],
      ['pressure', 'oil-temperature', 'shaft-speed'],
    ],
    [
      ['P', 'T oil', 'n'],
      ['pressure', 'oil-temperature', 'shaft-speed'],
    ],
    [
      ['Line [kgf/cm2]', 'Temperature [°C]'],
      ['pressure', 'oil-temperature'],
    ],
    [
      ['p_psi', 'T oil (°C)', 'T room (°C)'],
      ['pressure', 'oil-temperature', 'ambient-temperature'],
    ],
    [
      ['p_psi', 'T1 (°C)', 'T2 (°C)'],
      ['pressure', null, null],
    ],
    [
      ['Setpoint pressure [psi]', 'Solldruck [bar]', 'Oil temp limit [°C]', 'Speed demand [rpm]'],
      [null, null, null, null],
    ],
    [
      ['p_psi', 'CPU temp [°C]'],
      ['pressure', null],
    ],
    [
      ['p_psi', 'Motor oil temp [°C]', 'Motor temp [°C]'],
      ['pressure', 'oil-temperature', null],
    ],
    [
      ['P1 [psi]', 'P2 [psi]'],
      [null, null],
    ],
    [
      ['Pressure [psi]', 'Barometric pressure [mbar]'],
      ['pressure', null],
    ],
    [
      ['Pressure', 'Supply [psi]'],
      [null, null],
    ],
    [
      ['Supply [psi]', 'P'],
      ['pressure', null],
    ],
    [
      ['Cold junction [degC]', 'Oil [degC]'],
      ['ambient-temperature', 'oil-temperature'],
    ],
    [
      ['Supply current [A]', 'p_psi'],
      [null, 'pressure'],
    ],
    [
      ['P(SUM) [KW]', 'Flow [L/min]'],
      [null, 'flow'],
    ],
    [
      ['note', 'state'],
      [null, null],
    ],
  ])('%j', (headings, roles) => {
    expect(rolesOf(headings)).toEqual(roles);
  });

  test('a switch is a command only when it switches', () => {
    expect(rolesOf(['solenoid'], { switches: ['solenoid'] })).toEqual(['solenoid-command']);
    expect(rolesOf(['solenoid'])).toEqual([null]);
  });
  test('a role that was given is not given again', () => {
    expect(rolesOf(['P2 [psi]', 'Oil [degC]'], { taken: ['pressure'] })).toEqual([null, 'oil-temperature']);
  });
  test('those who could be it are named', () => {
    const columns = ['A [psi]', 'B [psi]'].map((heading) => ({
      heading,
      unit: 'psi' as const,
      unknownUnit: false,
      empty: false,
      switches: false,
    }));
    expect(findRoles(columns, new Set()).candidates).toEqual([{ role: 'pressure', places: [0, 1] }]);
  });
  test('a column without a number has a role only where no other could have it', () => {
    const column = (heading: string, empty: boolean): Parameters<typeof findRoles>[0][number] => ({
      heading,
      unit: 'psi',
      unknownUnit: false,
      empty,
      switches: empty,
    });
    expect(findRoles([column('P [psi]', true)], new Set()).roles).toEqual(['pressure']);
    expect(findRoles([column('P [psi]', true), column('P2 [psi]', false)], new Set()).roles).toEqual([
      null,
      'pressure',
    ]);
  });
});

test('a unit fits a role of its kind', () => {
  expect(unitFitsRole('bar', 'pressure')).toBe(true);
  expect(unitFitsRole('degC', 'pressure')).toBe(false);
  expect(unitFitsRole('degC', 'ignored')).toBe(true);
  expect(unitFitsRole('V', 'solenoid-command')).toBe(true);
  expect(unitFitsRole('rpm', 'flow')).toBe(false);
});
