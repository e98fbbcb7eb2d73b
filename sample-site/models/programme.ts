/** When the works and the events happen: what `stages.csv` and `diary.csv` say, as the models need it. */
const at = (text: string) => Date.parse(`2027-${text}Z`)

export const hourMs = 3_600_000
export const dayMs = 24 * hourMs
export const quarterMs = 15 * 60_000

export const programme = {
  startsAt: at('02-01T00:00:00'),
  /** No reading is taken at or after this instant. */
  endsAt: at('10-31T22:00:00'),
  pumpingFrom: at('04-22T06:00:00'),
  stage1: { from: at('05-06T07:00:00'), until: at('05-22T18:00:00') },
  stage2: { from: at('05-24T07:00:00'), until: at('06-14T18:00:00') },
  stage3: { from: at('07-10T07:00:00'), until: at('07-31T18:00:00') },
  tunnelFrom: at('06-28T00:00:00'),
  stormFrom: at('08-12T02:00:00'),
  stormUntil: at('08-13T02:00:00'),
  frontFrom: at('09-12T04:00:00'),
  frontUntil: at('09-12T22:00:00'),
  leakFrom: at('07-09T00:00:00'),
  drainRelinedAt: at('08-25T12:00:00'),
  driftFrom: at('06-01T00:00:00'),
  bracketMovedAt: at('06-21T11:00:00'),
  probeColdOn: at('06-22T00:00:00'),
  barrierHitAt: at('09-20T15:30:00'),
  cableCutAt: at('04-29T13:20:00'),
  containersFrom: at('08-03T07:30:00'),
  containersUntil: at('08-17T16:00:00'),
  memoryReadAt: at('08-18T10:15:00'),
  fastClockFrom: at('06-10T10:15:00'),
  fastClockUntil: at('08-30T09:03:00'),
  upperStruts: {
    loadedFrom: at('05-22T00:00:00'),
    jackedFrom: at('05-07T09:00:00'),
    jackedUntil: at('05-07T15:00:00'),
  },
  lowerStruts: {
    loadedFrom: at('07-10T07:00:00'),
    jackedFrom: at('06-16T08:30:00'),
    jackedUntil: at('06-16T15:00:00'),
  },
} as const

/** 0 before `from`, 1 after `until`, smooth between: how far a step of the works has come. */
export function shareDone(epochMs: number, step: { readonly from: number; readonly until: number }): number {
  const share = (epochMs - step.from) / (step.until - step.from)
  return share <= 0 ? 0 : share >= 1 ? 1 : share * share * (3 - 2 * share)
}
