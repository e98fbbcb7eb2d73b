import { formatAge } from '../../ui/format-instant.ts'

const oldAfterMs = 30 * 60_000

/** That the state of the network is not the present any more; null while it is not more than half an hour old. */
export function networkAgeSentence(asOfEpochMs: number, nowEpochMs: number): string | null {
  const ageMs = nowEpochMs - asOfEpochMs
  return ageMs > oldAfterMs ? `This is ${formatAge(ageMs)} old; what fell silent since is not in it.` : null
}
