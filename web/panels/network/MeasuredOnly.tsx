import { createMemo, For } from 'solid-js'
import { spotsOfTests } from '#domain/radio/link-spots.ts'
import { proofOfLink } from '#domain/radio/proof.ts'
import { measuredText, proofNames } from '../../derived/radio/link-sentences.ts'
import { radioSiteOf } from '../../derived/radio/radio-site-of.ts'
import { radioTerms } from '../../state/radio-plan.ts'
import { clockEpochMs } from '../../state/site-clock.ts'
import { siteDocument } from '../../state/site-document.ts'
import { siteGrid } from '../../state/site-grid.ts'

/** What each logger's own test proved, where the tests are too few to predict anything. */
export function MeasuredOnly() {
  const proofs = createMemo(() => {
    const [document, grid, at] = [siteDocument(), siteGrid(), clockEpochMs()]
    if (!document || !grid || at === null) return []
    const site = radioSiteOf(document, grid, radioTerms())
    const spots = spotsOfTests(site.tests, site.terms, at)
    return site.loggers.map((logger) => ({
      id: logger.id,
      proof: proofOfLink(logger, undefined, spots, site, at),
    }))
  })
  return (
    <ul class="link-list">
      <For each={proofs()}>
        {({ id, proof }) => (
          <li data-proof={proof.state}>
            <strong>{id}</strong> <span class="link-proof">{proofNames[proof.state]}</span>
            <span class="link-line">{measuredText(proof)}</span>
            <For each={[...(proof.test === null ? [] : proof.reasons), ...(proof.verdict?.cautions ?? [])]}>
              {(sentence) => <span class="link-line">{sentence}</span>}
            </For>
          </li>
        )}
      </For>
    </ul>
  )
}
