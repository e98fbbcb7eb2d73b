import { createSignal } from 'solid-js'
import type { DecisionPart, ProposalList } from '#contract/proposals.ts'
import type { Kept, Proposal } from '#domain/proposals/proposal.ts'
import type { ProposalKind } from '#domain/proposals/proposal-kinds.ts'
import { askServer, sendServer, sentenceOf } from '../../state/ask-server.ts'
import { isFrozen, notInFrozenSentence } from '../../state/frozen.ts'
import { showSaved, sitePath } from '../../state/open-site.ts'
import { hindranceTo } from '../../state/permitted.ts'
import { watchPublishing } from '../../state/publishing.ts'
import { siteDocument } from '../../state/site-document.ts'
import { sync } from '../../ui/sync.ts'

/** Proposals of one kind at the open site: `P` as they are listed, `D` as one is sent, `T` the answer when it is taken. */
export function createProposalList<P extends Kept<Proposal>, D extends object, T>(kind: ProposalKind) {
  const [list, setList] = createSignal<ProposalList<P> | null>(null)
  const [trouble, setTrouble] = createSignal<string | null>(null)
  const site = () => siteDocument()?.facts.id ?? ''
  const path = (part = '') => sitePath(site(), `/${kind}-proposals${part}`)

  let listed: string | null = null
  const refresh = async () => {
    const wanted = site()
    // Proposals of another site are not those of this one, whatever the server answers.
    if (listed !== wanted) setList(null)
    listed = wanted
    // Frozen data hold none: what was proposed later must not leak into them.
    const hindrance = isFrozen() ? notInFrozenSentence : hindranceTo('read-all')
    setTrouble(hindrance)
    if (wanted === '' || hindrance !== null) return
    try {
      const answer = await askServer<ProposalList<P>>(path())
      if (wanted !== site()) return
      setList((before) => ({
        ...answer,
        proposals: sameWhereAlike(before?.proposals ?? [], answer.proposals),
      }))
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
    /** Path of a part of their API. */
    path,
    async propose(draft: D): Promise<T> {
      const taken = await sendServer<T>(path(), draft)
      await refresh()
      return taken
    },
    async decide(number: number, part: DecisionPart, reason: string, author: string): Promise<void> {
      try {
        await sendServer(path(`/${number}/${part}`), { reason, author })
      } finally {
        // A refusal may come of what somebody else did meanwhile.
        await refresh()
      }
      if (part !== 'approval') return
      showSaved(site())
      void watchPublishing(site())
    },
  }
}

/** What did not change stays the same object, so that a form on it keeps what was typed and what was said against it. */
const sameWhereAlike = <P extends Kept<Proposal>>(before: readonly P[], after: readonly P[]): readonly P[] =>
  after.map((one) => {
    const held = before.find(({ number }) => number === one.number)
    return held && JSON.stringify(held) === JSON.stringify(one) ? held : one
  })
