import type { SiteDocument } from '#contract/site-document.ts'
import { dutyBands868, usualDutyBand } from '#domain/radio/duty-cycle.ts'
import { factorsFromTests, mixOf } from '#domain/radio/factor-mix.ts'
import type { FactorShare, NetworkDesign } from '#domain/radio/network-plan.ts'
import { networkOverheadBytes } from '#domain/radio/time-on-air.ts'

/** Which factors the loggers send at: as the site's coverage tests say, evenly, or all at one. */
export const factorChoices = ['tests', 'even', '7', '8', '9', '10', '11', '12'] as const
export type FactorChoice = (typeof factorChoices)[number]

/** What is asked of the network, as the fields have it. */
export interface PlanDraft {
  readonly loggers: number
  readonly intervalMinutes: number
  readonly channels: number
  /** Of the readings themselves. */
  readonly applicationBytes: number
  readonly factors: FactorChoice
  readonly sendings: number
  readonly linkPercent: number
  readonly bandId: string
  readonly wantedPercent: number
}

export const firstPlanDraft: PlanDraft = {
  loggers: 1000,
  intervalMinutes: 5,
  channels: 8,
  applicationBytes: 20,
  factors: 'tests',
  sendings: 1,
  linkPercent: 100,
  bandId: usualDutyBand.id,
  wantedPercent: 95,
}

export const bandOf = (id: string) => dutyBands868.find((band) => band.id === id) ?? usualDutyBand

/** Shares of the factors for a choice; an even split where the site has no tests. */
export function factorsOf(choice: FactorChoice, site: SiteDocument | null): readonly FactorShare[] {
  if (choice === 'tests') {
    const mix = mixOf(factorsFromTests(site?.coverageTests ?? []))
    if (mix.length > 0) return mix
  }
  if (choice === 'tests' || choice === 'even')
    return [7, 8, 9, 10, 11, 12].map((spreadingFactor) => ({ spreadingFactor, share: 1 / 6 }))
  return [{ spreadingFactor: Number(choice), share: 1 }]
}

export const designOf = (draft: PlanDraft, factors: readonly FactorShare[]): NetworkDesign => ({
  loggers: draft.loggers,
  intervalSeconds: 60 * draft.intervalMinutes,
  channels: draft.channels,
  payloadBytes: draft.applicationBytes + networkOverheadBytes,
  factors,
  sendings: draft.sendings,
  linkShare: draft.linkPercent / 100,
  dutyShare: bandOf(draft.bandId).dutyShare,
})
