import type { AuditEntry } from '#domain/audit/audit-entry.ts'
import type { AnyTable } from '#domain/site/column.ts'
import { siteTables } from '#domain/site/tables.ts'
import { formatInstant, formatOffset } from '../../ui/format-instant.ts'
import { spacedWords } from './entry-words.ts'

/** One value that an entry says of: its name, what stood before and what after; null: nothing. */
export interface ChangeLine {
  readonly name: string
  readonly before: string | null
  readonly after: string | null
}

/** The values that differ between before and after, as people read them; instants in the site's zone. */
export function changeLines(
  { subjectKind, before, after }: Pick<AuditEntry, 'subjectKind' | 'before' | 'after'>,
  timeZone: string,
): readonly ChangeLine[] {
  const [old, fresh] = [partsOf(before), partsOf(after)]
  const columns = (siteTables as Readonly<Record<string, AnyTable>>)[subjectKind]?.columns
  const lines: ChangeLine[] = []
  for (const name of new Set([...old.keys(), ...fresh.keys()])) {
    const [one, other] = [old.get(name), fresh.get(name)]
    if (JSON.stringify(one) === JSON.stringify(other)) continue
    const isInstant = columns?.[name]?.type === 'instant' || name.endsWith('EpochMs')
    const text = (value: unknown) => (value === undefined ? null : valueText(value, isInstant, timeZone))
    lines.push({ name: nameOfValue(name), before: text(one), after: text(other) })
  }
  return lines
}

function partsOf(json: string | null): ReadonlyMap<string, unknown> {
  if (json === null) return new Map()
  let value: unknown
  try {
    value = JSON.parse(json)
  } catch {
    return new Map([['text', json]])
  }
  if (Array.isArray(value))
    return new Map<string, unknown>([
      ['rows', value.length],
      ['in order', value],
    ])
  if (typeof value !== 'object' || value === null) return new Map([['value', value]])
  return new Map(Object.entries(value).filter(([, part]) => part !== null))
}

/** Units at the end of a name stand behind it, as in a table's heading. */
function nameOfValue(name: string): string {
  if (name === 'sha256') return 'SHA-256'
  const [, bare = name, unit = ''] =
    /^(.+?)(Metres|Degrees|EpochMs|Kpa|Seconds|Minutes|Hours|Days)$/.exec(name) ?? []
  const words = spacedWords(bare)
  const sign = unitSigns[unit]
  return sign === undefined || sign === '' ? words : `${words}, ${sign}`
}

const unitSigns: Readonly<Record<string, string>> = {
  Metres: 'm',
  Degrees: '°',
  EpochMs: '',
  Kpa: 'kPa',
  Seconds: 's',
  Minutes: 'min',
  Hours: 'h',
  Days: 'd',
}

function valueText(value: unknown, isInstant: boolean, timeZone: string): string {
  if (typeof value === 'number')
    return isInstant
      ? `${formatInstant(value, timeZone)} ${formatOffset(value, timeZone)}`
      : String(value).replace('-', '−')
  if (typeof value === 'boolean') return value ? 'yes' : 'no'
  if (typeof value === 'string') return value
  if (Array.isArray(value) && value.every((one) => typeof one === 'string' || typeof one === 'number'))
    return shortened(value.join(', '))
  return shortened(JSON.stringify(value))
}

const longest = 300

const shortened = (text: string): string =>
  text.length <= longest ? text : `${text.slice(0, longest)} … (${text.length} characters)`
