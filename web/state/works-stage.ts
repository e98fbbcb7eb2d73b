import { createMemo, createRoot } from 'solid-js'
import type { Stage } from '#domain/site/tables.ts'
import { clockEpochMs } from './site-clock.ts'
import { siteDocument } from './site-document.ts'

/** Stages under way at an instant, the latest begun first. */
export function stagesAt(stages: readonly Stage[], atEpochMs: number): readonly Stage[] {
  return stages
    .filter((stage) => stage.startsAt <= atEpochMs && (stage.endsAt === null || atEpochMs < stage.endsAt))
    .sort((left, right) => right.startsAt - left.startsAt)
}

/** Works stages under way at the site clock. */
export const stagesAtClock = createRoot(() =>
  createMemo((): readonly Stage[] => {
    const at = clockEpochMs()
    return at === null ? [] : stagesAt(siteDocument()?.stages ?? [], at)
  }),
)
