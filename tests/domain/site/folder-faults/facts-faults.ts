import type { FolderFault } from './folder-fault.ts'

/** Faults of coverage tests, the diary and facts of the site. */
export const factsFaults: readonly FolderFault[] = [
  // coverage, diary
  [
    'coverage-tests.csv',
    '7,20,15',
    '7,20,25',
    { code: 'received-above-sent', line: 2, column: 'received', value: '25' },
    /cannot have arrived/,
  ],
  [
    'coverage-tests.csv',
    '2027-01-25T10:05:00Z,500030',
    '2027-01-25T10:05:00Z,500031',
    { code: 'test-moved', line: 3, column: 'eastingMetres' },
    /two places/,
  ],
  [
    'diary.csv',
    'a day",,',
    'a day",500000,',
    { code: 'coordinate-missing', line: 2, column: 'northingMetres' },
    /both or neither/,
  ],
  // site.csv
  [
    'site.csv',
    'id,small-quay',
    'id,Small Quay',
    { code: 'site-name-unusable', line: 2, column: 'value' },
    /address/,
  ],
  [
    'site.csv',
    'Atlantic/Azores',
    'Atlantic/Azore',
    { code: 'time-zone-unknown', line: 8, column: 'value' },
    /IANA/,
  ],
  [
    'site.csv',
    '+proj=tmerc',
    'EPSG:27700;',
    { code: 'crs-unknown', line: 6, column: 'value' },
    /PROJ string/,
  ],
  [
    'site.csv',
    'timeZone,',
    'timezon,',
    { code: 'field-unknown', line: 8, column: 'field', value: 'timezon' },
    /Did you mean "timeZone"/,
  ],
  [
    'site.csv',
    'watermark,invented data',
    'watermark,',
    { code: 'watermark-missing', line: 5, column: 'value' },
    /say so on every screen/,
  ],
  ['site.csv', 'invented,yes', 'invented,no', { code: 'present-fixed', line: 9, column: 'value' }, /made-up/],
  [
    'site.csv',
    'Level 1;Level 2',
    'Level 1;Level 1',
    { code: 'level-names', line: 10, column: 'value' },
    /differ/,
  ],
  [
    'site.csv',
    'groundLevelMetres,4.6\n',
    '',
    { code: 'field-missing', column: 'field', expected: 'groundLevelMetres' },
    /Add a row/,
  ],
]
