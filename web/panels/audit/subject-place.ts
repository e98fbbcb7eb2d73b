import type { SiteDocument } from '#contract/site-document.ts'
import type { AuditEntry } from '#domain/audit/audit-entry.ts'
import type { SheetTab } from '../../state/sheet.ts'

/** Where the page shows what an entry is about. */
export interface SubjectPlace {
  readonly tab: SheetTab
  readonly instrument: string | null
  readonly point: string | null
}

/** Null: nowhere, or no longer. */
export function subjectPlace(entry: AuditEntry, site: SiteDocument): SubjectPlace | null {
  const { subjectKind, subjectKey } = entry
  const tab = tabs[subjectKind]
  if (tab !== undefined) return { tab, instrument: null, point: null }
  const named = namesIn(entry.after ?? entry.before)
  const pointOf = (series: string | undefined) => series?.slice(0, series.lastIndexOf('/'))
  const point = [
    subjectKind === 'points' ? subjectKey : undefined,
    named.point,
    pointOf(named.sensor ?? named.series),
  ]
    .filter((one) => one !== undefined)
    .find((one) => site.points.some(({ id }) => id === one))
  const instrument = [subjectKind === 'instruments' ? subjectKey : undefined, named.instrument].find((one) =>
    site.instruments.some(({ id }) => id === one),
  )
  if (point === undefined && instrument === undefined) return null
  return {
    tab: subjectKind.startsWith('verdict') ? 'history' : 'record',
    instrument: instrument ?? null,
    point: point ?? null,
  }
}

const tabs: Readonly<Record<string, SheetTab>> = {
  batch: 'imports',
  layout: 'imports',
  'field-entry': 'field',
  loggers: 'network',
  report: 'reports',
  'correction-proposal': 'what-if',
  'level-proposal': 'levels',
  gateways: 'network',
  meetings: 'meetings',
  boards: 'meetings',
  minutes: 'meetings',
  actionEntries: 'meetings',
}

function namesIn(json: string | null): Partial<Record<'instrument' | 'point' | 'sensor' | 'series', string>> {
  try {
    const value: unknown = JSON.parse(json ?? 'null')
    if (typeof value !== 'object' || value === null) return {}
    return Object.fromEntries(
      Object.entries(value).filter(
        ([name, cell]) =>
          ['instrument', 'point', 'sensor', 'series'].includes(name) && typeof cell === 'string',
      ),
    )
  } catch {
    return {}
  }
}
