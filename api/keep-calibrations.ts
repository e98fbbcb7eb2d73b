import { accept, type Issue, type Outcome, reject } from '#domain/outcome.ts'
import type { SiteModel } from '#domain/site/site.ts'
import { siteTables } from '#domain/site/tables.ts'
import { isEntered } from './entered-rows.ts'
import type { Store } from './store/store.ts'

/**
 * The model of a folder with the calibrations that were entered in the page since: a folder that does not know them
 * must not take them back. Refused where the folder gives the same version number to another calibration.
 */
export async function keepCalibrations(store: Store, folder: SiteModel): Promise<Outcome<SiteModel>> {
  const site = folder.facts.id
  const kept = await store.getSite(site)
  const known = new Set(folder.calibrations.map(({ id }) => id))
  const sensors = new Set(folder.sensors.map(({ id }) => id))
  const entered = []
  for (const row of kept?.calibrations ?? []) {
    if (known.has(row.id) || !sensors.has(row.sensor)) continue
    if (await isEntered(store, site, 'calibrations', row.id)) entered.push(row)
  }
  const clashes = entered.flatMap((row): Issue[] => {
    const other = folder.calibrations.find(
      ({ sensor, version }) => sensor === row.sensor && version === row.version,
    )
    return other
      ? [
          {
            code: 'version-entered-twice',
            file: siteTables.calibrations.file,
            column: 'version',
            value: String(other.version),
            message: `${other.id} is version ${other.version} of ${row.sensor} in the folder, but ${row.id} was entered in the page as that version by ${row.author}. Take ${row.id} into the folder and give ${other.id} the next number.`,
          },
        ]
      : []
  })
  if (clashes.length > 0) return reject(...clashes)
  const ids = new Set(entered.map(({ id }) => id))
  return accept({
    ...folder,
    calibrations: [...folder.calibrations, ...entered],
    calibrationSteps: [
      ...folder.calibrationSteps,
      ...(kept?.calibrationSteps ?? []).filter(({ calibration }) => ids.has(calibration)),
    ],
  })
}
