import type { FoldRequest } from './fold-request.ts'
import type { WatchedGroup } from './watch-plan.ts'

/** So many questions may fail in one run before it is the store that fails, and not some series. */
const mostFailures = 60

/**
 * Does something for some at once; where that fails, for each half of them, down to the one that it fails for, which is
 * told and left out: a series whose values cannot be made must not take the others with it. Where it works for none, it is
 * the store that fails, and the run with it.
 */
export function halving({ folded, onFailure }: FoldRequest) {
  let failures = 0
  let successes = 0
  const failed: { readonly group: WatchedGroup; readonly cause: unknown }[] = []
  async function apart<One>(
    some: readonly One[],
    groupOf: (one: One) => WatchedGroup,
    todo: (some: readonly One[]) => Promise<void>,
  ): Promise<void> {
    try {
      await todo(some)
      successes += 1
    } catch (cause) {
      failures += 1
      if (failures > mostFailures) throw cause
      const [only] = some
      if (only !== undefined && some.length === 1) {
        failed.push({ group: groupOf(only), cause })
        return
      }
      const middle = some.length >> 1
      await apart(some.slice(0, middle), groupOf, todo)
      await apart(some.slice(middle), groupOf, todo)
    }
  }
  const tellFailed = (): void => {
    const [first] = failed
    if (first && successes === 0) throw first.cause
    for (const { group, cause } of failed) {
      folded.delete(group.key)
      onFailure(group, cause)
    }
  }
  return { apart, tellFailed }
}
