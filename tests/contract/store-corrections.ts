import { expect, test } from 'vitest'
import type { CorrectionProposal } from '#domain/corrections/correction-proposal.ts'
import type { Decision } from '#domain/proposals/proposal.ts'
import { smallSite } from './small-site.ts'
import type { StoreUnderTest } from './store.ts'

const site = 'small-quay'
const at = Date.UTC(2027, 9, 21)
const proposal: CorrectionProposal = {
  author: 'Ada Marsh',
  account: 'one',
  reason: 'leads exchanged',
  atEpochMs: at,
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
}
const decision: Decision = {
  kind: 'approved',
  by: 'Ben Holm',
  account: null,
  reason: 'checked',
  atEpochMs: at + 1000,
}
const signature = { author: 'Ben Holm', reason: 'checked', atEpochMs: at + 1000 }

export function correctionContract(subject: StoreUnderTest): void {
  const prepare = () =>
    subject.store.putSite(smallSite(site), { author: 'tester', reason: 'test', atEpochMs: 0 })
  const approve = (number: number, refused = false) =>
    subject.store.approveProposal(
      site,
      'correction',
      number,
      decision,
      (model) => {
        if (refused) throw new Error('not so')
        return { ...model, gateways: [] }
      },
      signature,
    )
  const gateways = async () => (await subject.store.getSite(site))?.gateways.length

  test('proposals come back as they were made, numbered a site', async () => {
    await prepare()
    expect(await subject.store.listProposals(site, 'correction')).toEqual([])
    expect(await subject.store.addProposal(site, 'correction', proposal)).toBe(1)
    expect(await subject.store.addProposal(site, 'correction', { ...proposal, account: null })).toBe(2)
    await subject.reopen()
    expect(await subject.store.listProposals(site, 'correction')).toEqual([
      { ...proposal, number: 1, decision: null },
      { ...proposal, account: null, number: 2, decision: null },
    ])
  })

  test('an approval changes the site and is final', async () => {
    await prepare()
    const number = await subject.store.addProposal(site, 'correction', proposal)
    expect(await approve(number)).toEqual({ changed: 1 })
    await expect(approve(number)).rejects.toMatchObject({ name: 'ProposalDecided' })
    expect(await gateways()).toBe(0)
    expect((await subject.store.listProposals(site, 'correction'))[0]?.decision).toEqual(decision)
  })

  test('of an approval and a withdrawal at once, one happens, and only then what it says', async () => {
    await prepare()
    const number = await subject.store.addProposal(site, 'correction', proposal)
    const both = await Promise.allSettled([
      subject.store.closeProposal(site, 'correction', number, { ...decision, kind: 'withdrawn' }),
      approve(number),
    ])
    expect(both.filter(({ status }) => status === 'fulfilled')).toHaveLength(1)
    const [kept] = await subject.store.listProposals(site, 'correction')
    expect((await gateways()) === 0).toBe(kept?.decision?.kind === 'approved')
  })

  test('where the change is refused, the proposal waits as before', async () => {
    await prepare()
    const number = await subject.store.addProposal(site, 'correction', proposal)
    await expect(approve(number, true)).rejects.toThrow('not so')
    expect((await subject.store.listProposals(site, 'correction'))[0]?.decision).toBeNull()
    await expect(approve(number + 1)).rejects.toMatchObject({ name: 'ProposalDecided' })
    expect(await gateways()).toBe(1)
  })
}
