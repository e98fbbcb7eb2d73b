import { DuckDBInstance } from '@duckdb/node-api'
import { expect, test } from 'vitest'
import { derivedBundles } from '#domain/reduction/derived-series.ts'
import { quality } from '#domain/reduction/quality.ts'
import { addDerivedSeries } from '../../../api/slices/derive-window.ts'
import { instrumentRow, pointRow, sensorRow } from '../../domain/reduction/sample-bundles.ts'

const faces = ['face-a0', 'face-a180', 'face-b0', 'face-b180'] as const
const intervals = ['T0', 'T1', 'T2']
const gauges = ['G0', 'G1']

/** A traversed casing whose A axis points east, and a strut with a thermal factor. */
function bundles() {
  const made = derivedBundles({
    instruments: [
      { ...instrumentRow('IN', 'traversed-inclinometer', 'toe'), axisBearingDegrees: 90 },
      { ...instrumentRow('ST', 'strut-load'), thermalFactorKnPerKelvin: 7.5, thermalReferenceDegC: 12 },
    ],
    points: [
      ...intervals.map((id, at) => ({
        ...pointRow(id, 'IN', 1 + 2 * at),
        zeroDeviationAMm: 1,
        zeroDeviationBMm: 0,
      })),
      ...gauges.map((id) => pointRow(id, 'ST', 0)),
    ],
    sensors: [
      ...intervals.flatMap((id) => faces.map((face) => sensorRow(id, face, 'mm'))),
      ...gauges.flatMap((id) => [sensorRow(id, 'force', 'kN'), sensorRow(id, 'temperature', 'degC')]),
    ],
    locations: [],
    strata: [],
  })
  if (!made.ok) throw new Error(made.issues.map(({ message }) => message).join(' '))
  return made.value
}

test('greatest deflection, far end of a casing and thermal split of a strut without a gauge are published', async () => {
  const all = bundles()
  const ids = [
    ...new Set(
      all.flatMap(({ slots, outputs }) => [
        ...slots.flatMap(({ series }) => series),
        ...outputs.map(({ id }) => id),
      ]),
    ),
  ]
  const numberOf = new Map(ids.map((id, at) => [id, at]))
  const row = (id: string, hour: number, value: number | null) =>
    `(${numberOf.get(id)}, timestamp '2027-03-01' + to_hours(${hour}), ${value ?? 'null'}::double, 0::utinyint, 60, 2)`
  const survey = (hour: number, without: string | null) =>
    intervals.flatMap((id, at) => {
      const [a, b] = [[-9, 3, 4][at] ?? 0, [0, 0, 2][at] ?? 0]
      return faces.flatMap((face) => {
        const value = (face.startsWith('face-a') ? a : b) * (face.endsWith('180') ? -1 : 1)
        return without === `${id}/${face}` ? [] : [row(`${id}/${face}`, hour, value)]
      })
    })
  const rows = [
    ...survey(1, null),
    ...survey(2, 'T0/face-a180'),
    row('G0/force', 1, 1000),
    row('G0/temperature', 1, 20),
    row('G1/temperature', 1, 24),
  ]
  const instance = await DuckDBInstance.create(':memory:', { threads: '1' })
  const connection = await instance.connect()
  try {
    await connection.run(`create table reduced as select * from (values ${rows.join(', ')})
      t(series, "at", value, quality, received_after_s, decimals)`)
    await connection.run('create table held as select * from reduced where false')
    await addDerivedSeries(connection, { bundles: all, numberOf })
    const valueAt = async (id: string, hour: number) => {
      const reader = await connection.runAndReadAll(
        `select value, quality from reduced where series = ${numberOf.get(id)} and "at" = timestamp '2027-03-01' + to_hours(${hour})`,
      )
      return reader.getRows()[0]
    }
    // Deviations −9, 3, 4 less 1 each: from the toe 3, 5, −5 along A; 2, 2, 2 along B, which points south.
    expect(await valueAt('IN/deflection', 1)).toEqual([5, 0])
    expect(await valueAt('IN/deflection-b', 1)).toEqual([2, 0])
    expect(await valueAt('IN/displacement-east', 1)).toEqual([-5, 0])
    expect(await valueAt('IN/displacement-north', 1)).toEqual([-2, 0])
    expect(await valueAt('IN/deflection', 2)).toEqual([null, quality.incomplete])
    expect(await valueAt('IN/deflection-b', 2)).toEqual([2, 0])
    expect(await valueAt('ST/thermal-force', 1)).toEqual([7.5 * 10, 0])
    expect(await valueAt('ST/force-less-thermal', 1)).toEqual([1000 - 75, quality.incomplete])
  } finally {
    connection.closeSync()
    instance.closeSync()
  }
})
