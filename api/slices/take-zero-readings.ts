import { assert } from '#domain/assert.ts'
import { type CorrectionSignature, correctedModel } from '#domain/corrections/corrected-model.ts'
import type { ProposedCorrection } from '#domain/corrections/correction.ts'
import { accept, type Issue, type Outcome, reject } from '#domain/outcome.ts'
import { barometerAt, barometersOf } from '#domain/reduction/barometer-in-force.ts'
import { calibrationAt } from '#domain/reduction/calibration-in-force.ts'
import { companionAges } from '#domain/reduction/companion-age.ts'
import type { SiteModel } from '#domain/site/site.ts'
import { stretchOfZero } from '#domain/what-if/edit-zero.ts'
import { unpackReadings } from '#domain/what-if/unpack-readings.ts'
import { zeroReadingsTaken } from '#domain/what-if/zero-readings-taken.ts'
import type { Store } from '../store/store.ts'
import { rawAnswer } from './raw-answer.ts'
import { readRecipe } from './recipe.ts'

/**
 * Corrections as they are proposed, and the records with them made: zeros that rest on readings bring these as zero
 * readings of their new versions. Refused as `correctedModel` and `takeZeroReadings` refuse.
 */
export async function correctedWithZeros(given: {
  readonly store: Store
  readonly site: string
  readonly model: SiteModel
  readonly changes: readonly ProposedCorrection[]
  readonly signature: CorrectionSignature
}): Promise<Outcome<{ readonly changes: readonly ProposedCorrection[]; readonly after: SiteModel }>> {
  const { store, site, model, signature } = given
  const made = correctedModel(model, given.changes, signature)
  if (!made.ok) return made
  const changes = await takeZeroReadings({ store, site, after: made.value, changes: given.changes })
  if (!changes.ok) return reject(...changes.issues.map(advised))
  const after = correctedModel(model, changes.value, signature)
  return after.ok ? accept({ changes: changes.value, after: after.value }) : after
}

const advised = (issue: Issue): Issue =>
  issue.code === 'zero-not-reached'
    ? { ...issue, message: `${issue.message} Offer the zero by itself, then the other changes.` }
    : issue

/**
 * Corrections with the readings that their zeros were taken from and the barometer that these went by, read from the store
 * and not taken from the proposer's page. `after`: the records with the corrections made, by which readings and companions
 * have their values. Refused where the readings on record do not come to what the sandbox said; an issue's `column` is
 * `changes.` and its number.
 */
export async function takeZeroReadings(given: {
  readonly store: Store
  readonly site: string
  readonly after: SiteModel
  readonly changes: readonly ProposedCorrection[]
}): Promise<Outcome<readonly ProposedCorrection[]>> {
  const { store, site, after, changes } = given
  if (!changes.some((one) => one.kind === 'calibration' && one.zeroFrom)) return accept(changes)
  const recipe = await readRecipe(store, site, after)
  const revision = await store.revision(site)
  const issues: Issue[] = []
  const taken: ProposedCorrection[] = []
  for (const [number, change] of changes.entries()) {
    if (change.kind !== 'calibration' || !change.zeroFrom) {
      taken.push(change)
      continue
    }
    const { series, fromEpochMs, zeroFrom } = change
    const sensor = after.sensors.find(({ id }) => id === series)
    assert(sensor, `${series} is there once a correction of it is resolved`)
    const stretch = stretchOfZero(zeroFrom.zero)
    const steps = calibrationAt(recipe.calibrations.get(series) ?? [], fromEpochMs)?.steps ?? null
    const { barometer } = barometerAt(barometersOf(after.sensorBarometers)(sensor), fromEpochMs)
    const answer = await rawAnswer({
      store,
      site,
      model: after,
      recipe,
      revision,
      series: [series],
      ...stretch,
    })
    const rows = answer.ok
      ? zeroReadingsTaken(
          {
            series,
            decimals: sensor.decimals,
            steps,
            temperatureSeries: sensor.temperatureSensor,
            barometerSeries: barometer,
          },
          zeroFrom,
          {
            recipe: answer.value.recipe,
            readings: unpackReadings(answer.value.channels, answer.value.fromEpochMs, answer.value.recipe),
          },
        )
      : answer
    const isByAir = barometer !== null && companionAges(steps ?? []).barometerMinutes !== null
    if (rows.ok)
      taken.push({
        ...change,
        zeroReadings: rows.value,
        ...(isByAir ? { zeroBarometer: barometer } : {}),
      })
    else issues.push(...rows.issues.map((issue) => ({ ...issue, column: `changes.${number}` })))
  }
  return issues.length > 0 ? reject(...issues) : accept(taken)
}
