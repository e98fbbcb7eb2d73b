import fc from 'fast-check'
import { XMLParser } from 'fast-xml-parser'
import { describe, expect, test } from 'vitest'
import { capInstant } from '../../../api/alerts/cap-instant.ts'
import { type CapAlert, capCaution, capMessage } from '../../../api/alerts/cap-message.ts'
import { raisedCap } from '../../support/cap-alert.ts'
import { capFaults } from '../../support/cap-schema.ts'

const read = (message: string) =>
  new XMLParser({ parseTagValue: false, trimValues: false, processEntities: true }).parse(message).alert
const alert = (changes: Partial<CapAlert> = {}) => capMessage({ ...raisedCap, ...changes })

describe('the schema itself', () => {
  // CAP-v1.2-os, appendix A.1, shortened; from memory.
  const published = `<?xml version="1.0" encoding="UTF-8"?>
<alert xmlns="urn:oasis:names:tc:emergency:cap:1.2">
  <identifier>43b080713727</identifier><sender>hsas@dhs.gov</sender><sent>2003-04-02T14:39:01-05:00</sent>
  <status>Actual</status><msgType>Alert</msgType><scope>Public</scope>
  <info><category>Security</category><event>Homeland Security Advisory System Update</event>
    <urgency>Immediate</urgency><severity>Severe</severity><certainty>Likely</certainty></info>
</alert>`

  test('lets the example of the standard by', async () => expect(await capFaults(published)).toEqual([]))

  test.each([
    ['-05:00', 'Z'],
    ['<status>Actual', '<status>Real'],
    ['<sender>hsas@dhs.gov</sender>', ''],
    ['cap:1.2', 'cap:1.1'],
    ['<category>Security</category>', ''],
    [
      '<urgency>Immediate</urgency><severity>Severe</severity>',
      '<severity>Severe</severity><urgency>Immediate</urgency>',
    ],
  ])('refuses it with %s as "%s"', async (part, other) => {
    expect(published).toContain(part)
    expect(await capFaults(published.replace(part, other))).not.toEqual([])
  })
})

