import { readFileSync } from 'node:fs'
import { describe, expect, it } from 'vitest'
import type { FacePair } from '#domain/reduction/face-checksum.ts'
import { reviewTraverse, type TraverseReview } from '#domain/reduction/review-traverse.ts'
import { casingFiles } from '../../../sample-site/files/round-files.ts'
import { parseRows, readRecords } from '../../../sample-site/logging/read-records.ts'
import { createWeather } from '../../../sample-site/models/weather.ts'
import { readSampleSite, sampleFolder } from '../read-sample-site.ts'

const site = readSampleSite()
const casing = site.instruments.find(({ id }) => id === 'IC-01')
const intervals = site.points.filter(({ id }) => /^IC-01-\d\d$/.test(id))
const sensorAt = new Map(
  site.wiring.filter(({ logger }) => logger === 'CASINGS').map(({ channel, sensor }) => [channel, sensor]),
)
const surveys = new Map(
  casingFiles(readRecords(sampleFolder), createWeather()).map(({ path, text }) => [
    path.slice(-12, -4),
    new Map(
      text
        .trim()
        .split('\n')
        .slice(2)
        .map((line) => line.split(','))
        .map(([, station = '', count]) => [sensorAt.get(station), 0.025 * Number(count)]),
    ),
  ]),
)

/** Readings of a survey along an axis, mm, from the top down. */
function facesOf(day: string, axis: 'a' | 'b'): readonly FacePair[] {
  const read = (point: string, face: 0 | 180) => surveys.get(day)?.get(`${point}/face-${axis}${face}`) ?? null
  return intervals.map(({ id }) => ({ face0: read(id, 0), face180: read(id, 180) }))
}

function reviewed(day: string, axis: 'a' | 'b'): TraverseReview {
  const column = axis === 'a' ? 'zeroDeviationAMm' : 'zeroDeviationBMm'
  return reviewTraverse(
    {
      intervals: intervals.map((point) => ({
        point: point.id,
        depthMetres: point.depthMetres,
        lengthMetres: point.gaugeLengthMetres,
        zeroDeviationMm: point[column] ?? null,
      })),
      fixedEnd: 'toe',
      stillBelowMetres: casing?.stillBelowMetres ?? null,
    },
    facesOf(day, axis),
    facesOf(day, axis === 'a' ? 'b' : 'a'),
  )
}

const biasOf = ({ faults }: TraverseReview) => faults.find(({ kind }) => kind === 'bias-shift')
const days = [...surveys.keys()].sort()

describe('the casing IC-01', () => {
  it('is read on Tuesdays, every face of every interval', () => {
    expect(days).toHaveLength(39)
    for (const day of days) {
      expect([...(surveys.get(day)?.values() ?? [])].filter(Number.isFinite), day).toHaveLength(4 * 26)
      expect(new Date(`${day.slice(0, 4)}-${day.slice(4, 6)}-${day.slice(6)}`).getUTCDay(), day).toBe(2)
    }
  })

  it('has the mean of its first three surveys as its zero', () => {
    for (const [axis, column] of [
      ['a', 'zeroDeviationAMm'],
      ['b', 'zeroDeviationBMm'],
    ] as const) {
      const zeros = days.slice(0, 3).map((day) => facesOf(day, axis))
      intervals.forEach((point, at) => {
        const deviations = zeros.map((faces) => {
          const { face0, face180 } = faces[at] ?? { face0: null, face180: null }
          return ((face0 ?? Number.NaN) - (face180 ?? Number.NaN)) / 2
        })
        const mean = deviations.reduce((sum, one) => sum + one, 0) / 3
        expect(Math.abs(mean - (point[column] ?? Number.NaN)), `${point.id} ${axis}`).toBeLessThan(0.00051)
      })
    }
  })

  it('stands as its collar was surveyed', () => {
    const total = (column: 'zeroDeviationAMm' | 'zeroDeviationBMm') =>
      intervals.reduce((sum, point) => sum + (point[column] ?? Number.NaN), 0)
    const [north, east] = [total('zeroDeviationAMm'), total('zeroDeviationBMm')]
    const hole = site.locations.find(({ id }) => id === 'IC-01')
    // Deviations lead from the toe up to the top, the hole from the collar down.
    const bearing = (Math.atan2(-east, -north) * 180) / Math.PI
    expect(Math.abs(bearing - (hole?.azimuthDegrees ?? 0))).toBeLessThan(1)
    expect(90 - (Math.atan(Math.hypot(north, east) / 13_000) * 180) / Math.PI).toBeCloseTo(
      hole?.dipDegrees ?? 0,
      0,
    )
  })

  it('goes with the dig in every other survey, and shows no shift of bias where it stands still', () => {
    for (const day of days.filter((one) => one !== '20270622')) {
      const { greatestDeflectionMm } = reviewed(day, 'a')
      expect(Math.abs(greatestDeflectionMm ?? Number.NaN), day).toBeLessThan(12.5)
      for (const axis of ['a', 'b'] as const)
        expect(Math.abs(biasOf(reviewed(day, axis))?.size ?? Number.NaN), `${day} ${axis}`).toBeLessThan(0.1)
    }
    expect(reviewed('20271005', 'a').greatestDeflectionMm).toBeCloseTo(12, 0)
    expect(Math.abs(reviewed('20270504', 'a').greatestDeflectionMm ?? Number.NaN)).toBeLessThan(1)
  })
})

describe('D13: the survey of 22 June', () => {
  const truth = parseRows(readFileSync(`${sampleFolder}truth/decoys.csv`, 'utf8')).find(
    ({ id }) => id === 'D13',
  )
  const level = (which: number) =>
    site.triggerLevels.find((row) => row.series === 'IC-01/deflection' && row.level === which)?.value ?? 0

  it('is past level 2, and neither the survey before it nor the one after is near level 1', () => {
    expect(reviewed('20270622', 'a').greatestDeflectionMm).toBeGreaterThan(level(2) + 0.5)
    for (const day of ['20270615', '20270629'])
      expect(reviewed(day, 'a').greatestDeflectionMm, day).toBeLessThan(level(1) - 4)
  })

  it('is a shift of bias by its still intervals, and by its checksums along A alone', () => {
    const bias = biasOf(reviewed('20270622', 'a'))
    expect(bias?.intervals).toBe(6)
    expect(Math.abs((bias?.size ?? 0) - 0.4)).toBeLessThan(2 * (bias?.standardError ?? 0))
    expect((bias?.size ?? 0) / (bias?.standardError ?? 1)).toBeGreaterThan(10)
    expect(bias?.explained).toBeGreaterThan(0.9)
    expect(Math.abs((bias?.wholeMm ?? 0) - Number(truth?.size))).toBeLessThan(1.2)
    const rise = (axis: 'a' | 'b') =>
      (reviewed('20270622', axis).checksum?.mean ?? Number.NaN) -
      (reviewed('20270615', axis).checksum?.mean ?? Number.NaN)
    expect(rise('a')).toBeCloseTo(0.8, 1)
    expect(Math.abs(rise('b'))).toBeLessThan(0.1)
  })

  it('is no error of depth and no turn of the probe: those explain little of what the still intervals show', () => {
    const others = reviewed('20270622', 'a').faults.filter(({ kind }) => kind !== 'bias-shift')
    expect(others.map(({ kind }) => kind).sort()).toEqual(['depth', 'rotation'])
    for (const { kind, explained } of others) expect(explained, kind).toBeLessThan(0.3)
  })
})
