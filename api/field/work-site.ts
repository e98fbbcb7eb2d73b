import type { StoredFieldEntry } from '#contract/field-entry.ts'
import { type FieldTools, type NumberedEffect, readFieldSite } from './field-site.ts'
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
] as const

/**
 * Does what the entries of a site ask for and is not done, and records what came of each. Every stage can be killed at
 * any moment and done again: it looks first at what is there. One that fails holds up no other.
 */
export async function workSite(
  tools: FieldTools,
  site: string,
  stored: readonly StoredFieldEntry[],
  onFailure: (what: string, cause: unknown) => void,
): Promise<void> {
  const attempt = async (what: string, stage: () => Promise<readonly NumberedEffect[]>) => {
    try {
      await recordChanged(tools, site, stored, await stage())
    } catch (cause) {
      onFailure(what, cause)
    }
  }
  for (const [what, stage] of stages)
    await attempt(what, async () => {
      const model = await tools.store.getSite(site)
      return model ? stage(tools, readFieldSite(model, stored)) : []
    })
  await attempt('other entries', async () => {
    const model = await tools.store.getSite(site)
    return model ? statedEffects(stored, readFieldSite(model, stored)) : []
  })
}

/** Records those effects that say something else than before. */
async function recordChanged(
  { store }: FieldTools,
  site: string,
  stored: readonly StoredFieldEntry[],
  effects: readonly NumberedEffect[],
): Promise<void> {
  const before = new Map(stored.map(({ number, effect }) => [number, effect]))
  await store.recordFieldEffects(
    site,
    effects.filter(({ number, effect }) => {
      const had = before.get(number)
      return !(
        had &&
        had.outcome === effect.outcome &&
        had.sentence === effect.sentence &&
        had.batch === effect.batch
      )
    }),
  )
}