describe('a message', () => {
  test('is valid by the schema in every kind, status, audience and shape', async () => {
    const references = [{ sender: 'alerts@works.example', identifier: 'small-quay.a-17.1', sentEpochMs: 0 }]
    const corner = (latitudeDegrees: number, longitudeDegrees: number) => ({
      latitudeDegrees,
      longitudeDegrees,
    })
    const messages = [
      alert(),
      alert({ status: 'Exercise' }),
      alert({ status: 'Test' }),
      alert({ msgType: 'Update', references, note: 'Acknowledged by Ada Marsh.' }),
      alert({ msgType: 'Cancel', references }),
      alert({ audience: { scope: 'Restricted', restriction: 'For the parties to the works only.' } }),
      alert({ mapping: { urgency: 'Immediate', severity: 'Severe', certainty: 'Observed' } }),
      alert({ action: null, onsetEpochMs: null, web: null, parameters: {} }),
      alert({ area: { description: 'Bay 3', shape: null } }),
      alert({
        area: {
          description: 'Bay 3',
          shape: { ring: [corner(54.3, -1.5), corner(54.3, -1.4), corner(54.4, -1.4)] },
        },
      }),
      ...['UTC', 'Asia/Kolkata', 'America/St_Johns', 'Pacific/Chatham'].map((timeZone) =>
        alert({ timeZone }),
      ),
    ]
    expect(await capFaults(...messages)).toEqual([])
  })

  test('says what it was given', () => {
    expect(read(alert())).toMatchObject({
      identifier: 'small-quay.a-17.1',
      sent: '2027-10-21T04:00:12+01:00',
      status: 'Actual',
      scope: 'Private',
      addresses: '"Control room" ada@works.example',
      info: {
        category: 'Geo',
        urgency: 'Unknown',
        severity: 'Unknown',
        certainty: 'Unknown',
        onset: '2027-10-21T03:55:00+01:00',
        description: 'PZ-04 reads 41.2 kPa; Level 2 is 40 kPa & rising.',
        responseType: 'Execute',
        area: { circle: '54.321,-1.5 0.05' },
        parameter: [
          { valueName: 'point', value: 'PZ-04' },
          { valueName: 'value', value: '41.2' },
          { valueName: 'late', value: 'false' },
        ],
      },
    })
  })

  test('carries the caution whatever the level says, and nothing to be done where nothing is stated', () => {
    expect(read(alert()).info.instruction).toBe(`${raisedCap.action}\n\n${capCaution}`)
    const without = read(alert({ action: null })).info
    expect(without.instruction).toBe(capCaution)
    expect(without).not.toHaveProperty('responseType')
  })

  test('of an exercise says so in status, event and headline', () => {
    const { status, info } = read(alert({ status: 'Exercise' }))
    expect([status, info.event, info.headline]).toEqual([
      'Exercise',
      'EXERCISE: Level 2 passed',
      'EXERCISE: Level 2 passed at PZ-04',
    ])
  })

  test('names the earlier ones as the standard writes them', () => {
    const references = [1, 2].map((number) => ({
      sender: 'alerts@works.example',
      identifier: `small-quay.a-17.${number}`,
      sentEpochMs: Date.UTC(2027, 0, 1, number),
    }))
    expect(read(alert({ msgType: 'Update', references })).references).toBe(
      'alerts@works.example,small-quay.a-17.1,2027-01-01T01:00:00-00:00 alerts@works.example,small-quay.a-17.2,2027-01-01T02:00:00-00:00',
    )
    expect(() => alert({ msgType: 'Update' })).toThrow(/names no earlier message/)
    expect(() => alert({ msgType: 'Cancel' })).toThrow(/names no earlier message/)
  })

  test('draws a ring closed, latitude first', () => {
    const ring = [
      { latitudeDegrees: 54.3, longitudeDegrees: -1.5 },
      { latitudeDegrees: 54.3, longitudeDegrees: 1e-9 },
      { latitudeDegrees: 54.4, longitudeDegrees: -1e-9 },
    ]
    expect(read(alert({ area: { description: 'x', shape: { ring } } })).info.area.polygon).toBe(
      '54.3,-1.5 54.3,0 54.4,0 54.3,-1.5',
    )
    expect(() => alert({ area: { description: 'x', shape: { ring: ring.slice(1) } } })).toThrow(/2 corners/)
  })

  test('has no word that the standard forbids in a name', () => {
    for (const identifier of ['a b', 'a,b', 'a<b', 'a&b', ''])
      expect(() => alert({ identifier }), identifier).toThrow(/cannot stand/)
    expect(() => alert({ audience: { scope: 'Private', addresses: [] } })).toThrow(/lacks a text/)
  })

  test('is valid and says the same whatever people write', async () => {
    const texts = fc.sample(fc.string({ unit: 'binary', minLength: 1, maxLength: 40 }), {
      numRuns: 60,
      seed: 6,
    })
    texts.push(']]>', '<!-- -->', '&amp;', '<alert>', '\u0000', '\ud800', 'a\nb', '"\'')
    const messages = texts.map((description) => alert({ description, headline: description }))
    expect(await capFaults(...messages)).toEqual([])
    messages.forEach((message, i) => {
      const text = texts[i] ?? ''
      const writable = text.replace(/[^\t\n\r\u0020-\uD7FF\uE000-\uFFFD\u{10000}-\u{10FFFF}]/gu, '\uFFFD')
      if (!/\r/.test(text)) expect(String(read(message).info.description)).toBe(writable)
    })
  })
})

describe('instants', () => {
  test.each([
    ['Europe/London', Date.UTC(2027, 9, 31, 0, 59, 59), '2027-10-31T01:59:59+01:00'],
    ['Europe/London', Date.UTC(2027, 9, 31, 1, 0, 0), '2027-10-31T01:00:00-00:00'],
    ['UTC', 0, '1970-01-01T00:00:00-00:00'],
    ['America/St_Johns', Date.UTC(2027, 0, 1), '2026-12-31T20:30:00-03:30'],
    ['Asia/Kathmandu', Date.UTC(2027, 0, 1), '2027-01-01T05:45:00+05:45'],
    ['UTC', 1999, '1970-01-01T00:00:01-00:00'],
  ])('%s', (zone, at, text) => {
    expect(capInstant(at, zone)).toBe(text)
    expect(Date.parse(text.replace('-00:00', 'Z'))).toBe(Math.floor(at / 1000) * 1000)
  })
})
