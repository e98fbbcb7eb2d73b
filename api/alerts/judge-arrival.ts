import type { Episode } from '#domain/alerts/episode.ts'

const dayMs = 86_400_000

/**
 * Whether what an episode rests on came too late, and why nobody is told of it. Late: known longer after it was read
 * than its series allows. What goes on, a level still reached or a silence, is told however long ago it began: a server
 * that stood still, or a level that was added, must not make it nobody's.
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
    if (leftAtEpochMs === null || presentEpochMs - knownAtEpochMs <= dayMs) return null
    return ofSilence
      ? `It began ${instantText(knownAtEpochMs)}, more than a day before it was evaluated, and has ended.`
      : `Its readings came ${instantText(knownAtEpochMs)}, more than a day before they were evaluated, and it was left again.`
  }
}

const instantText = (epochMs: number): string =>
  `${new Date(epochMs).toISOString().slice(0, 16).replace('T', ' ')} UTC`
