import { createSignal, For, Show } from 'solid-js'
import type { AuditVerificationAnswer } from '#contract/audit.ts'
import { fitsWhole } from '#domain/audit/verification.ts'
import { verificationSentences } from '#domain/audit/verification-sentences.ts'
import { askServer, sentenceOf } from '../../state/ask-server.ts'
import { announce } from '../../ui/announce.ts'

/** Has the server work the whole audit record out anew, and says what came of it. */
export function AuditCheck() {
  const [found, setFound] = createSignal<AuditVerificationAnswer | null>(null)
  const [trouble, setTrouble] = createSignal<string | null>(null)
  const [isChecking, setChecking] = createSignal(false)
  const check = async () => {
    setChecking(true)
    setFound(null)
    setTrouble(null)
    try {
      const answer = await askServer<AuditVerificationAnswer>('/api/audit/verification')
      setFound(answer)
      announce(verificationSentences(answer)[0] ?? '')
    } catch (cause) {
      setTrouble(sentenceOf(cause))
    } finally {
      setChecking(false)
    }
  }
  return (
    <section class="audit-check" aria-label="Check of the audit record">
      <button type="button" disabled={isChecking()} onClick={() => void check()}>
        {isChecking() ? 'Checking …' : 'Check the audit record'}
      </button>
      <Show when={trouble()}>
        {(sentence) => (
          <p class="trouble" role="alert">
            {sentence()}
          </p>
        )}
      </Show>
      <Show when={found()}>
        {(known) => (
          <div class="audit-found" classList={{ trouble: !fitsWhole(known()) }}>
            <For each={verificationSentences(known())}>{(sentence) => <p>{sentence}</p>}</For>
          </div>
        )}
      </Show>
    </section>
  )
}
