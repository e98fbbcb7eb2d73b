import { accept, type Issue, type Outcome, reject } from '#domain/outcome.ts'
import type { SiteModel } from '#domain/site/site.ts'
import { siteTables } from '#domain/site/tables.ts'
import { isEntered, rowText } from './entered-rows.ts'
import { recordKey } from './store/model-records.ts'
import type { Store } from './store/store.ts'

/**
 * The model of a folder with the barometers of sensors that were entered in the page since: a folder that does not know
 * them must not take them back. Refused where the folder says something else under the same version of a sensor.
 */
export async function keepBarometers(store: Store, folder: SiteModel): Promise<Outcome<SiteModel>> {
  const site = folder.facts.id
  const kept = await store.getSite(site)
  const sensors = new Set(folder.sensors.map(({ id }) => id))
  const known = new Map(folder.sensorBarometers.map((row) => [recordKey('sensorBarometers', row), row]))
  const entered: SiteModel['sensorBarometers'][number][] = []
  const clashes: Issue[] = []
  for (const row of kept?.sensorBarometers ?? []) {
    const key = recordKey('sensorBarometers', row)
    if (!sensors.has(row.sensor) || !(await isEntered(store, site, 'sensorBarometers', key))) continue
    const other = known.get(key)
    if (!other) entered.push(row)
    else if (rowText(other) !== rowText(row))
      clashes.push({
        code: 'version-entered-twice',
        file: siteTables.sensorBarometers.file,
        column: 'version',
        value: String(other.version),
        message: `Version ${row.version} of the barometer of ${row.sensor} was entered in the page by ${row.author} and says ${row.barometer}; the folder says ${other.barometer}, or from another instant on. Take the page's row into the folder and give the other the next number.`,
      })
  }
  if (clashes.length > 0) return reject(...clashes)
  return accept(
    entered.length === 0 ? folder : { ...folder, sensorBarometers: [...folder.sensorBarometers, ...entered] },
  )
}
