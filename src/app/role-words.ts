import type { Role, UnitOrigin } from '#formats/log.ts';

/** What a column stands for, in words. */
export const roleWords: Readonly<Record<Role, string>> = {
  pressure: 'pressure',
  'oil-temperature': 'oil temperature',
  'ambient-temperature': 'room temperature',
  'shaft-speed': 'shaft speed',
  'solenoid-current': 'solenoid current',
  'solenoid-command': 'solenoid on or off',
  flow: 'flow',
  ignored: 'left out',
};

/** Where a column's unit came from. */
export const unitOriginWords: Readonly<Record<UnitOrigin, string>> = {
  header: 'in heading',
  'unit-row': 'in unit row',
  'unit-column': 'in unit column',
  cell: 'beside each reading',
  rig: 'from rig file',
  user: 'said by hand',
};
