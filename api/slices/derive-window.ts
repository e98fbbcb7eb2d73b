import type { DuckDBConnection } from '@duckdb/node-api'
import { assert } from '#domain/assert.ts'
import type { DerivedBundle } from '#domain/reduction/derived-series.ts'
import { derivedShape, derivedShapeKey, derivedSql, outputNumber } from '#domain/reduction/derived-sql.ts'
import { quality } from '#domain/reduction/quality.ts'
import type { Recipe } from './recipe.ts'

/** Adds to `reduced` the series that instruments derive from their members, one query a shape of instrument. */
export async function addDerivedSeries(
  connection: DuckDBConnection,
  { bundles, numberOf }: Pick<Recipe, 'bundles' | 'numberOf'>,
): Promise<void> {
  const keys = [...new Set(bundles.map((bundle) => derivedShapeKey(derivedShape(bundle))))]
  for (const key of keys) {
    const alike = bundles.filter((bundle) => derivedShapeKey(derivedShape(bundle)) === key)
    const [first] = alike
    assert(first, `no bundle of shape ${key}`)
    await writeMembers(connection, alike, numberOf)
    const derived = derivedSql(derivedShape(first), {
      values: 'reduced',
      members: 'bundle_member',
      outputs: 'bundle_output',
    })
    await connection.run(`
      create or replace temp table derived_value as
      select d.series, d."at", d.value,
        ((d.quality::integer & ${255 - quality.receivedLate})
          | case when d.received_after_s > o.late_after_s then ${quality.receivedLate} else 0 end)::utinyint as quality,
        d.received_after_s, o.decimals
      from (${derived}) d join bundle_output o on o.series = d.series`)
    await connection.run('insert into reduced select * from derived_value')
  }
}

async function writeMembers(
  connection: DuckDBConnection,
  bundles: readonly DerivedBundle[],
  numberOf: ReadonlyMap<string, number>,
): Promise<void> {
  const members = bundles.flatMap(({ slots }, bundle) =>
    slots.flatMap(({ series }, slot) =>
      series.map((id, generation) => `(${bundle}, ${slot}, ${generation}, ${numberOf.get(id)})`),
    ),
  )
  const outputs = bundles.flatMap(({ outputs, decimals, lateAfterMinutes }, bundle) =>
    outputs.map(
      ({ id, of }) =>
        `(${bundle}, ${outputNumber(of)}, ${numberOf.get(id)}, ${decimals}, ${lateAfterMinutes * 60})`,
    ),
  )
  await connection.run(
    'create or replace temp table bundle_member (bundle integer, slot integer, generation integer, series integer)',
  )
  await connection.run(
    'create or replace temp table bundle_output (bundle integer, output integer, series integer, decimals integer, late_after_s double)',
  )
  await connection.run(`insert into bundle_member values ${members.join(', ')}`)
  await connection.run(`insert into bundle_output values ${outputs.join(', ')}`)
}
