import { writeSync } from 'node:fs'
import { join } from 'node:path'
import { createInterface } from 'node:readline'
import { createFieldWork } from '../../api/field/create-field-work.ts'
import { createIntake } from '../../api/intake/create-intake.ts'
import { openDuckdbStore } from '../../api/store/duckdb-store.ts'
import { fieldPresent, fieldSite } from '../support/field-site.ts'
import { killFieldSite, sending } from './kill-field-sendings.ts'

/** Takes sendings of field entries, one after the other, until it is killed; says of each when it is acknowledged. */
const [orders] = await new Promise<[string]>((resolve) =>
  createInterface({ input: process.stdin }).once('line', (line) => resolve([line])),
)
const [folder, first] = JSON.parse(orders) as [string, number]
const store = await openDuckdbStore({ file: join(folder, 'stillground.duckdb') })
if (!(await store.getSite(killFieldSite)))
  await store.putSite(fieldSite(), { author: 'tester', reason: 'test', atEpochMs: 0 })
const now = () => fieldPresent
const intake = createIntake({ store, filesFolder: join(folder, 'files'), presentEpochMs: now })
const report = (line: string) => console.error(line)
const field = createFieldWork({ store, intake, publisher: { changed: () => undefined }, now, report })
// Written straight to the pipe: what was said before the kill is not lost with this process.
const say = (text: string) => writeSync(1, `${text}\n`)
say('writing')
void field.work(killFieldSite)
for (let k = first; ; k++) {
  await field.add(killFieldSite, sending(k))
  say(`taken ${k}`)
}
