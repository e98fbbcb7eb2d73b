import type { AddressInfo } from 'node:net'
import { join } from 'node:path'
import { SMTPServer } from 'smtp-server'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import type { SiteEvent } from '#contract/alerts.ts'
import type { Alerts } from '../../../api/alerts/alerts.ts'
import { createAlerts } from '../../../api/alerts/create-alerts.ts'
import { readMailSettings } from '../../../api/alerts/delivery/mail-settings.ts'
import { createEvaluator } from '../../../api/alerts/evaluator.ts'
import { levelFor } from '../../support/level-for.ts'
import { localDelivery } from '../../support/local-delivery.ts'
import { rosterSite } from '../../support/open-alerts.ts'
import { type OpenWatched, openWatched, type WatchedSite } from '../../support/open-watched.ts'
import { quarter, watchedFrom, watchedSite } from '../../support/watched-site.ts'

let nowEpochMs = watchedFrom + quarter
const now = () => nowEpochMs
const mails: string[] = []
const server = new SMTPServer({
  authOptional: true,
  disabledCommands: ['STARTTLS'],
  disableReverseLookup: true,
  onData(stream, _session, done) {
    const parts: Buffer[] = []
    stream.on('data', (part: Buffer) => parts.push(part))
    stream.on('end', () => {
      // A soft line break ends in an equals sign (RFC 2045, 6.7).
      mails.push(Buffer.concat(parts).toString('utf8').replaceAll('=\r\n', '').replaceAll('=3D', '='))
      done()
    })
  },
})

let opened: OpenWatched
let watched: WatchedSite
let alerts: Alerts
const heard: SiteEvent[] = []
beforeAll(async () => {
  await new Promise<void>((done) => server.listen(0, '127.0.0.1', done))
  const { port } = server.server.address() as AddressInfo
  const mail = readMailSettings({
    STILLGROUND_SMTP_URL: `smtp://127.0.0.1:${port}`,
    STILLGROUND_MAIL_FROM: 'Works <alerts@works.example>',
  })
  if (!mail.ok) throw new Error('mail settings')
  opened = await openWatched(now)
  const { contacts, dutyShifts, escalations } = rosterSite()
  watched = await opened.watch(
    watchedSite({
      contacts,
      dutyShifts,
      escalations,
      triggerLevels: [
        levelFor({ id: 'SP 1', series: 'SP-1/settlement', value: 5, owner: 'Monitoring engineer' }),
        levelFor({
          id: 'SP silent',
          series: 'SP-1/settlement',
          watches: 'silence',
          value: 60,
          validFrom: watchedFrom,
          owner: 'Monitoring engineer',
        }),
      ],
    }),
  )
  const delivery = localDelivery('', { mail: mail.value })(opened.store, now)
  alerts = createAlerts({
    store: opened.store,
    evaluation: (onRecorded) =>
      createEvaluator({
        store: opened.store,
        folder: join(opened.folder, 'levels'),
        now,
        gatherMs: 0,
        onEvents: onRecorded,
        onFailure: (_site, failure) => {
          throw failure
        },
      }),
    ways: delivery.ways,
    waysSetUp: ['mail'],
    now,
    random: () => 0.5,
    report: (line) => {
      throw new Error(line)
    },
  })
  alerts.listen(watched.site, (event) => heard.push(event))
})
afterAll(async () => {
  await alerts.close()
  await opened.close()
  await new Promise<void>((done) => server.close(() => done()))
})

const take = (atEpochMs: number, value: number) =>
  watched.take([{ atEpochMs, receivedAtEpochMs: nowEpochMs, values: { 'LG-02/2': value } }])

describe('from a reading to a person', () => {
  it('a reading beyond a level is in the mail of whoever is on, and pages hear of it', async () => {
    await take(watchedFrom, 4)
    await alerts.arrived(watched.site)
    await alerts.settled()
    expect(mails).toEqual([])

    await take(nowEpochMs, 6.25)
    await alerts.arrived(watched.site)
    await alerts.settled()
    expect(mails).toHaveLength(1)
    expect(mails[0]).toMatch(/^To: Ada Marsh <ada@example\.invalid>/m)
    expect(mails[0]).toMatch(/Subject: Level 1 at SP-1\/settlement: 6\.25 mm/)
    expect(mails[0]).toMatch(/Level: Level 1, 5 mm or more \(SP 1\)/)
    expect(mails[0]).toMatch(/0 of 1 watched channels have no current data/)
    expect(mails[0]).toContain(`https://works.example/?site=${watched.site}&sheet=alerts&alert=1`)
    expect(heard[0]).toMatchObject({ kind: 'alerts', raised: [1] })
    const document = await alerts.document(watched.site, true)
    expect(document?.alerts[0]).toMatchObject({ state: 'delivered', series: 'SP-1/settlement' })
    expect(document?.evaluation).toMatchObject({ behind: false, failure: null })
  })

  it('silence is told too, after the minutes that it may last', async () => {
    nowEpochMs += 61 * 60_000
    await alerts.tick()
    await alerts.settled()
    // The same tick repeats what nobody has taken up, so this comes after the half minute in which messages gather.
    nowEpochMs += 30_000
    await alerts.tick()
    await alerts.settled()
    const last = mails.findLast((mail) => mail.includes('SP silent'))
    expect(last).toMatch(/no current data for more than 60 min/)
    expect(last).toMatch(/1 of 1 watched channels has no current data/)
  })

  it('a reading that comes again raises nothing again', async () => {
    const told = mails.length
    const raised = (await alerts.alerts(watched.site)).length
    await take(watchedFrom + quarter, 6.25)
    await alerts.arrived(watched.site)
    await alerts.settled()
    expect((await alerts.alerts(watched.site)).length).toBe(raised)
    expect(mails.length).toBe(told)
  })
})
