import { groupBy } from '../../group-by.ts'
import type { MeasuringPoint, Sensor } from '../../site/tables.ts'
import type { DerivedSlot } from '../rules/derived-bundle.ts'

/** Slots from the top down. Points that replace one another share a slot, named after the newest. */
export function slotsOf(
  points: readonly MeasuringPoint[],
  sensors: readonly Sensor[],
): readonly DerivedSlot[] {
  const byId = new Map(points.map((point) => [point.id, point]))
  const generations = (point: MeasuringPoint): readonly MeasuringPoint[] => {
    const older = point.replaces === null ? undefined : byId.get(point.replaces)
    return older && older.id !== point.id ? [...generations(older), point] : [point]
  }
  const sensorByPoint = new Map(sensors.map((sensor) => [sensor.point, sensor.id]))
  const byFirst = groupBy(points.map(generations), ([first]) => first?.id)
  return [...byFirst.values()]
    .map((lines) => lines.toSorted((one, other) => other.length - one.length)[0] ?? [])
    .map((line) => ({
      point: line.at(-1)?.id ?? '',
      depthMetres: line.at(-1)?.depthMetres ?? 0,
      series: line.flatMap(({ id }) => sensorByPoint.get(id) ?? []),
      maximumAgeMinutes: null,
    }))
    .toSorted((one, other) => one.depthMetres - other.depthMetres || (one.point < other.point ? -1 : 1))
}

/** The same without the places that no such sensor measures. */
export const measuredSlots = (
  points: readonly MeasuringPoint[],
  sensors: readonly Sensor[],
): readonly DerivedSlot[] => slotsOf(points, sensors).filter(({ series }) => series.length > 0)
