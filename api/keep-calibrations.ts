import { stepsOf } from '#domain/corrections/resolve-corrections.ts'
import { isSameChain } from '#domain/corrections/step-text.ts'
import { accept, type Issue, type Outcome, reject } from '#domain/outcome.ts'
import type { SiteModel } from '#domain/site/site.ts'
import { type CalibrationRow, siteTables } from '#domain/site/tables.ts'
import { isEntered, rowText } from './entered-rows.ts'
import type { Store } from './store/store.ts'

/**
 * The model of a folder with the calibrations that were entered in the page since: a folder that does not know them
 * must not take them back. Refused where the folder says something else under the name of one, or gives its number to
 * another calibration of the sensor.
 */
export async function keepCalibrations(store: Store, folder: SiteModel): Promise<Outcome<SiteModel>> {
  const site = folder.facts.id
  const kept = await store.getSite(site)
  if (kept === null) return accept(folder)
  const known = new Map(folder.calibrations.map((row) => [row.id, row]))
  const sensors = new Set(folder.sensors.map(({ id }) => id))
  const entered: CalibrationRow[] = []
  const clashes: Issue[] = []
  for (const row of kept.calibrations) {
    const other = known.get(row.id)
    const isAsBefore =
      other && rowText(other) === rowText(row) && isSameChain(stepsOf(folder, row.id), stepsOf(kept, row.id))
    if (isAsBefore || !(await isEntered(store, site, 'calibrations', row.id))) continue
    if (other) clashes.push(saidOtherwise(row))
    else if (sensors.has(row.sensor)) entered.push(row)
  }
  for (const row of entered) {
    const other = folder.calibrations.find(
      ({ sensor, version }) => sensor === row.sensor && version === row.version,
    )
    if (other) clashes.push(numberGivenTwice(row, other))
  }
  if (clashes.length > 0) return reject(...clashes)
  if (entered.length === 0) return accept(folder)
  const ids = new Set(entered.map(({ id }) => id))
  return accept({
    ...folder,
    calibrations: [...folder.calibrations, ...entered],
    calibrationSteps: [
      ...folder.calibrationSteps,
      ...kept.calibrationSteps.filter(({ calibration }) => ids.has(calibration)),
    ],
  })
}

const saidOtherwise = ({ id, sensor, author }: CalibrationRow): Issue => ({
  code: 'calibration-entered-otherwise',
  file: siteTables.calibrations.file,
  column: 'id',
  value: id,
  message: `${id} of ${sensor} was entered in the page by ${author}, and the folder says something else under that name. Take the one that was entered into the folder as it is, and give the folder's the next number.`,
})

const numberGivenTwice = (row: CalibrationRow, other: CalibrationRow): Issue => ({
  code: 'version-entered-twice',
  file: siteTables.calibrations.file,
  column: 'version',
  value: String(other.version),
  message: `${other.id} is version ${other.version} of ${row.sensor} in the folder, but ${row.id} was entered in the page as that version by ${row.author}. Take ${row.id} into the folder and give ${other.id} the next number.`,
})
