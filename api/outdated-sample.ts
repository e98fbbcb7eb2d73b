import { readFile, rm } from 'node:fs/promises'
import { dirname, join } from 'node:path'
import { hashTrees } from './hash-tree.ts'
import { auditHeadFile } from './store/audit-head.ts'
import { openDuckdbStore } from './store/duckdb-store.ts'

/** File in the data folder that says which version of the sample was taken in whole. */
export const sampleStamp = (dataFolder: string): string => join(dataFolder, 'sample-taken')

/** Changes whenever the sample's records or its generator do. */
export const sampleVersion = (folder: string): Promise<string> =>
  hashTrees(
    dirname(folder),
    ['sample-site'],
    (name) => /\.(csv|geojson|json|ts)$/.test(name) && !name.includes('/truth/'),
  )

/**
 * Makes room for a changed sample. Its old readings would contradict the new ones, so the data folder is
 * emptied when it holds nothing but the sample; beside sites of one's own, with field work in it, and beside accounts,
 * the old sample stays as it is.
 * Returns whether the sample is to be prepared.
 */
export async function clearOutdatedSample(
  dataFolder: string,
  storeFile: string,
  version: string,
  say: (line: string) => void,
): Promise<boolean> {
  const taken = await readFile(sampleStamp(dataFolder), 'utf8').catch(() => null)
  if (taken === null || taken === version) return true
  const store = await openDuckdbStore({ file: storeFile })
  const sites = await store.listSites()
  const latest = await Promise.all(sites.map(async ({ id }) => (await store.listFieldEntries(id, 0)).latest))
  const withAccounts = await store.hasAccounts()
  await store.close()
  if (withAccounts) {
    say('The sample site has changed since it was taken in here; the old one is kept beside the accounts.')
    return false
  }
  if (latest.some((change) => change > 0)) {
    say(
      'The sample site has changed since it was taken in here; the old one is kept, since field work was written in it.',
    )
    return false
  }
  if (sites.some((site) => !site.invented)) {
    say('The sample site has changed since it was taken in here; the old one is kept beside your own sites.')
    return false
  }
  say('The sample site has changed: making it anew.')
  for (const name of [
    storeFile,
    `${storeFile}.wal`,
    auditHeadFile(storeFile),
    join(dataFolder, 'files'),
    join(dataFolder, 'slices'),
    join(dataFolder, 'levels'),
    sampleStamp(dataFolder),
  ])
    await rm(name, { recursive: true, force: true })
  return true
}
