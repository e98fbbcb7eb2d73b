import type { Issue } from '../outcome.ts'
import { nearestWord } from './nearest-word.ts'
import type { SiteReadings } from './site-readings.ts'
import { siteTables, type TableName } from './tables.ts'

/** Every cell that names a row of another table must find it; every replacement chain must end. */
export function checkReferences(site: SiteReadings): readonly Issue[] {
  const issues: Issue[] = []
  for (const name of Object.keys(siteTables) as TableName[]) {
    for (const made of site[name].references) {
      const target = site[made.to as TableName]
      if (target.names.has(made.name)) continue
      const nearest = nearestWord(made.name, target.names.keys())
      issues.push({
        code: 'reference-broken',
        file: siteTables[name].file,
        line: made.line,
        column: made.column,
        value: made.name,
        expected: `a name that stands in ${target.file}`,
        message: `"${made.name}" does not stand in ${target.file}. ${nearest ? `Did you mean "${nearest}"?` : 'Add it there or correct it here.'}`,
      })
    }
  }
  return [...issues, ...checkReplacements(site, 'instruments'), ...checkReplacements(site, 'points')]
}

function checkReplacements(site: SiteReadings, name: 'instruments' | 'points'): readonly Issue[] {
  const rows = site[name].sound
  const replaces = new Map(rows.map(({ row }) => [row.id, row.replaces]))
  return rows.flatMap(({ line, row }): Issue[] => {
    const passed = new Set([row.id])
    let next = row.replaces
    while (next !== null && next !== undefined && !passed.has(next)) {
      passed.add(next)
      next = replaces.get(next) ?? null
    }
    if (next !== row.id) return []
    return [
      {
        code: 'replaces-itself',
        file: siteTables[name].file,
        line,
        column: 'replaces',
        value: row.replaces ?? '',
        expected: 'an earlier one',
        message: `"${row.id}" ends up replacing itself. Let replaces name only what stood there before.`,
      },
    ]
  })
}
