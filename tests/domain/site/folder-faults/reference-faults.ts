import type { FolderFault } from './folder-fault.ts'

/** Faults of rows that name others. */
export const referenceFaults: readonly FolderFault[] = [
  // references
  [
    'gateways.csv',
    'M-1,12',
    'M-l,12',
    { code: 'reference-broken', line: 2, column: 'location', value: 'M-l' },
    /Did you mean "M-1"/,
  ],
  [
    'instruments.csv',
    '2027-01-22T09:00:00Z,,,no',
    '2027-01-22T09:00:00Z,,PZ-1,no',
    { code: 'replaces-itself', line: 2, column: 'replaces' },
    /replacing itself/,
  ],
  // wiring
  [
    'wiring.csv',
    'LG-1,3,PZ-1A/pore-pressure',
    'LG-1,2,ST-1A/force',
    { code: 'channel-wired-twice', line: 4, column: 'fromAt' },
    /already reads PZ-1A\/temperature then \(line 3/,
  ],
  [
    'wiring.csv',
    'LG-1,3,PZ-1A/pore-pressure,2027-03-01',
    'LG-1,3,PZ-1A/pore-pressure,2027-02-28',
    { code: 'sensor-wired-twice', line: 4, column: 'sensor' },
    /channel 1 of LG-1 then \(line 2, until 2027-03-01T00:00:00Z\)/,
  ],
  [
    'wiring.csv',
    '2027-03-01T00:00:00Z,installed',
    '2027-01-01T00:00:00Z,installed',
    { code: 'ends-before-begin', line: 2, column: 'untilAt' },
    /not later than fromAt/,
  ],
]
