import { drillFaults } from '../drill/drill-faults.ts'
import { openSiteGrid } from '../geometry/site-grid.ts'
import type { Issue } from '../outcome.ts'
import { parseDelimitedText } from './delimited-text.ts'
import { nearestWord } from './nearest-word.ts'
import { type CellValue, readFileCell } from './read-cell.ts'
import type { SiteFacts } from './site.ts'
import { type SiteFields, siteFields } from './site-columns.ts'
import { waterFaults } from './site-water.ts'
import { isTimeZone } from './time-zone.ts'

export const factsFile = 'site.csv'

/** Reads `site.csv`. `facts` is null where any field is missing or faulty. */
export function readFacts(content: string): { facts: SiteFacts | null; issues: readonly Issue[] } {
  const issues: Issue[] = []
  const { rows, faults } = parseDelimitedText(content)
  for (const fault of faults)
    issues.push({
      code: fault.code,
      file: factsFile,
      line: fault.line,
      column: fault.column,
      message: 'A quotation mark is misplaced. Quote the whole cell and double quotation marks inside it.',
    })
  const headings = rows[0]?.map((cell) => cell.text.trim()) ?? []
  if (headings.length !== 2 || headings[0] !== 'field' || headings[1] !== 'value') {
    issues.push({
      code: 'heading-unknown',
      file: factsFile,
      line: 1,
      value: headings.join(','),
      expected: 'field,value',
      message: 'site.csv must begin with the line field,value.',
    })
  }

  const known = Object.keys(siteFields)
  const values: Record<string, CellValue> = {}
  const lines = new Map<string, number>()
  for (const cells of rows.slice(1)) {
    const line = cells[0]?.line ?? 0
    const name = cells[0]?.text.trim() ?? ''
    const column = siteFields[name as keyof SiteFields]
    if (!Object.hasOwn(siteFields, name) || !column) {
      const nearest = nearestWord(name, known)
      issues.push({
        code: 'field-unknown',
        file: factsFile,
        line,
        column: 'field',
        value: name,
        expected: known.join(', '),
        message: `"${name}" is not a field of a site. ${nearest ? `Did you mean "${nearest}"?` : 'Take the row away.'}`,
      })
      continue
    }
    const first = lines.get(name)
    if (first !== undefined) {
      issues.push({
        code: 'key-repeated',
        file: factsFile,
        line,
        column: 'field',
        value: name,
        expected: 'each field once',
        message: `Field "${name}" already stands in line ${first}. Take one of the two rows away.`,
      })
      continue
    }
    lines.set(name, line)
    if (cells.length > 2)
      issues.push({
        code: 'cell-count',
        file: factsFile,
        line,
        value: String(cells.length),
        expected: '2 cells',
        message: 'This row has more than a field and a value. Put values with commas in quotation marks.',
      })
    const written = cells[1]?.text ?? ''
    const outcome = readFileCell(column, written)
    if ('value' in outcome) {
      if (outcome.value !== null || !('mayBeAbsent' in column)) values[name] = outcome.value
    } else issues.push({ ...outcome.fault, file: factsFile, line, column: 'value', value: written })
  }
  for (const name of known) {
    if (lines.has(name)) continue
    const column = siteFields[name as keyof SiteFields]
    if (column.required)
      issues.push({
        code: 'field-missing',
        file: factsFile,
        column: 'field',
        expected: name,
        message: `Field "${name}" is missing. Add a row with ${column.means}.`,
      })
    else if (!('mayBeAbsent' in column)) values[name] = null
  }
  checkFields(values as Partial<SiteFields>, lines, issues)
  if (issues.length > 0) return { facts: null, issues }
  const { presentAt, levelNames, ...rest } = values as SiteFields
  return { facts: { ...rest, presentEpochMs: presentAt, levelNames: splitNames(levelNames) }, issues }
}

function splitNames(levelNames: string): readonly string[] {
  return levelNames.split(';').map((name) => name.trim())
}

function checkFields(values: Partial<SiteFields>, lines: ReadonlyMap<string, number>, issues: Issue[]): void {
  const tell = (field: keyof SiteFields, code: string, expected: string, message: string) => {
    const line = lines.get(field)
    issues.push({
      code,
      file: factsFile,
      ...(line === undefined ? {} : { line }),
      column: 'value',
      value: String(values[field] ?? ''),
      expected,
      message,
    })
  }
  if (values.id !== undefined && !/^[a-z0-9]+(-[a-z0-9]+)*$/.test(values.id))
    tell(
      'id',
      'site-name-unusable',
      'small letters, digits and single hyphens',
      `"${values.id}" cannot stand in an address. Use small letters, digits and hyphens, such as north-quay.`,
    )
  if (values.timeZone !== undefined && !isTimeZone(values.timeZone))
    tell(
      'timeZone',
      'time-zone-unknown',
      'an IANA zone name such as Atlantic/Azores',
      `"${values.timeZone}" is not a time zone. Give an IANA zone name such as Atlantic/Azores.`,
    )
  if (values.crs !== undefined) {
    const grid = openSiteGrid(values.crs)
    if (!grid.ok)
      for (const issue of grid.issues) tell('crs', issue.code, issue.expected ?? '', issue.message)
    else if (!grid.value.metres)
      tell(
        'crs',
        'crs-not-metres',
        'a grid whose unit is a metre on the ground',
        `"${values.crs}" does not measure true metres, so distances on site would be wrong. Use UTM or a local grid in metres.`,
      )
  }
  if (values.levelNames !== undefined) {
    const names = splitNames(values.levelNames)
    if (names.includes('') || new Set(names).size !== names.length)
      tell(
        'levelNames',
        'level-names',
        'different names separated by semicolons',
        'Level names must differ and none may be empty. Write for example: Level 1;Level 2;Level 3.',
      )
  }
  for (const { field, code, expected, message } of waterFaults(values)) tell(field, code, expected, message)
  for (const { field, code, expected, message } of drillFaults(values)) tell(field, code, expected, message)
  if (values.invented === true && values.watermark === null)
    tell(
      'watermark',
      'watermark-missing',
      'words such as "invented data"',
      'Made-up data must say so on every screen. Give the watermark its words.',
    )
  if (values.invented === false && values.presentAt != null)
    tell(
      'presentAt',
      'present-fixed',
      'an empty value',
      'Only made-up data may fix the present. Leave presentAt empty.',
    )
}
