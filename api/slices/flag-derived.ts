import type { DuckDBConnection } from '@duckdb/node-api'
import { outputsFrom } from '#domain/reduction/rules/outputs-from.ts'
import { flagWindow } from './flag-window.ts'
import type { Recipe } from './recipe.ts'

/**
 * Writes the marks of surveys that stand for later instants to `held_flagged`, of the window and as far before it as one may
 * stand; `values` as for `flagWindow`, reaching that far too (`Recipe.reaches`). It leaves `flagged` to be written after it.
 */
export async function flagHeld(
  connection: DuckDBConnection,
  values: string,
  { checked, heldSeries, heldMinutes }: Pick<Recipe, 'checked' | 'heldSeries' | 'heldMinutes'>,
  fromEpochMs: number,
  untilEpochMs: number,
): Promise<void> {
  const own = checked.filter(({ series }) => heldSeries.has(series))
  await flagWindow(connection, values, own, fromEpochMs - heldMinutes * 60_000, untilEpochMs)
  const held = `list_contains([${[...heldSeries].join(', ')}]::integer[], series)`
  await connection.run(`create or replace temp table held_flagged as select * from flagged where ${held}`)
}

/**
 * Adds to `flagged` what the series bear that instruments make of marked readings: a value made from several carries the
 * marks of all that were read at its instant, and of every survey that stands at it, until the next survey.
 */
export async function flagDerivedSeries(
  connection: DuckDBConnection,
  { bundles, numberOf }: Pick<Recipe, 'bundles' | 'numberOf'>,
): Promise<void> {
  const marked = await connection.runAndReadAll(
    'select distinct series from flagged union select distinct series from held_flagged',
  )
  const numbers = new Set(marked.getRows().map(([series]) => Number(series)))
  const pairs = bundles.flatMap((bundle) =>
    bundle.slots.flatMap(({ series, maximumAgeMinutes }) =>
      series
        .filter((id) => numbers.has(numberOf.get(id) as number))
        .flatMap((id) =>
          outputsFrom(bundle, new Set([id])).map(
            (output) =>
              `(${numberOf.get(id)}, ${numberOf.get(output.id)}, ${maximumAgeMinutes === null ? 'null::double' : maximumAgeMinutes * 60})`,
          ),
        ),
    ),
  )
  if (pairs.length === 0) return
  await connection.run(`
    insert into flagged
    with made as (
      select * from (values ${[...new Set(pairs)].join(', ')}) made(member, output, maximum_age_s)
    ),
    asked as (
      select m.*, d."at" from reduced d join made m on m.output = d.series
      where m.maximum_age_s is not null and d.value is not null
    ),
    standing as (
      select a.output, a."at", h.series as held_series, h."at" as held_at
      from asked a asof join (select series, "at" from held where value is not null) h
        on h.series = a.member and a."at" >= h."at"
      where epoch_us(a."at") - epoch_us(h."at") <= a.maximum_age_s * 1e6
    )
    select output, "at", bit_or(flags) from (
      select m.output, f."at", f.flags from flagged f join made m on m.member = f.series and m.maximum_age_s is null
      union all
      select s.output, s."at", f.flags from standing s
      join held_flagged f on f.series = s.held_series and f."at" = s.held_at
    ) group by output, "at"`)
}
