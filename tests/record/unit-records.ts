import type { UnitRecord } from '#formats/unit-record.ts';

/** An invented unit of an invented shop, with all that a shop may know of it. */
export const fullUnitRecord: UnitRecord = {
  format: 'overdrive-bench/unit-record',
  version: 1,
  recordNumber: '2026-0417',
  shop: { name: 'Example Bench and Overdrive', address: '1 Sample Street', contact: 'bench@example.org' },
  customer: 'A. Sample, Sampletown',
  unit: {
    serial: '28/61240',
    type: 'Overdrive, relief and dashpot type',
    receivedOn: '2026-01-12',
    condition: 'complete, oil black',
    complaint: 'slow to engage when hot',
  },
  oil: { grade: 'SAE 30 mineral, single-grade', leftIn: false },
  shaftSpeed: '1000 rpm (input shaft)',
  ambient: '19 °C',
  workDone: ['stripped, cleaned, inspected', 'pump and relief valve rebuilt', 'all seals renewed'],
  partsRenewed: ['relief valve seat', 'O-rings', 'strainer'],
  builtBy: 'E. Example',
  testedBy: 'E. Example',
  testedOn: '2026-03-04',
  instruments: [{ name: 'Shaft speed', identification: 'N-01', calibratedOn: '2024-06-02' }],
  setting: { shims_mm: [0.75, 0.5] },
  releasedBy: 'E. Example',
};
export const concession = {
  reason:
    'spring and shim stack are at the last step in stock; the customer will have the pressure read again',
  agreedBy: 'A. Sample',
  on: '2026-03-06',
};
