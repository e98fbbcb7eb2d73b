import { assert } from '#domain/assert.ts'
import type { SiteFacts, SiteModel, Works } from '#domain/site/site.ts'
import { siteTables, type TableName } from '#domain/site/tables.ts'

/** One record of a site as it is kept: its kind, its key within the kind, and its body as JSON text. */
export interface KeptRecord {
  readonly kind: string
  readonly key: string
  readonly body: string
}

export const recordKinds = {
  facts: 'facts',
  /** A feature of the works, by its id. */
  works: 'works',
  /** What the collection of works says besides its features. */
  worksCollection: 'works-collection',
  /** The order of the keys of another kind, so that a table comes back as it was written. */
  order: 'order',
  layout: 'layout',
} as const

const tableNames = Object.keys(siteTables) as TableName[]

/** The key of a table row: its one key cell as text, or the JSON array of several. */
export function recordKey(table: TableName, row: Readonly<Record<string, unknown>>): string {
  const cells = siteTables[table].key.map((column) => row[column])
  return cells.length === 1 ? String(cells[0]) : JSON.stringify(cells)
}

/** Takes a site model apart. Equal models give equal text, whatever the order of their properties. */
export function toRecords(model: SiteModel): readonly KeptRecord[] {
  const { features, ...collection } = model.works
  const records: KeptRecord[] = [
    { kind: recordKinds.facts, key: '', body: canonicalJson(model.facts) },
    { kind: recordKinds.worksCollection, key: '', body: canonicalJson(collection) },
  ]
  const add = (kind: string, rows: readonly { key: string; body: string }[]) => {
    const keys = rows.map(({ key }) => key)
    assert(
      new Set(keys).size === keys.length,
      `${kind} of ${model.facts.id} has a key twice: ${keys.join(', ')}`,
    )
    for (const { key, body } of rows) records.push({ kind, key, body })
    records.push({ kind: recordKinds.order, key: kind, body: JSON.stringify(keys) })
  }
  add(
    recordKinds.works,
    features.map((feature) => ({ key: feature.properties.id, body: canonicalJson(feature) })),
  )
  for (const table of tableNames)
    add(
      table,
      (model[table] as readonly Record<string, unknown>[]).map((row) => ({
        key: recordKey(table, row),
        // Empty cells are left out, so that a new optional column makes no new version of every row.
        body: canonicalJson(Object.fromEntries(Object.entries(row).filter(([, cell]) => cell !== null))),
      })),
    )
  return records
}

/** Puts a site model together from its latest records; null when the site has none. */
export function fromRecords(records: readonly KeptRecord[]): SiteModel | null {
  const kinds = new Map<string, Map<string, unknown>>()
  for (const { kind, key, body } of records) {
    const bodies = kinds.get(kind) ?? new Map<string, unknown>()
    bodies.set(key, JSON.parse(body))
    kinds.set(kind, bodies)
  }
  const facts = kinds.get(recordKinds.facts)?.get('') as SiteFacts | undefined
  if (facts === undefined) return null
  const inOrder = (kind: string): readonly unknown[] => {
    const keys = (kinds.get(recordKinds.order)?.get(kind) ?? []) as readonly string[]
    return keys.map((key) => kinds.get(kind)?.get(key))
  }
  const collection = kinds.get(recordKinds.worksCollection)?.get('') as Omit<Works, 'features'>
  const tables = tableNames.map((table) => {
    const columns = Object.keys(siteTables[table].columns)
    const rows = inOrder(table) as readonly Record<string, unknown>[]
    return [
      table,
      rows.map((row) => Object.fromEntries(columns.map((column) => [column, row[column] ?? null]))),
    ]
  })
  return {
    facts,
    works: { ...collection, features: inOrder(recordKinds.works) },
    ...Object.fromEntries(tables),
  } as SiteModel
}

/** JSON text with the properties of every object in alphabetical order. */
export function canonicalJson(value: unknown): string {
  return JSON.stringify(value, (_, inner: unknown) =>
    inner !== null && typeof inner === 'object' && !Array.isArray(inner)
      ? Object.fromEntries(Object.entries(inner).sort(([a], [b]) => (a < b ? -1 : 1)))
      : inner,
  )
}
