import { createHash } from 'node:crypto'
import { access, readFile, rm, writeFile } from 'node:fs/promises'
import { join } from 'node:path'
import type { Intake } from './intake/create-intake.ts'
import { takeDeliveries } from './intake/take-deliveries.ts'
import { loadSiteFolder, readSiteFolder } from './site-folder.ts'
import type { Store } from './store/store.ts'

export interface SampleRequest {
  readonly store: Store
  readonly intake: Intake
  readonly dataFolder: string
  /** The site folder of the sample. */
  readonly folder: string
  readonly now: () => number
  readonly say: (line: string) => void
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
  now,
  say,
}: SampleRequest): Promise<void> {
  const read = await readSiteFolder(folder)
  if (!read.ok) throw new Error(read.issues.map((issue) => issue.message).join('\n'))
  const { model, hash } = read.value
  const site = model.facts.id
  const done = join(dataFolder, 'sample-taken')
  const wanted = createHash('sha256')
    .update(hash)
    .update(await generatorHash(folder))
    .digest('hex')
  if ((await readFile(done, 'utf8').catch(() => '')) === wanted) return

  await loadSiteFolder(store, read.value, 'sample site', now())
  const raw = join(dataFolder, 'sample-raw')
  const rawMadeBy = join(raw, '.made-by')
  if ((await readFile(rawMadeBy, 'utf8').catch(() => '')) !== wanted) {
    await rm(raw, { recursive: true, force: true })
    say(`${model.facts.name}: making the raw logger files of nine months (invented data) …`)
    const { generateSample } = await import('../sample-site/generate.ts')
    const { files, readings } = await generateSample(raw, (share: number) => progress(say, 'made', share))
    await writeFile(rawMadeBy, wanted)
    say(`${model.facts.name}: ${files} files, ${readings.toLocaleString('en-GB')} readings.`)
  }
  await access(join(raw, 'deliveries.csv'))
  say(`${model.facts.name}: taking the files in as they arrived …`)
  await takeDeliveries({
    intake,
    site,
    folder: raw,
    onProgress: (share: number) => progress(say, 'taken in', share),
  })
  await writeFile(done, wanted)
}

let lastTenth = -1
function progress(say: (line: string) => void, what: string, share: number): void {
  const tenth = Math.floor(share * 10)
  if (tenth === lastTenth || tenth % 2 !== 0) return
  lastTenth = tenth
  say(`  ${tenth * 10} % ${what}`)
}

async function generatorHash(folder: string): Promise<string> {
  return createHash('sha256')
    .update(await readFile(join(folder, 'generate.ts')))
    .digest('hex')
}
