import type { FolderFault } from './folder-fault.ts'

/** Faults of headings and rows. */
export const rowFaults: readonly FolderFault[] = [
  [
    'gateways.csv',
    'antennaHeightMetres',
    'antenaHeightMetres',
    { code: 'heading-unknown', line: 1, column: 'antenaHeightMetres' },
    /Did you mean "antennaHeightMetres"/,
  ],
  [
    'gateways.csv',
    'id,location,antennaHeightMetres',
    'id,location',
    { code: 'heading-missing', line: 1, column: 'antennaHeightMetres' },
    /Add a column/,
  ],
  [
    'gateways.csv',
    'antennaHeightMetres\nGW-1,M-1,12',
    'antennaHeightMetres,id\nGW-1,M-1,12,GW-1',
    { code: 'heading-repeated', line: 1, column: 'id' },
    /column 1 and again in column 4/,
  ],
  [
    'gateways.csv',
    'M-1,12',
    'M-1,12,3',
    { code: 'cell-count', line: 2, value: '4', expected: '3 cells' },
    /4 cells under 3 headings/,
  ],
  ['gateways.csv', 'GW-1,M-1', '"GW-1,M-1', { code: 'quote-unclosed', line: 2, column: 1 }, /never closes/],
  ['gateways.csv', 'GW-1,', 'GW"1,', { code: 'quote-misplaced', line: 2, column: 1 }, /inside a cell/],
  [
    'gateways.csv',
    'GW-1,M-1,12',
    'GW-1,M-1,12\nGW-1,M-1,9',
    { code: 'key-repeated', line: 3, column: 'id', value: 'GW-1' },
    /line 2/,
  ],
  [
    'strata.csv',
    'BH-1,1.6,-5.4',
    'BH-1,4.6,-5.4',
    { code: 'key-repeated', line: 3, column: 'location + topLevelMetres' },
    /line 2/,
  ],
]
