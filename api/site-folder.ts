import { createHash } from 'node:crypto'
import { readdir, readFile } from 'node:fs/promises'
import { join } from 'node:path'
import { type Layout, layoutSchema } from '#contract/layout.ts'
import { accept, type Issue, issueLine, type Outcome, reject } from '#domain/outcome.ts'
import { modelFaults } from '#domain/site/check-model.ts'
import { folderAuthor } from '#domain/site/folder-author.ts'
import { readSite } from '#domain/site/read-site.ts'
import type { SiteModel } from '#domain/site/site.ts'
import { heldTooLongAhead } from '#domain/suppression/held-ahead.ts'
import { withEnds } from '#domain/suppression/held-back.ts'
import { keepCalibrations } from './keep-calibrations.ts'
import { keepDatedVersions } from './keep-dated-versions.ts'
import { keepFieldRows } from './keep-field-rows.ts'
import { keepLevels } from './keep-levels.ts'
import { keepMeetings } from './keep-meetings.ts'
import { keepRoster } from './keep-roster.ts'
import { keepVerdicts } from './keep-verdicts.ts'
import { keepWiring } from './keep-wiring.ts'
import { canonicalJson } from './store/model-records.ts'
import type { Store } from './store/store.ts'

export interface SiteFolder {
  readonly model: SiteModel
  readonly layouts: readonly Layout[]
  /** Changes when any record or layout in the folder does. */
  readonly hash: string
}

/** Reads a site folder: its tables and works at the top, declared layouts in `layouts/`. All or nothing. */
export async function readSiteFolder(folder: string): Promise<Outcome<SiteFolder>> {
  const files = new Map<string, string>()
  const hash = createHash('sha256')
  const names = (await readdir(folder)).filter((name) => /\.(csv|geojson)$/.test(name)).sort()
  for (const name of names) files.set(name, await readFile(join(folder, name), 'utf8'))

  const issues: Issue[] = []
  const layouts: Layout[] = []
  const layoutNames = (await readdir(join(folder, 'layouts')).catch(() => [])).filter((name) =>
    name.endsWith('.json'),
  )
  for (const name of layoutNames.sort()) {
    const file = `layouts/${name}`
    const text = await readFile(join(folder, file), 'utf8')
    files.set(file, text)
    const layout = readLayout(file, text)
    if (layout.ok) layouts.push(layout.value)
    else issues.push(...layout.issues)
  }
  for (const [name, text] of files) hash.update(`${name}\n${text}\n`)
  const tables = new Map([...files].filter(([name]) => !name.startsWith('layouts/')))
  const model = readSite(tables)
  if (!model.ok) issues.push(...model.issues)
  return model.ok && issues.length === 0
    ? accept({ model: model.value, layouts, hash: hash.digest('hex') })
    : reject(...issues)
}

/** Puts a site folder into the store: changed records as new versions, changed layouts as the next. */
export async function loadSiteFolder(
  store: Store,
  { model, layouts }: SiteFolder,
  reason: string,
  atEpochMs: number,
): Promise<{ changed: number }> {
  const signature = { author: folderAuthor, reason, atEpochMs }
  const withField = await keepFieldRows(store, model)
  const wired = await keepWiring(store, withField)
  const calibrated = wired.ok ? await keepCalibrations(store, wired.value) : wired
  const corrected = calibrated.ok ? await keepDatedVersions(store, calibrated.value) : calibrated
  const judged = corrected.ok ? await keepVerdicts(store, corrected.value) : corrected
  const rostered = judged.ok ? await keepRoster(store, judged.value) : judged
  const met = rostered.ok ? await keepMeetings(store, rostered.value) : rostered
  const kept = met.ok ? await keepLevels(store, met.value) : met
  if (!kept.ok) throw new Error(kept.issues.map(issueLine).join('\n'))
  const { suppressions, suppressionEnds, facts } = kept.value
  const held = heldTooLongAhead(withEnds(suppressions, suppressionEnds), facts.presentEpochMs ?? atEpochMs)
  if (held.length > 0) throw new Error(held.map(issueLine).join('\n'))
  // Verdicts are kept or dropped with their series, and judged where anything else is.
  const isAsWritten = corrected.ok && corrected.value === model && judged.ok && kept.value === judged.value
  const faults = isAsWritten ? [] : modelFaults(kept.value)
  if (faults.length > 0)
    throw new Error(
      `The folder does not go together with what was recorded along the works or in the page since. Take those records into the folder, then load it again.\n${faults.map(issueLine).join('\n')}`,
    )
  const { changed } = await store.putSite(kept.value, signature)
  const known = new Map((await store.listLayouts(model.facts.id)).map((layout) => [layout.id, layout]))
  let declared = 0
  for (const layout of layouts) {
    const latest = known.get(layout.id)
    if (latest && same(latest, layout)) continue
    const version = (latest?.version ?? 0) + 1
    await store.putLayout(model.facts.id, { ...layout, version }, signature)
    declared++
  }
  return { changed: changed + declared }
}

const same = (one: Layout, other: Layout): boolean =>
  canonicalJson({ ...one, version: 0 }) === canonicalJson({ ...other, version: 0 })

function readLayout(file: string, text: string): Outcome<Layout> {
  let content: unknown
  try {
    content = JSON.parse(text)
  } catch (cause) {
    return reject({
      code: 'json-expected',
      file,
      message: `${file} is not JSON (${(cause as Error).message}). Mend or remove it.`,
    })
  }
  const parsed = layoutSchema.safeParse(content)
  if (parsed.success) return accept(parsed.data)
  return reject(
    ...parsed.error.issues.map((issue) => ({
      code: 'layout-unreadable',
      file,
      column: issue.path.join('.'),
      message: `${file}, ${issue.path.join('.') || 'whole file'}: ${issue.message}.`,
    })),
  )
}
