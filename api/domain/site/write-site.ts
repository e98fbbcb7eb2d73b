import type { AnyTable } from './column.ts'
import { formatDelimitedText } from './delimited-text.ts'
import { formatInstant } from './instant-text.ts'
import { type CellValue, guardFormula } from './read-cell.ts'
import { factsFile } from './read-facts.ts'
import { worksFile } from './read-works.ts'
import type { SiteFacts, SiteModel, Works } from './site.ts'
import { type SiteFields, siteFields } from './site-columns.ts'
import { siteTables, type TableName } from './tables.ts'

/**
 * Writes a site as the files of its folder, so that `readSite` gives the same model again. A text that
 * begins as a formula may gets an apostrophe before it, so that no spreadsheet runs it (`guardFormula`).
 */
export function writeSite(model: SiteModel): ReadonlyMap<string, string> {
  const files = new Map([
    [factsFile, writeFacts(model.facts)],
    [worksFile, writeWorks(model.works)],
  ])
  for (const name of Object.keys(siteTables) as TableName[]) {
    const table: AnyTable = siteTables[name]
    if (table.optional && model[name].length === 0) continue
    files.set(table.file, writeTable(table, model[name]))
  }
  return files
}

/** One table as its file, headings first. */
export function writeTable(table: AnyTable, rows: readonly Readonly<Record<string, CellValue>>[]): string {
  const headings = Object.keys(table.columns).filter(
    (heading) => !table.columns[heading]?.mayBeAbsent || rows.some((row) => row[heading] != null),
  )
  return formatDelimitedText([
    headings,
    ...rows.map((row) =>
      headings.map((heading) => writeCell(table.columns[heading]?.type, row[heading] ?? null)),
    ),
  ])
}

function writeFacts(facts: SiteFacts): string {
  const { presentEpochMs, levelNames, ...rest } = facts
  const fields: SiteFields = {
    ...rest,
    localGridScale: rest.localGridScale ?? null,
    controlToleranceMetres: rest.controlToleranceMetres ?? null,
    presentAt: presentEpochMs,
    levelNames: levelNames.join(';'),
  }
  return formatDelimitedText([
    ['field', 'value'],
    ...Object.entries(siteFields).flatMap(([name, column]) => {
      const value = fields[name as keyof SiteFields]
      return value === undefined || (value === null && 'mayBeAbsent' in column)
        ? []
        : [[name, writeCell(column.type, value)]]
    }),
  ])
}

function writeWorks(works: Works): string {
  const features = works.features.map(({ geometry, properties }) => {
    const { fromEpochMs, untilEpochMs, ...rest } = properties
    return {
      type: 'Feature',
      geometry,
      properties: { ...rest, fromAt: instantOrNull(fromEpochMs), untilAt: instantOrNull(untilEpochMs) },
    }
  })
  const lines = features.map((feature) => `    ${JSON.stringify(feature)}`).join(',\n')
  return `{\n  "type": "FeatureCollection",\n  "features": [\n${lines}\n  ]\n}\n`
}

const instantOrNull = (epochMs: number | null) => (epochMs === null ? null : formatInstant(epochMs))

function writeCell(type: string | undefined, value: CellValue): string {
  if (value === null) return ''
  if (typeof value === 'boolean') return value ? 'yes' : 'no'
  if (typeof value === 'number') return type === 'instant' ? formatInstant(value) : String(value)
  return guardFormula(value)
}
