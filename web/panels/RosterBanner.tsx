import { Show } from 'solid-js'
import { dutiesDocument } from '../state/duties.ts'
import { openNowSentence } from './duties/duty-sentences.ts'

/** Stands above the plan while nobody would be told of alerts. */
export function RosterBanner() {
  const sentence = () => {
    const known = dutiesDocument()
    return known && openNowSentence(known)
  }
  return (
    <Show when={sentence()}>
      {(text) => (
        <p class="publishing-banner roster-banner" role="alert">
          {text()}
        </p>
      )}
    </Show>
  )
}
