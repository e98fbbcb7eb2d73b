import { describe, expect, test } from 'vitest'
import type { Decision } from '#domain/proposals/proposal.ts'
import { type ProposalsByKind, proposalKinds } from '#domain/proposals/proposal-kinds.ts'
import { levelFor } from '../support/level-for.ts'
import { smallSite } from './small-site.ts'
import type { StoreUnderTest } from './store.ts'

const site = 'small-quay'
const at = Date.UTC(2027, 9, 21)
const made = { author: 'Ada Marsh', account: 'one', reason: 'predicted 20 mm', atEpochMs: at }
const { author: _author, approver: _approver, ...level } = levelFor({ id: 'L-1' })
const proposals: ProposalsByKind = {
  level: {
    ...made,
    changes: [{ kind: 'add', level, before: null }],
    warnings: [{ level: 'L-1', severity: 'warning', code: 'x', sentence: 'A doubt.' }],
  },
  correction: {
    ...made,
    changes: [
      {
        kind: 'wiring',
        series: 'PZ-1A/pore-pressure',
        fromEpochMs: at,
        untilEpochMs: null,
        was: { logger: 'LG-1', channel: '1' },
        reads: { logger: 'LG-1', channel: '2' },
        name: 'wiring',
        replaces: 'channel 1 of LG-1',
        before: 'It reads channel 1 of LG-1.',
        after: 'It reads channel 2 of LG-1.',
      },
    ],
    evidence: { sandbox: '?tab=what-if', effects: [], alsoChanges: ['PZ-1A/level'] },
  },
}
const decision: Decision = {
  kind: 'approved',
  by: 'Ben Holm',
  account: null,
  reason: 'checked',
  atEpochMs: at + 1000,
}
const signature = { author: 'Ben Holm', reason: 'checked', atEpochMs: at + 1000 }

export function proposalContract(subject: StoreUnderTest): void {
  const prepare = () =>
    subject.store.putSite(smallSite(site), { author: 'tester', reason: 'test', atEpochMs: 0 })
  const levels = async () =>
    (await subject.store.getSite(site))?.triggerLevels.filter(({ id }) => id === 'L-1').length

  describe.each(proposalKinds)('proposals of the kind %s', (kind) => {
    const proposal = proposals[kind]
    const approve = (number: number, refused = false, judgedByRevision?: number) =>
      subject.store.approveProposal(
        site,
        kind,
        number,
        decision,
        (model) => {
          if (refused) throw new Error('not so')
          return { ...model, triggerLevels: [...model.triggerLevels, levelFor({ id: 'L-1' })] }
        },
        signature,
        judgedByRevision,
      )

    test('come back as they were made, numbered a site and a kind', async () => {
      await prepare()
      expect(await subject.store.listProposals(site, kind)).toEqual([])
      for (const other of proposalKinds)
        expect(await subject.store.addProposal(site, other, proposals[other])).toBe(1)
      expect(await subject.store.addProposal(site, kind, { ...proposal, account: null })).toBe(2)
      await subject.reopen()
      expect(await subject.store.listProposals(site, kind)).toEqual([
        { ...proposal, number: 1, decision: null },
        { ...proposal, account: null, number: 2, decision: null },
      ])
    })

    test('an approval changes the site and is final', async () => {
      await prepare()
      const number = await subject.store.addProposal(site, kind, proposal)
      expect(await approve(number)).toEqual({ changed: 1 })
      const decided = { name: 'ProposalDecided' }
      await expect(approve(number)).rejects.toMatchObject(decided)
      await expect(subject.store.closeProposal(site, kind, number, decision)).rejects.toMatchObject(decided)
      expect(await levels()).toBe(1)
      expect((await subject.store.listProposals(site, kind))[0]?.decision).toEqual(decision)
      const versions = await subject.store.listVersions(site, 'triggerLevels', 'L-1')
      expect(versions.map(({ author }) => author)).toEqual(['Ben Holm'])
    })

    test.each(['rejected', 'withdrawn'] as const)(
      'of an approval and being %s at once, one happens, and only then what it says',
      async (closed) => {
        await prepare()
        const number = await subject.store.addProposal(site, kind, proposal)
        const both = await Promise.allSettled([
          subject.store.closeProposal(site, kind, number, { ...decision, kind: closed }),
          approve(number),
        ])
        expect(both.filter(({ status }) => status === 'fulfilled')).toHaveLength(1)
        const [kept] = await subject.store.listProposals(site, kind)
        expect((await levels()) === 1).toBe(kept?.decision?.kind === 'approved')
      },
    )

    test('an approval that was judged by an earlier revision changes nothing', async () => {
      await prepare()
      const number = await subject.store.addProposal(site, kind, proposal)
      const judgedBy = await subject.store.revision(site)
      await subject.store.changeSite(
        site,
        (model) => ({ ...model, facts: { ...model.facts, name: 'Another' } }),
        signature,
      )
      await expect(approve(number, false, judgedBy)).rejects.toMatchObject({ name: 'RevisionPassed' })
      expect((await subject.store.listProposals(site, kind))[0]?.decision).toBeNull()
      expect(await levels()).toBe(0)
      expect(await approve(number, false, await subject.store.revision(site))).toEqual({ changed: 1 })
    })

    test('where the change is refused, the proposal waits as before', async () => {
      await prepare()
      const number = await subject.store.addProposal(site, kind, proposal)
      await expect(approve(number, true)).rejects.toThrow('not so')
      expect((await subject.store.listProposals(site, kind))[0]?.decision).toBeNull()
      await expect(approve(number + 1)).rejects.toMatchObject({ name: 'ProposalDecided' })
      expect(await levels()).toBe(0)
    })
  })
}
