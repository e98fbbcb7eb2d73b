import type { DuckDBConnection } from '@duckdb/node-api'
import { outputsFrom } from '#domain/reduction/rules/outputs-from.ts'
import type { Recipe } from './recipe.ts'

/**
 * Adds to `flagged` what the series bear that instruments make of marked readings: a value made from several carries the
 * marks of all that were read at its instant. Surveys that stand for later instants do not pass theirs on.
 */
export async function flagDerivedSeries(
  connection: DuckDBConnection,
  { bundles, numberOf }: Pick<Recipe, 'bundles' | 'numberOf'>,
): Promise<void> {
  const marked = await connection.runAndReadAll('select distinct series from flagged')
  const numbers = new Set(marked.getRows().map(([series]) => Number(series)))
  const pairs = bundles.flatMap((bundle) =>
    bundle.slots.flatMap(({ series, maximumAgeMinutes }) =>
      maximumAgeMinutes !== null
        ? []
        : series
            .filter((id) => numbers.has(numberOf.get(id) as number))
            .flatMap((id) =>
              outputsFrom(bundle, new Set([id])).map(
                (output) => `(${numberOf.get(id)}, ${numberOf.get(output.id)})`,
              ),
            ),
    ),
  )
  if (pairs.length === 0) return
  await connection.run(`
    insert into flagged
    select made.output, f."at", bit_or(f.flags)
    from flagged f join (values ${[...new Set(pairs)].join(', ')}) made(member, output) on made.member = f.series
    group by made.output, f."at"`)
}
