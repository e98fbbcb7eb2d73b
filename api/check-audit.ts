import { existsSync } from 'node:fs'
import { join, resolve } from 'node:path'
import { notedHeadSchema } from '#contract/audit.ts'
import { fitsWhole } from '#domain/audit/verification.ts'
import { verificationSentences } from '#domain/audit/verification-sentences.ts'
import { readSettings } from './settings.ts'
import { openDuckdbStore } from './store/duckdb-store.ts'
import { StoreInUse } from './store/store-in-use.ts'

const usage =
  'npm run audit-check [-- [FOLDER] [--noted NUMBER HASH]]: FOLDER is the data folder, the usual one where none is given; NUMBER and HASH are of an entry as an earlier check said it.'

/** Lines for a person, and whether everything fits. */
async function check(words: readonly string[]): Promise<{ lines: readonly string[]; fits: boolean }> {
  const at = words.indexOf('--noted')
  const [number, hash, ...surplus] = at < 0 ? [] : words.slice(at + 1)
  const [folder, ...others] = at < 0 ? words : words.slice(0, at)
  const noted = at < 0 ? null : notedHeadSchema.safeParse({ number, hash })
  const settings = readSettings(process.env, [])
  if (!settings.ok) return { lines: settings.issues.map(({ message }) => message), fits: false }
  if (noted?.success === false || others.length + surplus.length > 0) return { lines: [usage], fits: false }
  const file = join(folder === undefined ? settings.value.dataFolder : resolve(folder), 'stillground.duckdb')
  if (!existsSync(file)) return { lines: [`There is no data file ${file}. ${usage}`], fits: false }
  try {
    // What it reports at opening is among the findings.
    const store = await openDuckdbStore({ file, report: () => undefined })
    const found = await store.verifyAudit(noted?.data)
    await store.close()
    return { lines: [file, ...verificationSentences(found)], fits: fitsWhole(found) }
  } catch (failure) {
    if (!(failure instanceof StoreInUse)) throw failure
    const line = `${file} is in use, most likely by the server. Stop it and check again, or check while it runs: the page has "Check the audit record" under Audit record, for administrators of every site.`
    return { lines: [line], fits: false }
  }
}

const { lines, fits } = await check(process.argv.slice(2))
for (const line of lines) console.log(line)
process.exitCode = fits ? 0 : 1
