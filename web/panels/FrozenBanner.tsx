import { Show } from 'solid-js'
import { writeAddress } from '../state/address.ts'
import { currentAddress } from '../state/address-bar.ts'
import { frozenSet } from '../state/frozen.ts'
import { siteDocument } from '../state/site-document.ts'
import { cutOffWords, provisionalWords } from './frozen-sentences.ts'

/** Stands over the page while it reads from a frozen set: of when it is, and the way back. */
export function FrozenBanner() {
  // Another page: nothing of the frozen data can stand in the present one.
  const goBack = () => location.assign(`?${writeAddress({ ...currentAddress(), frozen: null })}`)
  return (
    <Show when={frozenSet()}>
      {(set) => (
        <p class="frozen-banner" role="status">
          Data as received by {cutOffWords(set(), siteDocument()?.facts.timeZone ?? 'UTC')};{' '}
          {provisionalWords(set())}. Nothing that came later is shown.{' '}
          <button type="button" onClick={goBack}>
            Back to present data
          </button>
        </p>
      )}
    </Show>
  )
}
