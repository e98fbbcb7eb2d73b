import { XMLParser } from 'fast-xml-parser'
import { describe, expect, test } from 'vitest'
import { type AlertFeed, alertFeed } from '../../../api/alerts/alert-feed.ts'
import { raisedCap } from '../../support/cap-alert.ts'
import { capFaults } from '../../support/cap-schema.ts'

const feed: AlertFeed = {
  id: 'https://works.example/api/sites/small-quay/alerts/feed',
  title: 'Alerts at Small Quay',
  author: 'Small Quay',
  self: 'https://works.example/api/sites/small-quay/alerts/feed',
  page: 'https://works.example/?site=small-quay',
  answeredEpochMs: Date.UTC(2027, 9, 22),
  entries: [
    { id: 'urn:example:1', message: raisedCap },
    {
      id: 'urn:example:2',
      message: { ...raisedCap, status: 'Exercise', sentEpochMs: raisedCap.sentEpochMs + 60_000 },
    },
  ],
}
const read = (text: string) =>
  new XMLParser({ ignoreAttributes: false, isArray: (name) => name === 'entry' || name === 'link' }).parse(
    text,
  ).feed

describe('a feed', () => {
  test('has what RFC 4287 asks of a feed (4.1.1) and of each entry (4.1.2)', () => {
    const { id, title, updated, author, link, entry } = read(alertFeed(feed))
    expect([id, title, updated, author.name]).toEqual([
      feed.id,
      feed.title,
      '2027-10-21T03:01:12.345Z',
      'Small Quay',
    ])
    expect(link.map((one: Record<string, string>) => [one['@_rel'], one['@_href']])).toEqual([
      ['self', feed.self],
      ['alternate', feed.page],
    ])
    expect(entry.map((one: { id: string; title: string }) => [one.id, one.title])).toEqual([
      ['urn:example:2', 'EXERCISE: Level 2 passed at PZ-04'],
      ['urn:example:1', 'Level 2 passed at PZ-04'],
    ])
    for (const one of entry) {
      expect(one.author.name).toBe('Small Quay')
      expect(Number.isNaN(Date.parse(one.updated))).toBe(false)
      expect(one.content['@_type']).toBe('application/cap+xml')
      expect(one.link[0]['@_href']).toBe(raisedCap.web)
    }
  })

  test('carries each message whole and valid by the schema of CAP', async () => {
    const messages = [...alertFeed(feed).matchAll(/<content[^>]*>([\s\S]*?)<\/content>/g)].map(
      ([, message = '']) => `<?xml version="1.0" encoding="UTF-8"?>${message.trim()}`,
    )
    expect(messages).toHaveLength(2)
    expect(await capFaults(...messages)).toEqual([])
  })

  test('without entries says when it was asked for', () => {
    const { updated, entry } = read(alertFeed({ ...feed, entries: [] }))
    expect(updated).toBe('2027-10-22T00:00:00.000Z')
    expect(entry).toBeUndefined()
  })
})
