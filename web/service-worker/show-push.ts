/** What is shown of a push, and the address in the page to which it leads. */
export interface ShownPush {
  readonly title: string
  readonly body: string
  /** Of this very server, from its root. */
  readonly path: string
  /** A later push about the same takes the place of the earlier one. */
  readonly tag: string
  readonly atEpochMs: number
}

/**
 * Reads what came. What cannot be read is shown as such: a browser counts a push that shows nothing against the page, and a
 * person is to look rather than hear nothing.
 */
export function readPush(text: string | undefined, origin: string, nowEpochMs: number): ShownPush {
  const said = parsed(text)
  const word = (name: string) => (typeof said[name] === 'string' ? (said[name] as string) : '')
  return {
    title: word('title') || 'Something is to be looked at',
    body: word('body') || 'What was sent could not be read. Open the page.',
    path: ownPath(word('path'), origin),
    tag: word('tag') || 'unread',
    atEpochMs: typeof said.atEpochMs === 'number' ? said.atEpochMs : nowEpochMs,
  }
}

/** An address of this very server; its front page in place of any other. */
export function ownPath(path: string, origin: string): string {
  if (!URL.canParse(path, origin)) return '/'
  const url = new URL(path, origin)
  return url.origin === origin ? url.pathname + url.search + url.hash : '/'
}

function parsed(text: string | undefined): Readonly<Record<string, unknown>> {
  try {
    const content: unknown = JSON.parse(text ?? '')
    return typeof content === 'object' && content !== null ? (content as Record<string, unknown>) : {}
  } catch {
    return {}
  }
}
