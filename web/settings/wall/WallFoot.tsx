import { Show } from 'solid-js'
import { cutOffWords, provisionalWords } from '../../panels/frozen-sentences.ts'
import { frozenSet } from '../../state/frozen.ts'
import { meeting } from '../../state/meeting.ts'
import { siteDocument } from '../../state/site-document.ts'
import { standingSummary } from '../../state/standing-summary.ts'
import { formatInstant } from '../../ui/format-instant.ts'
import { channelsCaution } from './channels-caution.ts'

/** What stands on every board: of which data it is, how much of it is provisional, and what it does not say. */
export function WallFoot() {
  const zone = () => siteDocument()?.facts.timeZone ?? 'UTC'
  return (
    <footer class="wall-foot">
      <div class="wall-facts">
        <p class="wall-meeting">
          <Show when={meeting()}>
            {(shown) => (
              <>
                <strong>{shown().title}</strong>
                {' · '}
                <time datetime={new Date(shown().heldAtEpochMs).toISOString()}>
                  {formatInstant(shown().heldAtEpochMs, zone())}
                </time>
              </>
            )}
          </Show>
        </p>
        <p class="wall-cut-off">
          <Show when={frozenSet()}>
            {(set) => (
              <>
                Data as received by <strong>{cutOffWords(set(), zone())}</strong>
                {' · '}
                <strong>{provisionalWords(set())}</strong>
              </>
            )}
          </Show>
        </p>
      </div>
      <p class="wall-cautions">
        Monitoring supports and does not replace the judgement of the responsible engineer.{' '}
        {channelsCaution(standingSummary())}
      </p>
      <Show when={siteDocument()?.facts.invented}>
        <p class="wall-watermark">{siteDocument()?.facts.watermark ?? 'invented data'}</p>
      </Show>
    </footer>
  )
}
