import { type IncomingMessage, request as requestHttp } from 'node:http'
import { request as requestHttps } from 'node:https'
import { isIPv6, type LookupFunction } from 'node:net'
import { type AllowedHost, judgeResolved, judgeUrl, type ResolveHost } from './address-guard.ts'

export interface GuardedPost {
  readonly url: string
  readonly headers: Readonly<Record<string, string | number>>
  readonly body: string | Buffer
  readonly timeoutMs: number
  readonly signal: AbortSignal
}

/** The status that a receiver answered with; why nothing was sent; or what became of the connection. */
export type GuardedAnswer =
  | { readonly status: number; readonly askedWaitMs: number | null }
  | { readonly refused: string }
  | { readonly broken: string }

export interface Guard {
  readonly allowedHosts: readonly AllowedHost[]
  readonly resolve: ResolveHost
  readonly now: () => number
}

/**
 * Sends to an address that the guard lets by. The name is resolved here, every address of it judged, and the connection
 * made to one of those very addresses, so that a name cannot change its answer in between. Redirects are answers like
 * any other. Of the answer its head alone counts, and next to nothing of its body is read.
 */
export async function postGuarded(post: GuardedPost, guard: Guard): Promise<GuardedAnswer> {
  const judged = judgeUrl(post.url, guard.allowedHosts)
  if (!judged.ok) return { refused: judged.issues.map(({ message }) => message).join(' ') }
  const { host, url } = judged.value
  const limit = AbortSignal.any([post.signal, AbortSignal.timeout(post.timeoutMs)])
  const why = (failure: unknown) => ({ broken: sentenceOf(failure, host, limit, post) })
  try {
    const addresses = await orAborted(judgeResolved(judged.value, guard.resolve), limit)
    if (!addresses.ok) return { refused: addresses.issues.map(({ message }) => message).join(' ') }
    return await exchange(url, post, addresses.value, limit, guard.now)
  } catch (failure) {
    return why(failure)
  }
}

function exchange(
  url: URL,
  { headers, body }: GuardedPost,
  addresses: readonly string[],
  signal: AbortSignal,
  now: () => number,
): Promise<GuardedAnswer> {
  const lookup: LookupFunction = (_host, options, give) => {
    const all = addresses.map((address) => ({ address, family: isIPv6(address) ? 6 : 4 }))
    const [first] = all
    if (options.all) give(null, all)
    else give(null, first?.address ?? '', first?.family ?? 4)
  }
  const ask = url.protocol === 'https:' ? requestHttps : requestHttp
  return new Promise((resolve, reject) => {
    const sent = ask(url, {
      method: 'POST',
      lookup,
      signal,
      // A connection of its own: one that is kept open would have been checked for another message.
      agent: false,
      maxHeaderSize: 16 * 1024,
      headers: { ...headers, 'content-length': Buffer.byteLength(body) },
    })
    sent.on('response', (answer) => {
      resolve({
        status: answer.statusCode ?? 0,
        askedWaitMs: waitOf(answer.headers['retry-after'], now()),
      })
      readLittle(answer)
    })
    sent.on('error', reject)
    sent.end(body)
  })
}

const mostAnswerBytes = 1024

/** A short answer is read to its end, so that the receiver sees no broken connection; a longer one is broken off. */
function readLittle(answer: IncomingMessage): void {
  let bytes = 0
  answer.on('data', (part: Buffer) => {
    bytes += part.length
    if (bytes > mostAnswerBytes) answer.destroy()
  })
  answer.on('error', () => undefined)
}

/** Milliseconds that a Retry-After (RFC 9110, seconds or a date) asks for; null: none that can be read. */
function waitOf(text: string | undefined, nowEpochMs: number): number | null {
  if (text === undefined) return null
  const ms = /^\d{1,9}$/.test(text.trim()) ? Number(text) * 1000 : Date.parse(text) - nowEpochMs
  return Number.isFinite(ms) ? Math.max(0, ms) : null
}

/** A resolver knows no signal. */
function orAborted<T>(task: Promise<T>, signal: AbortSignal): Promise<T> {
  return new Promise((resolve, reject) => {
    const give = () => reject(signal.reason)
    if (signal.aborted) give()
    signal.addEventListener('abort', give, { once: true })
    task.then(resolve, reject).finally(() => signal.removeEventListener('abort', give))
  })
}

function sentenceOf(failure: unknown, host: string, limit: AbortSignal, post: GuardedPost): string {
  if (post.signal.aborted) return `Stopped before ${host} had answered.`
  if (limit.aborted) return `${host} did not answer within ${Math.round(post.timeoutMs / 1000)} s.`
  const { code, message } = failure as NodeJS.ErrnoException
  const words = code === undefined ? undefined : failureWords[code]
  return words ? `${host}: ${words}.` : `${host}: the connection failed (${code ?? message}).`
}

const failureWords: Readonly<Record<string, string>> = {
  ENOTFOUND: 'there is no such name',
  EAI_AGAIN: 'the name could not be looked up at this moment',
  ECONNREFUSED: 'nothing listens there',
  ECONNRESET: 'the connection was dropped',
  EHOSTUNREACH: 'no way leads there',
  ENETUNREACH: 'no way leads there',
  CERT_HAS_EXPIRED: 'its certificate has expired',
  DEPTH_ZERO_SELF_SIGNED_CERT: 'its certificate is signed by itself',
  SELF_SIGNED_CERT_IN_CHAIN: 'its certificate is signed by nobody known here',
  ERR_TLS_CERT_ALTNAME_INVALID: 'its certificate is for another name',
}
