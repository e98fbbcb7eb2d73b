import type { StoredFieldEntry } from '#contract/field-entry.ts'
import { clockSentence } from '#domain/field/device-clock.ts'
import { effectOf, type FieldTools, type NumberedEffect, readFieldSite } from './field-site.ts'
import { keepCoverage } from './keep-coverage.ts'
import { keepDiary } from './keep-diary.ts'
import { registerInstallations } from './register-installations.ts'
import { statedEffects } from './stated-effects.ts'
import { takeMemoryFiles } from './take-memory-files.ts'
import { takeReadings } from './take-readings.ts'

/** In this order, since a sensor must be registered before its readings are taken. */
const stages = [
  ['installations', registerInstallations],
  ['readings', takeReadings],
  ['memory files', takeMemoryFiles],
  ['notes', keepDiary],
  ['coverage tests', keepCoverage],
  ['other entries', statedEffects],
] as const

/**
 * Does what the entries of a site ask for and is not done, and records what came of each. Every stage can be killed at
 * any moment and done again: it looks first at what is there. One that fails holds up no other.
 */
export async function workSite(
  tools: Omit<FieldTools, 'failed'>,
  site: string,
  stored: readonly StoredFieldEntry[],
  onFailure: (what: string, cause: unknown) => void,
): Promise<void> {
  for (const [what, stage] of stages) {
    const failed = (cause: unknown) => onFailure(what, cause)
    try {
      const model = await tools.store.getSite(site)
      if (model === null) return
      const effects = await stage({ ...tools, failed }, readFieldSite(model, stored), stored)
      await recordChanged(tools.store, site, stored, effects)
    } catch (cause) {
      failed(cause)
    }
  }
}

/** Records those effects that say something else than before. Of each, what must be said of the device's clock. */
async function recordChanged(
  store: FieldTools['store'],
  site: string,
  stored: readonly StoredFieldEntry[],
  effects: readonly NumberedEffect[],
): Promise<void> {
  const byNumber = new Map(stored.map((one) => [one.number, one]))
  const changed = effects.flatMap(({ number, effect: { outcome, sentence, batch } }) => {
    const one = byNumber.get(number)
    const clock = one ? clockSentence(one.entry, one.receivedAtEpochMs) : null
    const effect = effectOf(outcome, [sentence, clock], batch)
    const had = one?.effect
    const isSaid = had?.outcome === outcome && had.sentence === effect.sentence && had.batch === batch
    return isSaid ? [] : [{ number, effect }]
  })
  if (changed.length > 0) await store.recordFieldEffects(site, changed)
}
