import { createSignal } from 'solid-js'
import type {
  CorrectionProposalDraft,
  CorrectionProposals,
  CorrectionTaken,
} from '#contract/correction-proposals.ts'
import { askServer, sendServer, sentenceOf } from '../../state/ask-server.ts'
import { isFrozen } from '../../state/frozen.ts'
import { showSaved, sitePath } from '../../state/open-site.ts'
import { hindranceTo } from '../../state/permitted.ts'
import { watchPublishing } from '../../state/publishing.ts'
import { siteDocument } from '../../state/site-document.ts'
import { sync } from '../../ui/sync.ts'

/** Corrections offered for the record of the open site, and what can be done with them. */
export function createCorrections() {
  const [list, setList] = createSignal<CorrectionProposals | null>(null)
  const [trouble, setTrouble] = createSignal<string | null>(null)
  const site = () => siteDocument()?.facts.id ?? ''
  const path = (part = '') => sitePath(site(), `/correction-proposals${part}`)

  let listed: string | null = null
  const refresh = async () => {
    const wanted = site()
    // Proposals of another site are not those of this one, whatever the server answers.
    if (listed !== wanted) setList(null)
    listed = wanted
    // Frozen data hold none: what was offered later must not leak into them.
    const hindrance = isFrozen() ? null : hindranceTo('read-all')
    setTrouble(hindrance)
    if (wanted === '' || isFrozen() || hindrance !== null) return
    try {
      const answer = await askServer<CorrectionProposals>(path())
      if (wanted !== site()) return
      setList(answer)
      setTrouble(null)
    } catch (cause) {
      if (wanted === site()) setTrouble(sentenceOf(cause))
    }
  }
  sync(site, () => void refresh())
  return {
    list,
    /** Why they could not be fetched, so that the list is of before or not known; null: they were. */
    trouble,
    async offer(draft: CorrectionProposalDraft): Promise<CorrectionTaken> {
      const taken = await sendServer<CorrectionTaken>(path(), draft)
      await refresh()
      return taken
    },
    async decide(
      number: number,
      kind: 'approval' | 'rejection' | 'withdrawal',
      reason: string,
      author: string,
    ) {
      try {
        await sendServer(path(`/${number}/${kind}`), { reason, author })
      } finally {
        // A refusal may come of what somebody else did meanwhile.
        await refresh()
      }
      if (kind !== 'approval') return
      showSaved(site())
      void watchPublishing(site())
    },
  }
}

export type Corrections = ReturnType<typeof createCorrections>
