import type { FolderFault } from './folder-fault.ts'

/** Faults of sensors, their calibrations, and what reduction needs. */
export const sensorFaults: readonly FolderFault[] = [
  // sensors, loggers
  [
    'sensors.csv',
    'PZ-1A/pore-pressure,PZ-1A,pore-pressure,7001,us,kPa,-50,350,2,PZ-1A/temperature,BA-1/barometric-pressure',
    'PZ-1A/pore-pressure,PZ-1A,pore-pressure,7001,us,kPa,-50,350,2,BA-1/barometric-pressure,BA-1/barometric-pressure',
    { code: 'companion-measure', line: 2, column: 'temperatureSensor' },
    /measures barometric-pressure, not temperature/,
  ],
  [
    'sensors.csv',
    'ST-1A/force,ST-1A,force',
    'ST-1A/forces,ST-1A,force',
    { code: 'sensor-name', line: 5, column: 'id', expected: 'ST-1A/force' },
    /write "ST-1A\/force"/,
  ],
  [
    'loggers.csv',
    ',UTC',
    ',Atlantic/Azore',
    { code: 'time-zone-unknown', line: 2, column: 'clockZone' },
    /time zone/,
  ],
  [
    'loggers.csv',
    'UTC\n',
    'UTC\nLG-2,50001,logger,,,,,,UTC\n',
    { code: 'serial-repeated', line: 3, column: 'serial', value: '50001' },
    /line 2/,
  ],
  // calibrations
  [
    'calibrations.csv',
    'pore-pressure,2,',
    'pore-pressure,3,',
    { code: 'version-order', line: 3, column: 'version', value: '3', expected: '2' },
    /without gaps/,
  ],
  [
    'calibration-steps.csv',
    'CC-1/1,1',
    'CC-1/2,3',
    { code: 'steps-missing', file: 'calibrations.csv', line: 2, column: 'id', value: 'CC-1/1' },
    /no steps/,
  ],
  [
    'calibration-steps.csv',
    'CC-1/2,2,zero',
    'CC-1/2,3,zero',
    { code: 'step-order', line: 4, column: 'step', expected: '2' },
    /step 2 is due/,
  ],
  // what reduction needs
  [
    'calibration-steps.csv',
    'factor=-0.1;offset=800;unit=kPa\n',
    'factor=minus;offset=800;unit=kPa\n',
    { code: 'number-expected', line: 2, column: 'parameters' },
    /decimal point/,
  ],
  [
    'calibration-steps.csv',
    'value=0.4',
    'valeu=0.4',
    { code: 'parameter-unknown', line: 4, column: 'parameters', value: 'valeu' },
    /value/,
  ],
  [
    'calibration-steps.csv',
    'CC-1/1,1,linear,factor=-0.1;offset=800;unit=kPa',
    'CC-1/1,1,linear,factor=-0.1;offset=800;unit=mm',
    { code: 'units-do-not-join', line: 2 },
    /CC-1\/1/,
  ],
  [
    'sensors.csv',
    'ST-1A/force,ST-1A,force',
    'ST-1A/strain,ST-1A,strain',
    { code: 'series-unknown', file: 'trigger-levels.csv', line: 4, column: 'series' },
    /no series "ST-1\/force"/,
  ],
]
