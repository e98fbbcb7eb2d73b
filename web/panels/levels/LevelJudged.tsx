import { For, Show } from 'solid-js'
import type { LevelPreview } from '#contract/level-proposals.ts'
import type { LevelDraft } from '#domain/levels/level-change.ts'
import { siteDocument } from '../../state/site-document.ts'
import { siteNowEpochMs } from '../../state/site-now.ts'
import { LevelText } from '../LevelText.tsx'
import { PreviewResult } from './PreviewResult.tsx'

const triedDays = [30, 90, 300] as const

/** What is found against a level while one writes it, and what it would have done in past days. */
export function LevelJudged(props: {
  /** Null: not every field can be read. */
  level: LevelDraft | null
  unit: string
  canTry: boolean
  preview: LevelPreview | null
  trouble: string | null
  working: boolean
  /** From when on it is tried on the past. */
  judge: (fromEpochMs: number) => void
}) {
  const zone = () => siteDocument()?.facts.timeZone ?? 'UTC'
  return (
    <section class="levels-judged" aria-label="What is found against it" aria-live="polite">
      <Show
        when={props.level}
        fallback={<p>What is found against it stands here once every field can be read.</p>}
      >
        {(level) => (
          <p>
            <strong>
              <LevelText level={{ ...level(), author: '', approver: '' }} unit={props.unit} zone={zone()} />
            </strong>
          </p>
        )}
      </Show>
      <Show when={props.canTry}>
        <Show when={props.trouble}>{(sentence) => <p class="trouble">{sentence()}</p>}</Show>
        <Show when={props.preview}>{(shown) => <PreviewResult preview={shown()} named={true} />}</Show>
        <div class="buttons">
          <For each={triedDays}>
            {(days) => (
              <button
                type="button"
                disabled={props.working}
                onClick={() => props.judge(siteNowEpochMs() - days * 86_400_000)}
              >
                Try on the last {days} days
              </button>
            )}
          </For>
        </div>
        <p role="status">{props.working ? 'Working it out …' : ''}</p>
      </Show>
    </section>
  )
}
