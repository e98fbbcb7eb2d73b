import type { RowOf } from './column.ts'
import {
  calibrationSteps,
  calibrations,
  joins,
  sensorBarometers,
  zeroReadings,
} from './tables/calibrations.ts'
import { approvals, approvalWithdrawals, checkLimits } from './tables/checks.ts'
import { contacts, dutyShifts, escalations, holidays } from './tables/duties.ts'
import { controlPoints, holeSurveys, locations, spiralSurveys, strata } from './tables/ground.ts'
import { instruments } from './tables/instruments.ts'
import { holdPoints, predictions, triggerLevels } from './tables/levels.ts'
import { coverageTests, gateways, loggerClocks, loggers, wiring } from './tables/logging.ts'
import { actionEntries, boards, meetings, minutes } from './tables/meetings.ts'
import { points, sensors } from './tables/sensors.ts'
import { suppressionEnds, suppressions } from './tables/suppressions.ts'
import { verdictEvidence, verdictReviews, verdicts, verdictWithdrawals } from './tables/verdicts.ts'
import { aquifers, pumpingRates, wells } from './tables/water.ts'
import { alignmentElements, diary, stages, structureLines } from './tables/works.ts'

/**
 * Every table of a site folder: file name, key, headings, meaning, unit and range, an area a file of `tables/`. This is the
 * specification of the folder format; `sample-site/` is one such folder.
 * Levels are metres on the site's vertical datum, up positive. Eastings and northings are site grid metres.
 */
export const siteTables = {
  stages,
  locations,
  strata,
  instruments,
  points,
  sensors,
  loggers,
  gateways,
  wiring,
  calibrations,
  calibrationSteps,
  triggerLevels,
  holdPoints,
  coverageTests,
  diary,
  checkLimits,
  verdicts,
  verdictEvidence,
  verdictReviews,
  verdictWithdrawals,
  controlPoints,
  holeSurveys,
  zeroReadings,
  joins,
  alignmentElements,
  structureLines,
  predictions,
  spiralSurveys,
  aquifers,
  wells,
  pumpingRates,
  approvals,
  approvalWithdrawals,
  contacts,
  dutyShifts,
  holidays,
  escalations,
  suppressions,
  suppressionEnds,
  meetings,
  boards,
  minutes,
  actionEntries,
  sensorBarometers,
  loggerClocks,
} as const

export type SiteTables = typeof siteTables
export type TableName = keyof SiteTables
export type Row<N extends TableName> = RowOf<SiteTables[N]['columns']>

export type Stage = Row<'stages'>
export type Location = Row<'locations'>
export type StratumLayer = Row<'strata'>
export type Instrument = Row<'instruments'>
export type MeasuringPoint = Row<'points'>
export type Sensor = Row<'sensors'>
export type Logger = Row<'loggers'>
export type Gateway = Row<'gateways'>
export type Wiring = Row<'wiring'>
export type CalibrationRow = Row<'calibrations'>
export type CalibrationStepRow = Row<'calibrationSteps'>
export type SensorBarometer = Row<'sensorBarometers'>
export type LoggerClock = Row<'loggerClocks'>
export type TriggerLevel = Row<'triggerLevels'>
export type HoldPoint = Row<'holdPoints'>
export type CoverageTestRow = Row<'coverageTests'>
export type DiaryEntry = Row<'diary'>
export type CheckLimit = Row<'checkLimits'>
export type Verdict = Row<'verdicts'>
export type Prediction = Row<'predictions'>
export type VerdictEvidence = Row<'verdictEvidence'>
export type VerdictReview = Row<'verdictReviews'>
export type VerdictWithdrawal = Row<'verdictWithdrawals'>
export type ControlPoint = Row<'controlPoints'>
export type HoleSurveyRow = Row<'holeSurveys'>
export type SpiralSurveyRow = Row<'spiralSurveys'>
export type ZeroReading = Row<'zeroReadings'>
export type SeriesJoin = Row<'joins'>
export type AlignmentElementRow = Row<'alignmentElements'>
export type StructureLineRow = Row<'structureLines'>
export type AquiferRow = Row<'aquifers'>
export type WellRow = Row<'wells'>
export type PumpingRateRow = Row<'pumpingRates'>
export type Approval = Row<'approvals'>
export type ApprovalWithdrawal = Row<'approvalWithdrawals'>
export type Contact = Row<'contacts'>
export type DutyShift = Row<'dutyShifts'>
export type Holiday = Row<'holidays'>
export type EscalationRow = Row<'escalations'>
export type Suppression = Row<'suppressions'>
export type SuppressionEnd = Row<'suppressionEnds'>
export type MeetingRow = Row<'meetings'>
export type BoardRow = Row<'boards'>
export type MinuteRow = Row<'minutes'>
export type ActionEntryRow = Row<'actionEntries'>
