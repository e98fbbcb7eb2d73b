import { type Accessor, createMemo, createSignal, onCleanup } from 'solid-js'
import type { PlainDrawdownFit, plainDrawdownFit } from '#domain/ground/groundwater/fit-drawdown.ts'
import { type Outcome, reject } from '#domain/outcome.ts'
import { openDerivation } from '../../derived/open-derivation.ts'
import { sentenceOf } from '../../state/ask-server.ts'
import { newestNext } from '../../ui/newest-next.ts'
import { sync } from '../../ui/sync.ts'

export type DrawdownRequest = Parameters<typeof plainDrawdownFit>

/**
 * A fit of drawdowns, worked out beside the page: some hundred readings take a tenth of a second. Null: nothing is asked,
 * or the newest request has no answer yet.
 */
export function createDrawdownFit(
  wanted: Accessor<DrawdownRequest | null>,
): Accessor<Outcome<PlainDrawdownFit> | null> {
  const derivation = openDerivation()
  const [fit, setFit] = createSignal<{ of: DrawdownRequest; outcome: Outcome<PlainDrawdownFit> } | null>(null)
  const ask = newestNext(
    (request: DrawdownRequest) => derivation.drawdown(request),
    (outcome, of) => setFit({ of, outcome }),
    (cause, of) =>
      setFit({
        of,
        outcome: reject({
          code: 'derivation-failed',
          message: `The fit could not be worked out: ${sentenceOf(cause)}`,
        }),
      }),
  )
  sync(wanted, (request) => {
    if (request) ask(request)
  })
  onCleanup(derivation.close)
  return createMemo(() => {
    const found = fit()
    return found !== null && found.of === wanted() ? found.outcome : null
  })
}
