import { Show } from 'solid-js'
import { analysisProgress } from '../state/analysis.ts'
import { siteDocument } from '../state/site-document.ts'
import { standingSummary } from '../state/standing-summary.ts'
import { lastKnownEpochMs } from '../state/states-age.ts'
import { cautionSentence } from './site-sentences.ts'

/** What must stand where decisions are taken; always on the screen. */
export function Cautions() {
  const engine = () => {
    const progress = analysisProgress()
    return progress && progress.stage !== 'ready' && progress.stage !== 'waiting' ? progress.sentence : null
  }
  return (
    <footer class="cautions">
      {cautionSentence(
        standingSummary(),
        siteDocument()?.facts.timeZone ?? 'UTC',
        lastKnownEpochMs() !== null,
      )}
      <Show when={engine()}>{(sentence) => <em> {sentence()}</em>}</Show>
    </footer>
  )
}
