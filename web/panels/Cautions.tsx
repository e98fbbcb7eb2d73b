import { standingSummary } from '../state/standing-summary.ts'
import { cautionSentence } from './site-sentences.ts'

/** What must stand where decisions are taken; always on the screen. */
export function Cautions() {
  return <p class="cautions">{cautionSentence(standingSummary())}</p>
}
