import { DuckDBInstance } from '@duckdb/node-api'
import { expect, test } from 'vitest'
import { derivedBundles } from '#domain/reduction/derived-series.ts'
import type { DerivedBundle } from '#domain/reduction/rules/derived-bundle.ts'
import { deriveMade } from '#domain/what-if/derive-made.ts'
import type { ReducedSeries } from '#domain/what-if/reduced-series.ts'
import { addDerivedSeries } from '../../../api/slices/derive-window.ts'
import { openRandomStream } from '../../../sample-site/random.ts'
import { instrumentRow, pointRow, sensorRow } from '../../domain/reduction/sample-bundles.ts'

const hours = 60

/** Kinds that the sample site has none of: a cell with its reservoir, a crack by three studs, a strut that parts warmth. */
function bundles(): readonly DerivedBundle[] {
  const gauges = ['G0', 'G1']
  const made = derivedBundles({
    instruments: [
      { ...instrumentRow('CR', 'crack-meter'), studZeroAbMm: 100, studZeroAcMm: 89.44, studZeroBcMm: 100 },
      { ...instrumentRow('SC', 'settlement-cell'), surveyMaximumAgeDays: 0.25 },
      { ...instrumentRow('ST', 'strut-load'), thermalFactorKnPerKelvin: 7.5, thermalReferenceDegC: 12 },
    ],
    points: [
      pointRow('CR', 'CR', 0),
      { ...pointRow('SC', 'SC', 0), zeroPressureKpa: 29.4, zeroTemperatureDegC: 10 },
      ...gauges.map((id) => pointRow(id, 'ST', 0)),
    ],
    sensors: [
      ...(['stud-length-ab', 'stud-length-ac', 'stud-length-bc'] as const).map((measure) =>
        sensorRow('CR', measure, 'mm'),
      ),
      sensorRow('SC', 'liquid-pressure', 'kPa'),
      sensorRow('SC', 'temperature', 'degC'),
      sensorRow('SC', 'reservoir-drop', 'mm'),
      ...gauges.flatMap((id) => [sensorRow(id, 'force', 'kN'), sensorRow(id, 'temperature', 'degC')]),
    ],
    locations: [],
    strata: [],
  })
  if (!made.ok) throw new Error(made.issues.map(({ message }) => message).join(' '))
  return made.value
}

const sizeOf = (id: string): readonly [middle: number, spread: number] =>
  id.includes('stud')
    ? [95, 3]
    : id.includes('pressure')
      ? [29, 1]
      : id.includes('force')
        ? [1000, 100]
        : [12, 6]

test('what instruments make of their members is what the queries make, surveys held, silent and missing ones included', async () => {
  const all = bundles()
  expect(new Set(all.map(({ rule }) => rule.kind))).toEqual(
    new Set(['three-studs', 'liquid-column', 'mean', 'thermal-split']),
  )
  const { uniform: random } = openRandomStream('derive-made')
  const members = [...new Set(all.flatMap(({ slots }) => slots.flatMap(({ series }) => series)))]
  const reduced = new Map(
    members.map((id): [string, ReducedSeries] => {
      // Reservoirs are levelled now and then, all else is read by the hour and now and then not.
      const due = id.endsWith('reservoir-drop') ? 0.2 : 0.9
      const read = Array.from({ length: hours }, (_, hour) => hour).filter(() => random() < due)
      const [middle, spread] = sizeOf(id)
      return [
        id,
        {
          atEpochMs: Float64Array.from(read, (hour) => hour * 3_600_000),
          value: Float64Array.from(read, () =>
            random() < 0.1 ? Number.NaN : middle + spread * (2 * random() - 1),
          ),
          quality: Uint8Array.from(read, () => (random() < 0.2 ? 4 : 0)),
          receivedAfterSeconds: Float64Array.from(read, () => Math.floor(random() * 20_000)),
          decimals: 3,
        },
      ]
    }),
  )
  const ids = [...members, ...all.flatMap(({ outputs }) => outputs.map(({ id }) => id))]
  const numberOf = new Map(ids.map((id, at) => [id, at]))
  const instance = await DuckDBInstance.create(':memory:', { threads: '1' })
  const connection = await instance.connect()
  try {
    const rows = [...reduced].flatMap(([id, { atEpochMs, value, quality, receivedAfterSeconds }]) =>
      [...atEpochMs].map(
        (at, row) =>
          `(${numberOf.get(id)}, epoch_ms(${at}::bigint), ${Number.isNaN(value[row]) ? 'null' : `'${value[row]}'`}::double, ${quality[row]}::utinyint, ${receivedAfterSeconds[row]}, 3)`,
      ),
    )
    await connection.run(`create table reduced as select * from (values ${rows.join(', ')})
      t(series, "at", value, quality, received_after_s, decimals)`)
    await connection.run('create table held as select * from reduced')
    await addDerivedSeries(connection, { bundles: all, numberOf })
    let compared = 0
    for (const bundle of all)
      for (const [id, made] of deriveMade(bundle, reduced)) {
        const reader = await connection.runAndReadAll(
          `select epoch_ms("at")::double, value, quality::integer from reduced where series = ${numberOf.get(id)} order by "at"`,
        )
        const published = reader.getRows()
        expect(
          published.map(([at]) => at),
          id,
        ).toEqual([...made.atEpochMs])
        for (const [row, [, value, bits]] of published.entries()) {
          compared++
          expect([id, row, made.quality[row]]).toEqual([id, row, bits])
          if (value === null) expect(made.value[row], id).toBeNaN()
          else expect(Math.abs((made.value[row] as number) / (value as number) - 1), id).toBeLessThan(1e-12)
        }
      }
    expect(compared).toBeGreaterThan(300)
  } finally {
    connection.closeSync()
    instance.closeSync()
  }
})
