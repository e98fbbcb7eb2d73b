import { createSignal, Show } from 'solid-js'
import type { FrozenSince } from '#contract/frozen-sets.ts'
import type { BoardKind } from '#domain/meeting/meeting.ts'
import { sinceSentence } from '../../derived/meeting/since-sentence.ts'
import { askServer } from '../../state/ask-server.ts'
import { frozenSet } from '../../state/frozen.ts'
import { shownBoard } from '../../state/meeting.ts'
import { frozenPath } from '../../state/open-frozen.ts'
import { selectedInstrument } from '../../state/selection.ts'
import { siteDocument } from '../../state/site-document.ts'
import { sync } from '../../ui/sync.ts'

/** These show what is selected; the others the site. */
const ofSelection: ReadonlySet<BoardKind | undefined> = new Set(['profile', 'history'])

const ofToday: ReadonlySet<BoardKind | undefined> = new Set(['minutes', undefined])

/** What was corrected or came in since the data were frozen; it is said in room kept for it, and nothing of what is shown changes by it. */
export function SinceFrozen() {
  const [since, setSince] = createSignal<FrozenSince | null>(null)
  const [failed, setFailed] = createSignal(false)
  sync(frozenSet, (set) => {
    if (set)
      askServer<FrozenSince>(frozenPath(set.site, set.id, '/since')).then(setSince, () => setFailed(true))
  })
  // Minutes are of today; a board that is not there yet keeps no room.
  const isOfCutOff = () => !ofToday.has(shownBoard()?.kind)
  const sentence = () => {
    const [known, kind] = [since(), shownBoard()?.kind]
    if (!known)
      return failed() ? 'Whether anything was corrected since could not be had from the server.' : null
    const instrument = selectedInstrument()
    const places = ofSelection.has(kind)
      ? new Set(instrument ? [instrument.id, ...instrument.points] : [])
      : null
    return sinceSentence(known, places, siteDocument()?.facts.timeZone ?? 'UTC')
  }
  return (
    <Show when={isOfCutOff()}>
      <p class="wall-since" classList={{ none: sentence() === null }}>
        {sentence()}
      </p>
    </Show>
  )
}
