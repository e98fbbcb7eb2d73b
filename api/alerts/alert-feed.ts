import { type CapAlert, capElement } from './cap-message.ts'
import { toXmlDocument } from './xml-document.ts'

/** What a feed of a site's alerts says of itself. */
export interface AlertFeed {
  /** An IRI that never changes, for example the feed's own address. */
  readonly id: string
  readonly title: string
  /** Who answers for it. */
  readonly author: string
  /** Address of the feed itself, and of the page it belongs to. */
  readonly self: string
  readonly page: string
  /** When the server answered: an empty feed has no entry to take an hour from. */
  readonly answeredEpochMs: number
  /** One for each message, in any order. */
  readonly entries: readonly AlertFeedEntry[]
}

export interface AlertFeedEntry {
  /** An IRI that never changes, another for each message. */
  readonly id: string
  readonly message: CapAlert
}

/** An Atom feed (RFC 4287) of CAP messages, each whole in its entry, newest first. */
export function alertFeed({ id, title, author, self, page, answeredEpochMs, entries }: AlertFeed): string {
  const newestFirst = entries.toSorted((left, right) => right.message.sentEpochMs - left.message.sentEpochMs)
  return toXmlDocument({
    feed: {
      '@_xmlns': 'http://www.w3.org/2005/Atom',
      id,
      title,
      author: { name: author },
      updated: new Date(newestFirst[0]?.message.sentEpochMs ?? answeredEpochMs).toISOString(),
      link: [
        { '@_rel': 'self', '@_type': 'application/atom+xml', '@_href': self },
        { '@_rel': 'alternate', '@_type': 'text/html', '@_href': page },
      ],
      entry: newestFirst.map(({ id: entry, message }) => {
        const element = capElement(message)
        const info = element.info as { readonly headline: string }
        return {
          id: entry,
          title: info.headline,
          updated: new Date(message.sentEpochMs).toISOString(),
          author: { name: message.senderName },
          ...(message.web !== null && {
            link: { '@_rel': 'alternate', '@_type': 'text/html', '@_href': message.web },
          }),
          category: { '@_term': message.status },
          content: { '@_type': 'application/cap+xml', alert: element },
        }
      }),
    },
  })
}
