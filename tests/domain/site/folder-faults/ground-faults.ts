import type { FolderFault } from './folder-fault.ts'

/** Faults of holes, strata and spans of time. */
export const groundFaults: readonly FolderFault[] = [
  // ground
  [
    'strata.csv',
    'BH-1,4.6,1.6',
    'BH-1,4.6,4.8',
    { code: 'top-below-base', line: 2, column: 'topLevelMetres', value: '4.6' },
    /up positive/,
  ],
  [
    'strata.csv',
    'BH-1,1.6,-5.4',
    'BH-1,2.1,-5.4',
    { code: 'strata-overlap', line: 3, column: 'topLevelMetres', value: '2.1' },
    /line 2/,
  ],
  [
    'points.csv',
    'PZ-1,5.6',
    'PZ-1,22.6',
    {
      code: 'depth-beyond-hole',
      line: 2,
      column: 'depthMetres',
      value: '22.6',
      expected: 'at most 22, the length of BH-1',
    },
    /beyond the end of BH-1/,
  ],
  [
    'points.csv',
    'PZ-1,5.6,,',
    'PZ-1,21.5,2,',
    { code: 'gauge-beyond-hole', line: 2, column: 'gaugeLengthMetres' },
    /22.5/,
  ],
  [
    'points.csv',
    '-0.5,-1.5',
    '-1.5,-0.5',
    { code: 'top-below-base', line: 2, column: 'intakeTopLevelMetres' },
    /intake zone/,
  ],
  [
    'points.csv',
    'soft clay',
    'soft caly',
    { code: 'stratum-unknown', line: 2, column: 'stratum' },
    /Did you mean "soft clay"/,
  ],
  // spans
  [
    'instruments.csv',
    '2027-09-01',
    '2027-01-01',
    { code: 'retired-before-installed', line: 3, column: 'retiredAt' },
    /Retired 2027-01-01/,
  ],
  [
    'points.csv',
    'soft clay,,',
    'soft clay,2027-01-02T00:00:00Z,',
    { code: 'retired-before-installed', line: 2, column: 'retiredAt' },
    /installed 2027-01-22/,
  ],
  ['sensors.csv', '-50,350', '350,-50', { code: 'range-empty', line: 2, column: 'rangeHigh' }, /empty/],
  [
    'sensors.csv',
    'BA-1/barometric-pressure,60,180',
    'BA-1/barometric-pressure,60,30',
    { code: 'late-before-due', line: 2, column: 'lateAfterMinutes' },
    /interval/,
  ],
]
