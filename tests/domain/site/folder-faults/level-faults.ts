import type { FolderFault } from './folder-fault.ts'

/** Faults of trigger levels. */
export const levelFaults: readonly FolderFault[] = [
  [
    'trigger-levels.csv',
    'A. Reed,B. Moss',
    'A. Reed,a. reed',
    { code: 'approver-is-author', line: 2, column: 'approver' },
    /second person/,
  ],
  // The same name with a full-width letter and two spaces.
  [
    'trigger-levels.csv',
    'A. Reed,B. Moss',
    'A. Reed,Ａ.  Reed',
    { code: 'approver-is-author', line: 2, column: 'approver' },
    /second person/,
  ],
  [
    'trigger-levels.csv',
    'above,140',
    'above,110',
    { code: 'level-order', line: 3, column: 'value', value: '110' },
    /must lie above 120/,
  ],
  [
    'trigger-levels.csv',
    'TL-2,PZ-1A/pore-pressure,2',
    'TL-2,PZ-1A/pore-pressure,1',
    { code: 'level-repeated', line: 3, column: 'level' },
    /already applies then \(line 2\)/,
  ],
  [
    'trigger-levels.csv',
    'TL-2,PZ-1A/pore-pressure,2',
    'TL-2,PZ-1A/pore-pressure,3',
    { code: 'level-unnamed', line: 3, column: 'level' },
    /has no name/,
  ],
  [
    'trigger-levels.csv',
    'ST-1/force',
    'ST-1/forces',
    { code: 'series-unknown', line: 4, column: 'series' },
    /Did you mean "ST-1\/force"/,
  ],
  [
    'trigger-levels.csv',
    'read again and compare',
    '–',
    { code: 'action-missing', line: 2, column: 'action' },
    /starts nothing/,
  ],
  [
    'hold-points.csv',
    'PZ-1A/pore-pressure',
    'PZ-1/force',
    { code: 'series-unknown', line: 2, column: 'series' },
    /no series/,
  ],
]
