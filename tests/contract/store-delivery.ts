import { expect, test } from 'vitest'
import { smallSite } from './small-site.ts'
import type { StoreUnderTest } from './store.ts'

const at = Date.UTC(2027, 9, 21)
const relay = {
  site: 'small-quay',
  id: 'w1',
  name: 'Control room',
  url: 'https://receiver.example/hook?key=1',
  kinds: ['raised', 'silence'] as const,
}
const ada = (after = 0, reason = '') => ({
  author: 'Ada Marsh',
  account: 'ada',
  reason,
  atEpochMs: at + after,
})

const signature = { author: 'tester', reason: 'test', atEpochMs: 0 }

export function deliveryContract(subject: StoreUnderTest): void {
  const withSite = async () => {
    await subject.store.putSite(smallSite('small-quay'), { author: 'tester', reason: 'test', atEpochMs: 0 })
    await subject.store.putSite(smallSite('other-quay'), { author: 'tester', reason: 'test', atEpochMs: 0 })
  }
  const account = async (id: string, letter: string) => {
    const sha256 = letter.repeat(64)
    await subject.store.addInvitation(
      { sha256, site: '*', role: 'field', expiresAtEpochMs: at + 1000 },
      signature,
    )
    await subject.store.redeemInvitation(
      sha256,
      { id, name: `Person ${id}`, signInName: id, passwordHash: 'x' },
      at,
    )
    await subject.store.addSession({
      id: `session-${id}`,
      sha256,
      account: id,
      device: 'a tablet',
      createdAtEpochMs: at,
      expiresAtEpochMs: at + 5000,
    })
  }
  const device = (id: string, of: string, endpoint: string, madeAtEpochMs = at) => ({
    id,
    account: of,
    session: `session-${of}`,
    device: 'a tablet',
    endpoint,
    p256dh: 'key',
    auth: 'word',
    madeAtEpochMs,
  })

  test('a webhook is kept with its secret, at its own site', async () => {
    await withSite()
    await subject.store.addWebhook(relay, 'sealed one', ada())
    await subject.reopen()
    const webhook = {
      ...relay,
      madeBy: 'Ada Marsh',
      madeAtEpochMs: at,
      disabledAtEpochMs: null,
      disabledWhy: null,
    }
    expect(await subject.store.listWebhooks('small-quay')).toEqual([webhook])
    expect(await subject.store.findWebhook('small-quay', 'w1')).toEqual({
      webhook,
      secrets: [{ sealed: 'sealed one', madeAtEpochMs: at, endsAtEpochMs: null }],
    })
    expect(await subject.store.listWebhooks('other-quay')).toEqual([])
    expect(await subject.store.findWebhook('other-quay', 'w1')).toBeNull()
    expect(await subject.store.findWebhook('no-quay', 'w1')).toBeNull()
  })

  test('a replaced secret holds until its end, and is forgotten by the next replacement after it', async () => {
    await withSite()
    await subject.store.addWebhook(relay, 'one', ada())
    const replace = (sealed: string, after: number) =>
      subject.store.replaceWebhookSecret(
        'small-quay',
        'w1',
        { sealed, earlierEndsAtEpochMs: at + after + 100 },
        ada(after),
      )
    const secrets = async () =>
      (await subject.store.findWebhook('small-quay', 'w1'))?.secrets.map(({ sealed, endsAtEpochMs }) => [
        sealed,
        endsAtEpochMs === null ? null : endsAtEpochMs - at,
      ])
    await replace('two', 10)
    expect(await secrets()).toEqual([
      ['two', null],
      ['one', 110],
    ])
    await replace('three', 20)
    expect(await secrets()).toEqual([
      ['three', null],
      ['two', 120],
      ['one', 110],
    ])
    await replace('four', 110)
    expect(await secrets()).toEqual([
      ['four', null],
      ['three', 210],
      ['two', 120],
    ])
  })

  test('a webhook is disabled with its reason, enabled, and removed with its secrets', async () => {
    await withSite()
    await subject.store.addWebhook(relay, 'one', ada())
    await subject.store.standWebhook('small-quay', 'w1', true, ada(5, 'Gone.'))
    await subject.reopen()
    expect((await subject.store.listWebhooks('small-quay'))[0]).toMatchObject({
      disabledAtEpochMs: at + 5,
      disabledWhy: 'Gone.',
    })
    await subject.store.standWebhook('small-quay', 'w1', false, ada(6))
    expect((await subject.store.listWebhooks('small-quay'))[0]).toMatchObject({
      disabledAtEpochMs: null,
      disabledWhy: null,
    })
    await subject.store.removeWebhook('small-quay', 'w1', ada(6))
    expect(await subject.store.listWebhooks('small-quay')).toEqual([])
    expect(await subject.store.findWebhook('small-quay', 'w1')).toBeNull()
    const late = { sealed: 'late', earlierEndsAtEpochMs: at + 8 }
    expect(await subject.store.replaceWebhookSecret('small-quay', 'w1', late, ada(7))).toBe(false)
    expect(await subject.store.standWebhook('small-quay', 'w1', false, ada(7))).toBe(false)
    expect(await subject.store.removeWebhook('small-quay', 'w1', ada(7))).toBe(false)
    expect(await subject.store.findWebhook('small-quay', 'w1')).toBeNull()
  })

  test('a device is told for whoever subscribed on it last, until it is removed', async () => {
    await account('ada', 'a')
    await account('ben', 'b')
    await subject.store.putPushSubscription(device('p1', 'ada', 'https://push.example/1'), 'Somebody')
    await subject.store.putPushSubscription(device('p2', 'ada', 'https://push.example/2', at + 1), 'Somebody')
    await subject.store.putPushSubscription(device('p3', 'ben', 'https://push.example/1', at + 2), 'Somebody')
    await subject.reopen()
    const of = async (person: string) =>
      (await subject.store.listPushSubscriptions(person)).map(({ id }) => id)
    expect(await of('ada')).toEqual(['p2'])
    expect(await subject.store.listPushSubscriptions('ben')).toEqual([
      device('p3', 'ben', 'https://push.example/1', at + 2),
    ])
    expect(await subject.store.removePushSubscription('ada', 'p3', ada())).toBe(false)
    expect(await of('ben')).toEqual(['p3'])
    expect(await subject.store.removePushSubscription('ben', 'p3', ada())).toBe(true)
    expect(await of('ben')).toEqual([])
  })

  test('a device is told no more once its session was ended or its account disabled', async () => {
    await account('ada', 'a')
    await account('ben', 'b')
    await subject.store.putPushSubscription(device('p1', 'ada', 'https://push.example/1'), 'Somebody')
    await subject.store.putPushSubscription(device('p2', 'ben', 'https://push.example/2'), 'Somebody')
    await subject.store.endSession('session-ada', at + 1, { account: 'ada', name: 'Person ada' })
    await subject.store.disableAccount('ben', at + 1, signature)
    expect(await subject.store.listPushSubscriptions('ada')).toEqual([])
    expect(await subject.store.listPushSubscriptions('ben')).toEqual([])
  })

  test('what became of webhooks and devices stands in the audit record, without addresses and secrets', async () => {
    await withSite()
    await account('ada', 'a')
    await subject.store.addWebhook(relay, 'sealed one', ada())
    await subject.store.replaceWebhookSecret(
      'small-quay',
      'w1',
      { sealed: 'sealed two', earlierEndsAtEpochMs: at + 9 },
      ada(1),
    )
    await subject.store.standWebhook('small-quay', 'w1', true, ada(2, 'Being moved.'))
    await subject.store.standWebhook('small-quay', 'w1', false, ada(3))
    await subject.store.removeWebhook('small-quay', 'w1', ada(4))
    await subject.store.putPushSubscription(device('p1', 'ada', 'https://push.example/1'), 'Person ada')
    await subject.store.putPushSubscription(device('p2', 'ada', 'https://push.example/1'), 'Person ada')
    await subject.store.removePushSubscription('ada', 'p2', ada(5))
    const entries = [
      ...(await subject.store.listAudit({ site: 'small-quay', limit: 100 })),
      ...(await subject.store.listAudit({ site: null, limit: 100 })),
    ]
    const of = (kind: string) =>
      entries
        .filter(({ subjectKind }) => subjectKind === kind)
        .toSorted((left, right) => left.number - right.number)
        .map(({ action, why }) => (why === '' ? action : `${action}: ${why}`))
    expect(of('webhook')).toEqual(['made', 'replaced', 'disabled: Being moved.', 'enabled', 'withdrawn'])
    expect(of('push-device')).toEqual(['made', 'withdrawn'])
    expect(JSON.stringify(entries)).not.toMatch(/sealed (one|two)|key=1|push\.example/)
    expect((await subject.store.verifyAudit()).firstBreak).toBeNull()
  })
}
