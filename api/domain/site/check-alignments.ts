import { elementFaults, lineFaults } from '../geometry/alignment-faults.ts'
import { openGridOfSite } from '../geometry/grid-of-site.ts'
import { groupBy } from '../group-by.ts'
import type { Issue } from '../outcome.ts'
import { nearestWord } from './nearest-word.ts'
import type { SiteFacts, Works } from './site.ts'
import { cellIssue, type SiteReadings } from './site-readings.ts'

/** Elements belong to a drawn line, are whole, touch one another and run on; and the line is drawn along them. */
export function checkAlignments(
  site: SiteReadings,
  facts: SiteFacts | null,
  works: Works | null,
): readonly Issue[] {
  const { file, sound, unsound } = site.alignmentElements
  const lines = new Map(
    (works?.features ?? []).flatMap(({ geometry, properties }) =>
      geometry.type === 'LineString' ? [[properties.id, geometry.coordinates] as const] : [],
    ),
  )
  const unclear = new Set(unsound.map(({ written }) => written.alignment))
  const issues: Issue[] = []
  for (const [id, rows] of groupBy(sound, ({ row }) => row.alignment)) {
    const placed = rows.toSorted((one, other) => one.row.element - other.row.element)
    const first = placed[0]
    if (!first || unclear.has(id)) continue
    if (works && !lines.has(id)) {
      const nearest = nearestWord(id, lines.keys())
      issues.push({
        ...cellIssue('alignmentElements', first.line, 'alignment', id),
        code: 'alignment-unknown',
        expected: 'the id of a LineString of works.geojson',
        message: `There is no line "${id}" in works.geojson. ${nearest ? `Did you mean "${nearest}"?` : 'Draw it there, or correct the name.'}`,
      })
      continue
    }
    const elements = placed.map(({ row }) => row)
    const faults = elementFaults(id, elements)
    for (const { element, column, code, expected, message } of faults) {
      const { line, row } = placed[element] ?? first
      issues.push({ ...cellIssue('alignmentElements', line, column, row[column]), code, expected, message })
    }
    if (faults.length > 0 || !facts || site.controlPoints.issues.length > 0) continue
    const grid = openGridOfSite(
      facts,
      site.controlPoints.sound.map(({ row }) => row),
    )
    if (!grid.ok) continue
    const drawn = (lines.get(id) ?? []).map((place) => grid.value.toGrid([place[0] ?? 0, place[1] ?? 0]))
    issues.push(
      ...lineFaults(id, elements, drawn).map((fault) => ({
        ...fault,
        file,
        line: first.line,
        column: 'alignment',
        value: id,
      })),
    )
  }
  return issues
}
