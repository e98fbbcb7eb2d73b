import type { DuckDBConnection } from '@duckdb/node-api'
import { assert } from '#domain/assert.ts'
import { derivedShapeKey, derivedSql } from '#domain/reduction/derived-sql.ts'
import { quality } from '#domain/reduction/quality.ts'
import type { DerivedBundle } from '#domain/reduction/rules/derived-bundle.ts'
import { outputNumber } from '#domain/reduction/rules/slotted-sql.ts'
import { sqlNumber } from '#domain/reduction/sql-number.ts'
import type { Recipe } from './recipe.ts'

/**
 * Adds to `reduced` the series that instruments derive from their members, one query a shape of instrument; surveys
 * that stand in for later ones are looked up in `held`.
 */
export async function addDerivedSeries(
  connection: DuckDBConnection,
  { bundles, numberOf }: Pick<Recipe, 'bundles' | 'numberOf'>,
): Promise<void> {
  const keys = [...new Set(bundles.map((bundle) => derivedShapeKey(bundle)))]
  for (const key of keys) {
    const alike = bundles.filter((bundle) => derivedShapeKey(bundle) === key)
    const [first] = alike
    assert(first, `no bundle of shape ${key}`)
    await writeMembers(connection, alike, numberOf)
    const derived = derivedSql(first, {
      values: 'reduced',
      held: 'held',
      members: 'bundle_member',
      outputs: 'bundle_output',
      terms: 'bundle_term',
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
    slots.flatMap(({ series, maximumAgeMinutes }, slot) =>
      series.map(
        (id, generation) =>
          `(${bundle}, ${slot}, ${generation}, ${numberOf.get(id)}, ${maximumAgeMinutes === null ? 'null' : maximumAgeMinutes * 60})`,
      ),
    ),
  )
  const outputs = bundles.flatMap(({ rule, outputs, lateAfterMinutes }, bundle) =>
    outputs.map(({ id, of, decimals }) => {
      const constant = rule.kind === 'combination' && of !== 'whole' ? rule.combinations[of]?.constant : null
      return `(${bundle}, ${outputNumber(of)}, ${constant == null ? 'null' : sqlNumber(constant)}, ${numberOf.get(id)}, ${decimals}, ${lateAfterMinutes * 60})`
    }),
  )
  const terms = bundles.flatMap(({ rule }, bundle) =>
    rule.kind !== 'combination'
      ? []
      : [
          ...rule.combinations.flatMap(({ terms }, output) =>
            terms.map(
              ({ slot, weight }, term) => `(${bundle}, ${output}, ${term}, ${slot}, ${sqlNumber(weight)})`,
            ),
          ),
          ...(rule.greatestOf ?? []).map(
            (combination, term) => `(${bundle}, ${outputNumber('whole')}, ${term}, ${combination}, 1)`,
          ),
        ],
  )
  await fillTable(
    connection,
    'bundle_member (bundle integer, slot integer, generation integer, series integer, maximum_age_s double)',
    members,
  )
  await fillTable(
    connection,
    'bundle_output (bundle integer, output integer, constant double, series integer, decimals integer, late_after_s double)',
    outputs,
  )
  await fillTable(
    connection,
    'bundle_term (bundle integer, output integer, term integer, slot integer, weight double)',
    terms,
  )
}

async function fillTable(
  connection: DuckDBConnection,
  definition: string,
  rows: readonly string[],
): Promise<void> {
  await connection.run(`create or replace temp table ${definition}`)
  const name = definition.slice(0, definition.indexOf(' '))
  if (rows.length > 0) await connection.run(`insert into ${name} values ${rows.join(', ')}`)
}
