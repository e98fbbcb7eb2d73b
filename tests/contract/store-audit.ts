import { expect, test } from 'vitest'
import type { AlertHappening } from '#domain/alerts/alert-event.ts'
import { fitsWhole } from '#domain/audit/verification.ts'
import { attempted, raised } from '../support/alert-events.ts'
import { fieldEntry, note } from '../support/field-entries.ts'
import { batchHead } from './reading-batches.ts'
import { smallSite } from './small-site.ts'
import type { StoreUnderTest } from './store.ts'

const at = Date.UTC(2027, 9, 21)
const site = 'small-quay'
const signature = { author: 'A. Tester', account: 'acc-1', reason: 'first load', atEpochMs: at }

export function auditContract(subject: StoreUnderTest): void {
  const entriesOf = async (kind: string, key?: string, of: string | null = site) =>
    (
      await subject.store.listAudit({
        site: of,
        subjectKind: kind,
        ...(key === undefined ? {} : { subjectKeys: [key] }),
        limit: 100,
      })
    ).toReversed()

  test('every version of a record has its entry: who, when, before, after, why', async () => {
    const model = smallSite()
    await subject.store.putSite(model, signature)
    const stages = model.stages.map((row) =>
      row.id === 'dig-1' ? { ...row, formationLevelMetres: -3 } : row,
    )
    const later = { author: 'B. Other', account: null, reason: 'as built', atEpochMs: at + 5 }
    await subject.store.putSite({ ...model, stages }, later)
    await subject.store.putSite({ ...model, stages: stages.slice(0, 1) }, later)
    await subject.reopen()
    const [made, changed, withdrawn] = await entriesOf('stages', 'dig-1')
    expect(made).toMatchObject({
      site,
      atEpochMs: at,
      account: 'acc-1',
      name: 'A. Tester',
      action: 'made',
      version: 1,
      before: null,
      why: 'first load',
    })
    expect(changed).toMatchObject({
      account: null,
      name: 'B. Other',
      action: 'changed',
      version: 2,
      why: 'as built',
    })
    expect(JSON.parse(changed?.before ?? '')).toMatchObject({ formationLevelMetres: -2 })
    expect(JSON.parse(changed?.after ?? '')).toMatchObject({ formationLevelMetres: -3 })
    expect(withdrawn).toMatchObject({ action: 'withdrawn', version: 3, after: null })
    expect(await entriesOf('stages', 'wall')).toHaveLength(1)
  })

  test('a change that was not made has no entry', async () => {
    await subject.store.putSite(smallSite(), signature)
    const before = (await subject.store.verifyAudit()).entries
    await subject.store.putSite(smallSite(), signature)
    const failing = () => {
      throw new Error('not so')
    }
    await expect(subject.store.changeSite(site, failing, signature)).rejects.toThrow('not so')
    await expect(subject.store.recordAudit([])).resolves.toBeUndefined()
    expect((await subject.store.verifyAudit()).entries).toBe(before)
  })

  test('batches have theirs, taken, refused and replaced', async () => {
    const writer = await subject.store.beginBatch(batchHead(site))
    await writer.commit({ absent: 2 })
    await subject.store.refuseBatch(batchHead(site), 'This is not text.')
    const again = await subject.store.beginBatch(batchHead(site))
    await again.commit({ absent: 0 })
    await subject.store.supersedeBatch(site, 2, 3)
    await subject.store.supersedeBatch(site, 2, 3)
    const entries = await entriesOf('batch')
    expect(entries.map(({ action, subjectKey }) => [action, subjectKey])).toEqual([
      ['taken', '1'],
      ['refused', '2'],
      ['taken', '3'],
      ['replaced', '2'],
    ])
    const { fileName, sha256 } = batchHead(site)
    expect(JSON.parse(entries[0]?.after ?? '')).toMatchObject({ fileName, sha256, absent: 2, accepted: 0 })
    expect(entries[1]?.why).toBe('This is not text.')
  })

  test('field entries have theirs once, however often they come', async () => {
    const entry = fieldEntry(1, note('Rain'), { site })
    await subject.store.addFieldEntries(site, [entry], at, 'A. Sender')
    await subject.store.addFieldEntries(site, [entry], at + 1, 'A. Sender')
    const effect = (sentence: string) => ({ outcome: 'kept' as const, sentence, batch: null })
    await subject.store.recordFieldEffects(site, [{ number: 1, effect: effect('waits') }])
    await subject.store.recordFieldEffects(site, [{ number: 1, effect: effect('is done') }])
    const entries = await entriesOf('field-entry')
    expect(entries.map(({ action, name, subjectKey }) => [action, name, subjectKey])).toEqual([
      ['taken', entry.author, entry.id],
      ['changed', 'this server', entry.id],
      ['changed', 'this server', entry.id],
    ])
    expect(entries[2]?.before).toBe(entries[1]?.after)
    expect(entries[2]?.after).toContain('is done')
    const photo = { sha256: 'f'.repeat(64), bytes: 9, mediaType: 'image/jpeg', receivedAtEpochMs: at }
    await subject.store.recordAttachment(site, photo)
    await subject.store.recordAttachment(site, photo)
    expect(await entriesOf('attachment', photo.sha256)).toHaveLength(1)
  })

  test('accounts, roles and sessions have theirs, without any secret or hash of one', async () => {
    const { store } = subject
    const secrets = ['a', 'd', 'e'].map((letter) => letter.repeat(64))
    const [invitation = '', first = '', second = ''] = secrets
    await store.addInvitation(
      { sha256: invitation, site: '*', role: 'administrator', expiresAtEpochMs: at + 1000 },
      signature,
    )
    const person = { id: 'one', name: 'Ada Marsh', signInName: 'ada', passwordHash: '$argon2id$secret' }
    await store.redeemInvitation(invitation, person, at + 1)
    await store.redeemInvitation(invitation, person, at + 2)
    for (const [id, sha256] of [
      ['s1', first],
      ['s2', second],
    ] as const)
      await store.addSession({
        id,
        sha256,
        account: 'one',
        device: 'a tablet',
        createdAtEpochMs: at + 3,
        expiresAtEpochMs: at + 5000,
      })
    await store.setMembership('one', site, 'field', signature)
    await store.setMembership('one', site, 'field', signature)
    await store.setMembership('one', site, 'engineer', signature)
    await store.setMembership('one', site, null, signature)
    await store.endSession('s1', at + 4)
    await store.endSession('s1', at + 5)
    await store.endSession('s2', at + 6, { account: 'acc-1', name: 'A. Tester' })
    await store.disableAccount('one', at + 7, signature)
    await store.disableAccount('one', null, signature)

    const all = await store.listAudit({ site: null, limit: 100 })
    const told = all.toReversed().filter(({ subjectKind }) => subjectKind !== 'audit')
    expect(told.map(({ subjectKind, action, name }) => `${subjectKind} ${action} ${name}`)).toEqual([
      'invitation made A. Tester',
      'account made Ada Marsh',
      'session signed-in Ada Marsh',
      'session signed-in Ada Marsh',
      'account given A. Tester',
      'account given A. Tester',
      'account withdrawn A. Tester',
      'session ended Ada Marsh',
      'session ended A. Tester',
      'account disabled A. Tester',
      'account enabled A. Tester',
    ])
    expect(told[5]).toMatchObject({
      before: '{"name":"Ada Marsh","role":"field","site":"small-quay"}',
      after: '{"name":"Ada Marsh","role":"engineer","site":"small-quay"}',
    })
    const text = JSON.stringify(all)
    for (const secret of [...secrets, 'argon2id']) expect(text).not.toContain(secret)
    expect(fitsWhole(await store.verifyAudit())).toBe(true)
  })

  test('every event of an alert has its entry, and a step that was refused has none', async () => {
    const event = (alert: number | null, happening: AlertHappening, by: string | null = null) => ({
      alert,
      atEpochMs: at,
      by,
      happening,
    })
    const { store } = subject
    await store.appendAlertEvents(site, [event(null, raised())])
    await store.appendAlertEvents(site, [event(1, attempted('delivered')), event(1, attempted('failed'))])
    await store.appendAlertEvents(site, [event(1, { kind: 'acknowledged', note: 'looking' }, 'Ada Marsh')])
    const late = [event(1, { kind: 'closed', reason: 'no' }, 'Ben Holm')]
    await expect(store.appendAlertEvents(site, late, { alert: 1, number: 1 })).rejects.toThrow()
    const entries = await entriesOf('alert', '1')
    expect(entries.map(({ action, name, why }) => [action, name, why])).toEqual([
      ['raised', 'this server', ''],
      ['delivered', 'this server', ''],
      ['failed', 'this server', ''],
      ['acknowledged', 'Ada Marsh', 'looking'],
    ])
    expect(fitsWhole(await store.verifyAudit())).toBe(true)
  })

  test('passwords, keys, tokens and links have theirs, by whom and without what is secret in them', async () => {
    const { store } = subject
    const sum = (letter: string) => letter.repeat(64)
    const chief = { account: 'acc-1', name: 'A. Tester' }
    await store.addInvitation(
      { sha256: sum('a'), site: '*', role: 'administrator', expiresAtEpochMs: at + 1000 },
      signature,
    )
    await store.redeemInvitation(
      sum('a'),
      { id: 'one', name: 'Ada Marsh', signInName: 'ada', passwordHash: '$argon2id$first' },
      at,
    )
    const made = { site, maker: 'one', createdAtEpochMs: at + 1 }
    await store.addIngestToken({ id: 't-1', sha256: sum('b'), name: 'north cabinet', ...made })
    await store.revokeIngestToken(site, 't-1', at + 2, chief)
    await store.revokeIngestToken(site, 't-1', at + 3, chief)
    await store.addShareLink({ id: 'l-1', sha256: sum('c'), expiresAtEpochMs: at + 900, ...made })
    await store.revokeShareLink(site, 'l-1', at + 4, chief)
    expect(await store.revokeShareLink(site, 'l-2', at + 5, chief)).toBe(false)
    const passkey = {
      id: 'key-id',
      account: 'one',
      name: 'tablet',
      host: 'works.example',
      publicKey: 'cHVibGlj',
    }
    await store.addPasskey({ ...passkey, counter: 0, createdAtEpochMs: at + 6 })
    await store.namePasskey('one', 'key-id', 'the other tablet')
    await store.removePasskey('one', 'key-id')
    await store.removePasskey('one', 'key-id')
    await store.beginSecondFactor('one', 'sealed-secret', at + 7)
    await store.confirmSecondFactor('one', 5, [sum('d')], at + 8)
    await store.useRecoveryCode('one', sum('d'), at + 9)
    await store.useRecoveryCode('one', sum('d'), at + 10)
    await store.removeSecondFactor('one', chief)
    await store.removeSecondFactor('one', chief)
    await store.addPasswordLink({ sha256: sum('e'), account: 'one', expiresAtEpochMs: at + 900 }, chief)
    await store.usePasswordLink(sum('e'), '$argon2id$second', at + 11)
    await store.usePasswordLink(sum('e'), '$argon2id$third', at + 12)
    await store.setPassword('one', '$argon2id$fourth', at + 13, null)

    const told = async (of: string | null) =>
      (await store.listAudit({ site: of, limit: 100 }))
        .toReversed()
        .map(({ subjectKind, action, name }) => `${subjectKind} ${action} ${name}`)
    expect(await told(site)).toEqual([
      'ingest-token made Ada Marsh',
      'ingest-token withdrawn A. Tester',
      'share-link made Ada Marsh',
      'share-link withdrawn A. Tester',
    ])
    expect((await told(null)).slice(3)).toEqual([
      'passkey made Ada Marsh',
      'passkey changed Ada Marsh',
      'passkey withdrawn Ada Marsh',
      'second-factor made Ada Marsh',
      'recovery-code used Ada Marsh',
      'second-factor withdrawn A. Tester',
      'password-link made A. Tester',
      'password changed Ada Marsh',
      'password changed Ada Marsh',
    ])
    const text = JSON.stringify([
      ...(await store.listAudit({ site, limit: 100 })),
      ...(await store.listAudit({ site: null, limit: 100 })),
    ])
    const secrets = ['a', 'b', 'c', 'd', 'e'].map(sum)
    for (const secret of [...secrets, 'argon2id', 'sealed', 'cHVibGlj', 'key-id'])
      expect(text).not.toContain(secret)
    expect(fitsWhole(await store.verifyAudit())).toBe(true)
  })

  test('what others record is listed newest first, a page at a time, and narrowed', async () => {
    const drafts = Array.from({ length: 7 }, (_, i) => ({
      site: i % 2 === 0 ? site : 'other-quay',
      atEpochMs: at + i,
      account: null,
      name: i === 4 ? 'B. Other' : 'A. Tester',
      action: 'acknowledged' as const,
      subjectKind: 'visit',
      subjectKey: `AL-${i}`,
      version: null,
      before: null,
      after: '{"état":"vu, 𝄞"}',
      why: 'seen\n"quoted"',
    }))
    await subject.store.recordAudit(drafts)
    const keys = async (question: object) =>
      (await subject.store.listAudit({ site, limit: 100, ...question })).map(({ subjectKey }) => subjectKey)
    expect(await keys({})).toEqual(['AL-6', 'AL-4', 'AL-2', 'AL-0'])
    const page = await subject.store.listAudit({ site, limit: 2 })
    expect(page.map(({ subjectKey }) => subjectKey)).toEqual(['AL-6', 'AL-4'])
    expect(page[0]).toMatchObject(drafts[6] as object)
    expect(await keys({ before: page[1]?.number })).toEqual(['AL-2', 'AL-0'])
    expect(await keys({ name: 'B. Other' })).toEqual(['AL-4'])
    expect(await keys({ subjectKind: 'visit', subjectKeys: ['AL-2', 'AL-0', 'AL-1'] })).toEqual([
      'AL-2',
      'AL-0',
    ])
    expect(await subject.store.listAuditChoices(site)).toEqual({
      kinds: ['visit'],
      names: ['A. Tester', 'B. Other'],
    })
    expect(await keys({ subjectKind: 'level' })).toEqual([])
    await subject.reopen()
    const verification = await subject.store.verifyAudit()
    expect(verification).toMatchObject({ firstBreak: null, recordFaults: [], notices: [] })
    expect(verification.head.number).toBe(verification.entries)
  })

  test('changes made at the same time stand one after the other, without a gap', async () => {
    const { store } = subject
    await store.putSite(smallSite(), signature)
    const stage = (id: string) => ({
      id,
      name: id,
      startsAt: at,
      endsAt: null,
      formationLevelMetres: null,
    })
    await Promise.all(
      Array.from({ length: 12 }, (_, i) =>
        i % 4 === 3
          ? store.refuseBatch(batchHead(site), 'no')
          : store.addRows(site, { stages: [stage(`s-${i}`)] }, signature),
      ),
    )
    const verification = await store.verifyAudit()
    expect(fitsWhole(verification)).toBe(true)
    const numbers = (await store.listAudit({ site, limit: 1000 })).map(({ number }) => number)
    expect(numbers.length).toBeGreaterThan(12)
    expect(new Set(numbers).size).toBe(numbers.length)
  })
}
