import { readdirSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import { readSite } from '#domain/site/read-site.ts'
import type { SiteModel } from '#domain/site/site.ts'

export const sampleFolder = new URL('../../sample-site/', import.meta.url).pathname

/** The sample site, read as any site folder is. */
export function readSampleSite(): SiteModel {
  const names = readdirSync(sampleFolder).filter((name) => /\.(csv|geojson)$/.test(name))
  const outcome = readSite(
    new Map(names.map((name) => [name, readFileSync(join(sampleFolder, name), 'utf8')])),
  )
  if (!outcome.ok) throw new Error(JSON.stringify(outcome.issues.slice(0, 10), null, 1))
  return outcome.value
}
