import { Show } from 'solid-js'
import { keptAtEpochMs } from '../../state/ask-server.ts'
import { fieldGuide } from '../../state/field-guide.ts'
import { siteDocument } from '../../state/site-document.ts'
import { movingSiteNowEpochMs } from '../../state/site-now.ts'
import { guideAgeSentence } from './guide-age-sentence.ts'

/** Says from when the field guide is, where it is not of today or was kept. */
export function GuideAge() {
  const sentence = () => {
    const guide = fieldGuide()
    if (!guide) return null
    const zone = siteDocument()?.facts.timeZone ?? 'UTC'
    return guideAgeSentence(guide.asOfEpochMs, keptAtEpochMs(guide) !== null, movingSiteNowEpochMs(), zone)
  }
  return <Show when={sentence()}>{(said) => <p class="trouble">{said()}</p>}</Show>
}
