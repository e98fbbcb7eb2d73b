import type { Episode } from '#domain/alerts/episode.ts'

const dayMs = 86_400_000

/**
 * Whether what an episode rests on came too late, and why nobody is told of it. Late: known longer after it was read
 * than its series allows. A silence that goes on is told however long ago it began.
 */
export function judgeArrival(
  { crossedAtEpochMs, heldAtEpochMs, leftAtEpochMs, knownAtEpochMs }: Episode,
  given: {
    readonly ofSilence: boolean
    readonly lateAfterMinutes: number
    readonly invented: boolean
    readonly presentEpochMs: number
  },
): { readonly late: boolean; readonly untoldBecause: string | null } {
  const { ofSilence, lateAfterMinutes, invented, presentEpochMs } = given
  const delayMs = knownAtEpochMs - (heldAtEpochMs ?? crossedAtEpochMs)
  return { late: !ofSilence && delayMs > lateAfterMinutes * 60_000, untoldBecause: untoldBecause() }

  function untoldBecause(): string | null {
    if (invented) return 'The data of this site are invented.'
    if (presentEpochMs - knownAtEpochMs <= dayMs) return null
    if (!ofSilence)
      return `Its readings came ${instantText(knownAtEpochMs)}, more than a day before they were evaluated.`
    if (leftAtEpochMs === null) return null
    return `It began ${instantText(knownAtEpochMs)}, more than a day before it was evaluated, and has ended.`
  }
}

const instantText = (epochMs: number): string =>
  `${new Date(epochMs).toISOString().slice(0, 16).replace('T', ' ')} UTC`
