import { describe, expect, test } from 'vitest'
import { stationOf } from '#domain/geometry/alignment.ts'
import { gaussianTrough, settlementAt } from '#domain/ground/trough.ts'
import { settlementAlong } from '#domain/ground/troughs/settlement-along.ts'

const drive = { diameterMetres: 6, axisDepthMetres: 20, volumeLoss: 0.012, widthParameter: 0.5 }
const line = [
  [0, 0],
  [0, 100],
] as const
const place = (id: string, offset: number, northingMetres: number, more: object = {}) => ({
  id,
  eastingMetres: offset,
  northingMetres,
  depthMetres: 0,
  settlementMm: settlementAt(gaussianTrough(drive), offset) + 1,
  standardUncertaintyMm: 0.3,
  late: false,
  ...more,
})
const along = (places: ReturnType<typeof place>[], withinMetres = 10) =>
  settlementAlong(places, (point) => stationOf(line, point), { drive, withinMetres })

describe('settlement along an alignment', () => {
  test('stands beside the prediction at each offset, in order of chainage', () => {
    const found = along([
      place('B', 4, 60),
      place('A', -3, 20),
      place('far', 30, 40),
      place('beyond', 0, 130),
    ])
    if (!found.ok) throw new Error(found.issues[0]?.message)
    expect(found.value.used.map(({ id }) => id)).toEqual(['A', 'B'])
    for (const over of found.value.overPredictionMm) expect(over).toBeCloseTo(1, 12)
    expect(found.value.remarks[0]).toContain('2 of 2 points')
  })
  test('leaves out what is late or below ground, and is refused with nothing left', () => {
    const found = along([
      place('A', 0, 20),
      place('late', 0, 30, { late: true }),
      place('D', 0, 40, { depthMetres: 5 }),
    ])
    expect(found.ok && found.value.leftOut.map(({ item }) => item.id)).toEqual(['late'])
    const refused = along([place('late', 0, 30, { late: true })])
    expect(refused.ok ? '' : refused.issues[0]?.message).toContain('none has a current value')
  })
})
