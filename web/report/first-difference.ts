/** Where two writings of one report part. */
export interface ReportDifference {
  /** Heading under which the first difference stands; null: before the first. */
  readonly heading: string | null
  /** Caption of the table or figure that it lies in, or the beginning of the paragraph. */
  readonly block: string
  readonly issued: string
  readonly rebuilt: string
}

const excerptLetters = 80

/** The first block of a report's page that another writing of it does not have alike; null: they are the same text. */
export function firstDifference(issued: string, rebuilt: string): ReportDifference | null {
  if (issued === rebuilt) return null
  let at = 0
  while (at < issued.length && at < rebuilt.length && issued[at] === rebuilt[at]) at++
  const before = issued.slice(0, at)
  return {
    heading: lastMatch(before, /<h[1-6][^>]*>([\s\S]*?)<\/h[1-6]>/g),
    block: blockAt(issued, at),
    issued: excerpt(issued, at),
    rebuilt: excerpt(rebuilt, at),
  }
}

/** The block that a place lies in: named by its caption, else by how its words begin. */
function blockAt(html: string, at: number): string {
  const start = Math.max(
    ...['<p', '<figure', '<table', '<li', '<h1', '<h2', '<h3', '<h4', '<dl', '<style', '<div', '<aside'].map(
      (tag) => html.lastIndexOf(tag, at),
    ),
    0,
  )
  const opened = Math.max(html.lastIndexOf('<figure', at), html.lastIndexOf('<table', at))
  const closed = Math.max(html.lastIndexOf('</figure', at), html.lastIndexOf('</table', at))
  const caption =
    opened > closed
      ? /<(?:fig)?caption[^>]*>([\s\S]*?)<\/(?:fig)?caption>/.exec(html.slice(opened))?.[1]
      : undefined
  return caption === undefined ? excerpt(html, start) : plain(caption)
}

function lastMatch(html: string, pattern: RegExp): string | null {
  const found = [...html.matchAll(pattern)].at(-1)?.[1]
  return found === undefined ? null : plain(found)
}

const excerpt = (html: string, at: number): string => {
  const words = plain(html.slice(at, at + 4 * excerptLetters))
  return words.length > excerptLetters ? `${words.slice(0, excerptLetters)}…` : words
}

const plain = (html: string): string =>
  html
    .replaceAll(/<[^>]*>?/g, ' ')
    .replaceAll('&lt;', '<')
    .replaceAll('&gt;', '>')
    .replaceAll('&quot;', '"')
    .replaceAll('&#39;', "'")
    .replaceAll('&amp;', '&')
    .replaceAll(/\s+/g, ' ')
    .trim()
