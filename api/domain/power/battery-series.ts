import type { ReviewedSite } from '../review/case/reviewed-site.ts'

/** Series by which a logger's cells are followed. */
export interface BatterySeries {
  readonly logger: string
  readonly voltage: number
  /** point/measure of the voltage. */
  readonly voltageId: string
  readonly temperature: number | null
  /** Voltage at which its cells are to be changed; null: none is stated. */
  readonly limitVolts: number | null
}

/** Loggers whose voltage is read, with the limit of the check on it: below it is suspect. */
export function batterySeriesOf(
  document: Pick<ReviewedSite, 'series' | 'checkLimits'>,
  atEpochMs: number,
): readonly BatterySeries[] {
  const limits = document.checkLimits.filter(
    (limit) => limit.check === 'range' && (limit.validFrom ?? 0) <= atEpochMs && limit.suspectBelow !== null,
  )
  return document.series.flatMap((series) => {
    if (series.measure !== 'battery-voltage') return []
    const temperature = document.series.find(
      (one) => one.point === series.point && one.measure === 'temperature',
    )
    const own = limits.findLast((limit) => limit.series === series.id)
    const general = limits.findLast((limit) => limit.series === null && limit.measure === 'battery-voltage')
    return [
      {
        logger: series.point,
        voltage: series.series,
        voltageId: series.id,
        temperature: temperature?.series ?? null,
        limitVolts: (own ?? general)?.suspectBelow ?? null,
      },
    ]
  })
}
