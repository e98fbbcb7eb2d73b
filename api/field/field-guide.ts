import type { FieldGuide, GuidedSensor } from '#contract/field-guide.ts'
import { groupBy } from '#domain/group-by.ts'
import { calibrationAt } from '#domain/reduction/calibration-in-force.ts'
import { readCalibrations } from '#domain/reduction/read-calibrations.ts'
import type { SiteModel } from '#domain/site/site.ts'

/** What is to be known along the works of every sensor in use at an instant. */
export function fieldGuide(model: SiteModel, asOfEpochMs: number): FieldGuide {
  const read = readCalibrations(model)
  const calibrations = groupBy(read.ok ? read.value : [], ({ sensor }) => sensor)
  const due = new Map(model.calibrations.map(({ id, dueAt }) => [id, dueAt]))
  const points = new Map(model.points.map((point) => [point.id, point]))
  const instruments = new Map(model.instruments.map((one) => [one.id, one]))
  const loggers = new Map(model.loggers.map((logger) => [logger.id, logger]))
  const wiring = groupBy(
    model.wiring.filter(
      ({ fromAt, untilAt }) => fromAt <= asOfEpochMs && (untilAt === null || asOfEpochMs < untilAt),
    ),
    ({ sensor }) => sensor,
  )
  const inUse = (retiredAt: number | null | undefined) => (retiredAt ?? Infinity) > asOfEpochMs
  const sensors = model.sensors.flatMap((sensor): GuidedSensor[] => {
    const point = points.get(sensor.point)
    const instrument = instruments.get(point?.instrument ?? '')
    if (!point || !instrument || !inUse(point.retiredAt) || !inUse(instrument.retiredAt)) return []
    const wired = wiring.get(sensor.id)?.at(-1)
    const calibration = calibrationAt(calibrations.get(sensor.id) ?? [], asOfEpochMs)
    const { id, measure, serial, rawUnit, unit, decimals, rangeLow, rangeHigh, intervalMinutes } = sensor
    return [
      {
        ...{ id, measure, serial, rawUnit, unit, decimals, rangeLow, rangeHigh, intervalMinutes },
        point: point.id,
        instrument: instrument.id,
        wiring: wired ? { logger: wired.logger, channel: wired.channel } : null,
        byHand: wired !== undefined && loggers.get(wired.logger)?.kind !== 'logger',
        calibration,
        certificateDueAtEpochMs: calibration === null ? null : (due.get(calibration.id) ?? null),
      },
    ]
  })
  return { site: model.facts.id, asOfEpochMs, sensors }
}
