import type { DerivedBundle } from './rules/derived-bundle.ts'
import { ruleOf } from './rules/rules.ts'
import type { DerivedRelations } from './rules/slotted-sql.ts'

/** Equal for bundles that one query derives. */
export const derivedShapeKey = (bundle: DerivedBundle): string =>
  ruleOf(bundle.rule).shape(bundle, bundle.rule)

/**
 * `deriveValues` for all bundles of the shape of `example`, at every instant at which any member was read, as one
 * SELECT of series, "at", value, quality, received_after_s; the last is that of the member received last.
 * The same additions in the same order, whatever the order of the rows.
 */
export const derivedSql = (example: DerivedBundle, relations: DerivedRelations): string =>
  ruleOf(example.rule).sql(example, example.rule, relations)
