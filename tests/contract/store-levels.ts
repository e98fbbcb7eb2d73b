import { expect, test } from 'vitest'
import type { LevelProposal } from '#domain/levels/level-proposal.ts'
import type { Decision } from '#domain/proposals/proposal.ts'
import { levelFor } from '../support/level-for.ts'
import { smallSite } from './small-site.ts'
import type { StoreUnderTest } from './store.ts'

const site = 'small-quay'
const at = Date.UTC(2027, 9, 21)
const { author: _author, approver: _approver, ...level } = levelFor({ id: 'L-1' })
const proposal: LevelProposal = {
  author: 'Ada Marsh',
  account: 'one',
  reason: 'predicted 20 mm',
  atEpochMs: at,
  changes: [{ kind: 'add', level, before: null }],
  warnings: [{ level: 'L-1', severity: 'warning', code: 'x', sentence: 'A doubt.' }],
}
const decision: Decision = {
  kind: 'approved',
  by: 'Ben Holm',
  account: null,
  reason: 'checked',
  atEpochMs: at + 1000,
}
const signature = { author: 'Ben Holm', reason: 'checked', atEpochMs: at + 1000 }

export function levelContract(subject: StoreUnderTest): void {
  const prepare = () =>
    subject.store.putSite(smallSite(site), { author: 'tester', reason: 'test', atEpochMs: 0 })
  const approve = (number: number) =>
    subject.store.approveProposal(
      site,
      'level',
      number,
      decision,
      (model) => ({ ...model, triggerLevels: [...model.triggerLevels, levelFor({ id: 'L-1' })] }),
      signature,
    )

  test('proposals for levels come back as they were made, numbered a site', async () => {
    await prepare()
    expect(await subject.store.listProposals(site, 'level')).toEqual([])
    expect(await subject.store.addProposal(site, 'level', proposal)).toBe(1)
    expect(await subject.store.addProposal(site, 'level', { ...proposal, account: null })).toBe(2)
    await subject.reopen()
    expect(await subject.store.listProposals(site, 'level')).toEqual([
      { ...proposal, number: 1, decision: null },
      { ...proposal, account: null, number: 2, decision: null },
    ])
  })

  test('an approval changes the site and is final', async () => {
    await prepare()
    const number = await subject.store.addProposal(site, 'level', proposal)
    expect(await approve(number)).toEqual({ changed: 1 })
    await expect(approve(number)).rejects.toMatchObject({ name: 'ProposalDecided' })
    await expect(subject.store.closeProposal(site, 'level', number, decision)).rejects.toMatchObject({
      name: 'ProposalDecided',
    })
    const model = await subject.store.getSite(site)
    expect(model?.triggerLevels.filter(({ id }) => id === 'L-1')).toHaveLength(1)
    expect((await subject.store.listProposals(site, 'level'))[0]?.decision).toEqual(decision)
    expect(
      (await subject.store.listVersions(site, 'triggerLevels', 'L-1')).map(({ author }) => author),
    ).toEqual(['Ben Holm'])
  })

  test('of an approval and a rejection at once, one happens, and only then what it says', async () => {
    await prepare()
    const number = await subject.store.addProposal(site, 'level', proposal)
    const both = await Promise.allSettled([
      subject.store.closeProposal(site, 'level', number, { ...decision, kind: 'rejected' }),
      approve(number),
    ])
    expect(both.filter(({ status }) => status === 'fulfilled')).toHaveLength(1)
    const [kept] = await subject.store.listProposals(site, 'level')
    const model = await subject.store.getSite(site)
    expect(model?.triggerLevels.some(({ id }) => id === 'L-1')).toBe(kept?.decision?.kind === 'approved')
  })

  test('where the change is refused, the proposal waits as before', async () => {
    await prepare()
    const number = await subject.store.addProposal(site, 'level', proposal)
    const refused = subject.store.approveProposal(
      site,
      'level',
      number,
      decision,
      () => {
        throw new Error('not so')
      },
      signature,
    )
    await expect(refused).rejects.toThrow('not so')
    expect((await subject.store.listProposals(site, 'level'))[0]?.decision).toBeNull()
    await expect(approve(number + 1)).rejects.toMatchObject({ name: 'ProposalDecided' })
  })
}
