import { createSignal } from 'solid-js'
import type {
  LevelPreview,
  LevelProposals,
  PreviewRequest,
  ProposalDraft,
} from '#contract/level-proposals.ts'
import { askServer, sendServer, sentenceOf } from '../../state/ask-server.ts'
import { showSaved, sitePath } from '../../state/open-site.ts'
import { hindranceTo } from '../../state/permitted.ts'
import { siteDocument } from '../../state/site-document.ts'
import { latestOnly } from '../../ui/latest-only.ts'

/** Proposals for the levels of the open site, and what can be done with them. */
export function createProposals() {
  const [list, setList] = createSignal<LevelProposals | null>(null)
  const [trouble, setTrouble] = createSignal<string | null>(null)
  const site = () => siteDocument()?.facts.id ?? ''
  const path = (part = '') => sitePath(site(), `/level-proposals${part}`)
  const preview = latestOnly((request: PreviewRequest, signal) =>
    sendServer<LevelPreview>(path('/preview'), request, signal),
  )

  let listed: string | null = null
  const refresh = async () => {
    const wanted = site()
    // Proposals of another site are not those of this one, whatever the server answers.
    if (listed !== wanted) setList(null)
    listed = wanted
    const hindrance = hindranceTo('read-all')
    setTrouble(hindrance)
    if (hindrance !== null) return
    try {
      const answer = await askServer<LevelProposals>(path())
      if (wanted !== site()) return
      setList(answer)
      setTrouble(null)
    } catch (cause) {
      if (wanted === site()) setTrouble(sentenceOf(cause))
    }
  }
  return {
    list,
    /** Why they could not be fetched, so that the list is of before or not known; null: they were. */
    trouble,
    refresh,
    /** Undefined where a later one was asked for meanwhile. */
    preview,
    async propose(draft: ProposalDraft): Promise<number> {
      const { number } = await sendServer<{ number: number }>(path(), draft)
      await refresh()
      return number
    },
    async decide(number: number, kind: 'approval' | 'rejection', reason: string, author: string) {
      await sendServer(path(`/${number}/${kind}`), { reason, author })
      await refresh()
      if (kind === 'approval') showSaved(site())
    },
  }
}

export type Proposals = ReturnType<typeof createProposals>
