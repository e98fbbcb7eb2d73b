import type { SiteModel } from '../site/site.ts'

/** Records that corrections are held against. */
export type CorrectedTables = Pick<
  SiteModel,
  | 'sensors'
  | 'calibrations'
  | 'calibrationSteps'
  | 'sensorBarometers'
  | 'zeroReadings'
  | 'wiring'
  | 'loggerClocks'
  | 'verdicts'
  | 'verdictWithdrawals'
>
