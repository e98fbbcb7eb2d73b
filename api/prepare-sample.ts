import { access, readFile, rm, writeFile } from 'node:fs/promises'
import { join } from 'node:path'
import { issueLine } from '#domain/outcome.ts'
import type { Intake } from './intake/create-intake.ts'
import { takeDeliveries } from './intake/take-deliveries.ts'
import { sampleStamp } from './outdated-sample.ts'
import { recordResponses } from './sample-responses.ts'
import { loadSiteFolder, readSiteFolder } from './site-folder.ts'
import type { Store } from './store/store.ts'

export interface SampleRequest {
  readonly store: Store
  readonly intake: Intake
  readonly dataFolder: string
  /** The site folder of the sample. */
  readonly folder: string
  /** Of the sample, as `sampleVersion` gives it. */
  readonly version: string
  readonly now: () => number
  readonly say: (line: string) => void
  /** Holds what arrived against the levels; without it nothing is raised, and nobody responds. */
  readonly evaluate?: (site: string) => Promise<void>
}

/**
 * Loads the sample site, makes its raw files where they are absent, and takes them in as they would have
 * arrived. What is already there is used again; an interrupted first start goes on where it stopped,
 * since files taken once are not taken twice.
 */
export async function prepareSample({
  store,
  intake,
  dataFolder,
  folder,
  version,
  now,
  say,
  evaluate,
}: SampleRequest): Promise<void> {
  if ((await readFile(sampleStamp(dataFolder), 'utf8').catch(() => '')) === version) return
  const read = await readSiteFolder(folder)
  if (!read.ok) throw new Error(read.issues.map(issueLine).join('\n'))
  const { model } = read.value
  const site = model.facts.id

  await loadSiteFolder(store, read.value, 'sample site', now())
  const raw = join(dataFolder, 'sample-raw')
  const rawMadeBy = join(raw, '.made-by')
  if ((await readFile(rawMadeBy, 'utf8').catch(() => '')) !== version) {
    await rm(raw, { recursive: true, force: true })
    say(`${model.facts.name}: making the raw logger files of nine months (invented data) …`)
    const { generateSample } = await import('../sample-site/generate.ts')
    const { files, readings } = await generateSample(raw, inFifths(say, 'made'))
    await writeFile(rawMadeBy, version)
    say(`${model.facts.name}: ${files} files, ${readings.toLocaleString('en-GB')} readings.`)
  }
  await access(join(raw, 'deliveries.csv'))
  say(`${model.facts.name}: taking the files in as they arrived …`)
  await takeDeliveries({
    intake,
    site,
    folder: raw,
    onProgress: inFifths(say, 'taken in'),
  })
  if (evaluate) {
    say(`${model.facts.name}: holding the readings against the levels …`)
    await evaluate(site)
    await recordResponses(store, site, folder)
  }
  await writeFile(sampleStamp(dataFolder), version)
}

/** Says every fifth of the way once. */
function inFifths(say: (line: string) => void, what: string): (share: number) => void {
  let said = 0
  return (share) => {
    const fifth = Math.floor(share * 5)
    if (fifth <= said) return
    said = fifth
    say(`  ${fifth * 20} % ${what}`)
  }
}
