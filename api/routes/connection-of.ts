import { isIP } from 'node:net'
import type { Context } from 'hono'

/** How a request reached the server. */
export interface Connection {
  /** Of whoever asked; of the proxy where none is believed. */
  readonly address: string
  /** Encrypted on its way, as the proxy says that one believes. */
  readonly isEncrypted: boolean
  /** From this very machine, without a proxy between. */
  readonly isLocal: boolean
}

const loopbackNames = ['localhost', '127.0.0.1', '[::1]']
const loopbackAddresses = ['127.0.0.1', '::1', '::ffff:127.0.0.1']
const forwardingHeaders = ['forwarded', 'x-forwarded-for', 'x-forwarded-proto', 'x-forwarded-host', 'via']

/** What a proxy says is believed only where a setting tells that one stands in front: anybody can say it. */
export function connectionOf(context: Context, behindTls: boolean): Connection {
  const incoming = (context.env as Incoming | undefined)?.incoming
  const peer = incoming?.socket?.remoteAddress
  const isForwarded = forwardingHeaders.some((name) => context.req.header(name) !== undefined)
  const isEncrypted = behindTls && lastOf(context.req.header('x-forwarded-proto')) === 'https'
  return {
    address: (behindTls && addressIn(lastOf(context.req.header('x-forwarded-for')))) || peer || 'unknown',
    isEncrypted,
    isLocal: !isForwarded && isHere(context, peer),
  }
}

/** The proxy next to us wrote the last one; those before are hearsay. */
const lastOf = (header: string | undefined): string | undefined => header?.split(',').at(-1)?.trim()

/** Only an address: what is taken for one is counted by and stands in the report. */
const addressIn = (text: string | undefined): string | undefined =>
  text !== undefined && isIP(text) ? text : undefined

interface Incoming {
  readonly incoming?: { readonly socket?: { readonly remoteAddress?: string } }
}

/** Asked for by a loopback name, and from a loopback address where there is a socket at all. */
function isHere(context: Context, peer: string | undefined): boolean {
  const host = context.req.header('host') ?? new URL(context.req.url).host
  const name = host.replace(/:\d+$/, '').toLowerCase()
  return loopbackNames.includes(name) && (peer === undefined || loopbackAddresses.includes(peer))
}

/** Whether the browser says that a page of this very server asked. What no browser sent is not from a page. */
export function isFromOwnPage(context: Context): boolean {
  const site = context.req.header('sec-fetch-site')
  if (site !== undefined) return site === 'same-origin'
  const origin = context.req.header('origin')
  if (origin === undefined || !URL.canParse(origin)) return false
  return new URL(origin).host === (context.req.header('host') ?? new URL(context.req.url).host)
}
