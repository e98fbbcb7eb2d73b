import { Show } from 'solid-js'
import { silentWatched } from '#domain/alerts/silent-watched.ts'
import { cutOffWords, provisionalWords } from '../../panels/frozen-sentences.ts'
import { alertsDocument } from '../../state/alerts.ts'
import { frozenSet } from '../../state/frozen.ts'
import { meeting } from '../../state/meeting.ts'
import { siteDocument } from '../../state/site-document.ts'
import { standingSummary } from '../../state/standing-summary.ts'
import { formatDay } from '../../ui/format-instant.ts'
import { channelsCaution } from './channels-caution.ts'

/** What stands on every board: of which data it is, how much of it is provisional, and what it does not say. */
export function WallFoot() {
  const zone = () => siteDocument()?.facts.timeZone ?? 'UTC'
  return (
    <footer class="wall-foot">
      <p class="wall-meeting">
        <Show when={meeting()}>
          {(shown) => (
            <>
              {shown().title},{' '}
              <time datetime={new Date(shown().heldAtEpochMs).toISOString()}>
                {formatDay(shown().heldAtEpochMs, zone())}
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
            </>
          )}
        </Show>
      </p>
      <Show when={siteDocument()?.facts.invented}>
        <p class="wall-watermark">{siteDocument()?.facts.watermark ?? 'invented data'}</p>
      </Show>
      <p class="wall-cautions">
        <Show when={frozenSet()}>{(set) => <strong>{capital(provisionalWords(set()))}.</strong>}</Show>{' '}
        Monitoring supports and does not replace the judgement of the responsible engineer.{' '}
        {channelsCaution(standingSummary(), watchedAtCutOff())}
      </p>
    </footer>
  )
}

const watchedAtCutOff = () => {
  const document = alertsDocument()
  return document && silentWatched(document)
}

const capital = (words: string): string => `${words.charAt(0).toUpperCase()}${words.slice(1)}`
