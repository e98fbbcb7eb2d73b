import ipaddr from 'ipaddr.js'
import { accept, type Issue, type Outcome, reject } from '#domain/outcome.ts'

/** A host that whoever runs the server allowed by name: it may be private or without TLS. */
export interface AllowedHost {
  /** In lower case, without a trailing dot; an address without brackets. */
  readonly host: string
  /** Null: the usual port of the scheme. */
  readonly port: number | null
}

/** Where something may be sent to: what stands in the address, checked; the host is still to be resolved. */
export interface GuardedUrl {
  readonly url: URL
  /** Name or address, without brackets and trailing dot. */
  readonly host: string
  readonly isAllowedByName: boolean
}

/** Resolves a name to all its addresses, as `dns.promises.lookup` does with `all`. */
export type ResolveHost = (host: string) => Promise<readonly { readonly address: string }[]>

/** Longest address that is taken. */
const longestUrl = 2000

/**
 * Reads the hosts allowed by name, as whoever runs the server lists them: names or addresses, each with a port where
 * it is not the usual one.
 */
export function readAllowedHosts(text: string): Outcome<readonly AllowedHost[]> {
  const hosts: AllowedHost[] = []
  const issues: Issue[] = []
  for (const word of text.split(',').flatMap((one) => one.trim() || [])) {
    const url = parseUrl(`https://${word}`)
    const isBare = url !== null && /^[^/?#@\\]+$/.test(word)
    if (!isBare)
      issues.push({
        code: 'host-expected',
        value: word,
        message: `"${word}" is no host. Names or addresses are expected, each with :port where it is not the usual one, separated by commas.`,
      })
    else hosts.push({ host: bareHost(url), port: url.port === '' ? null : Number(url.port) })
  }
  return issues.length > 0 ? reject(...issues) : accept(hosts)
}

/**
 * Judges an address as it was typed: its scheme, port, and an IP address in whatever spelling. A name is judged again
 * when it is resolved, by `judgeResolved`.
 */
export function judgeUrl(text: string, allowed: readonly AllowedHost[]): Outcome<GuardedUrl> {
  const refuse = (code: string, message: string) => reject({ code, column: 'url', message })
  if (text.length > longestUrl)
    return refuse('url-long', `The address has more than ${longestUrl} characters. Give a shorter one.`)
  const url = parseUrl(text)
  if (url === null) return refuse('url-unreadable', 'This is no address. Give one that begins with https://.')
  if (url.protocol !== 'https:' && url.protocol !== 'http:')
    return refuse('url-scheme', `${url.protocol} is not sent to. Give an address that begins with https://.`)
  if (url.username !== '' || url.password !== '')
    return refuse(
      'url-credentials',
      'The address holds a name or password. Leave them out: what is sent is signed, which the receiver can check.',
    )
  const host = bareHost(url)
  const usualPort = url.protocol === 'https:' ? 443 : 80
  const port = url.port === '' ? usualPort : Number(url.port)
  const listed = allowed.filter((one) => one.host === host)
  const isAllowedByName = listed.some((one) => (one.port ?? usualPort) === port)
  if (ipaddr.isValid(host)) {
    const reason = refusedRange(host, isAllowedByName)
    if (reason) return refuse('address-not-public', sentenceAbout(host, host, reason))
  }
  if (port !== usualPort && !isAllowedByName)
    return refuse(
      'url-port',
      `Port ${port} is not sent to. Give an address without a port, or have whoever runs the server list ${host}:${port} in STILLGROUND_WEBHOOK_HOSTS.`,
    )
  if (url.protocol === 'http:' && !isAllowedByName)
    return refuse(
      'url-unencrypted',
      `What is sent over http can be read on its way. Give an address that begins with https://, or have whoever runs the server list ${host} in STILLGROUND_WEBHOOK_HOSTS.`,
    )
  url.hash = ''
  return accept({ url, host, isAllowedByName })
}

/**
 * The addresses of a host that may be connected to. One that may not be refuses the host as a whole: a name with a
 * public and a private address is not sent to by chance.
 */
export async function judgeResolved(
  { host, isAllowedByName }: GuardedUrl,
  resolve: ResolveHost,
): Promise<Outcome<readonly string[]>> {
  const addresses = ipaddr.isValid(host) ? [host] : (await resolve(host)).map(({ address }) => address)
  for (const address of addresses) {
    const reason = refusedRange(address, isAllowedByName)
    if (reason)
      return reject({
        code: 'address-not-public',
        column: 'url',
        message: sentenceAbout(host, address, reason),
      })
  }
  if (addresses.length === 0)
    return reject({ code: 'host-unknown', column: 'url', message: `${host} has no address.` })
  return accept(addresses)
}

/** What a listed host may be besides public. */
const allowedRanges = ['loopback', 'private', 'uniqueLocal', 'carrierGradeNat']

/**
 * From which machines in a cloud are told their own secrets. Addresses that stand outside the link-local range; from
 * memory of the providers' manuals.
 */
const metadataAddresses = ['100.100.100.200', '192.0.0.192', 'fd00:ec2::254', 'fd20:ce::254', '168.63.129.16']

/** Why an address is not connected to; null: it may be. Everything that is not globally reachable unicast is refused. */
function refusedRange(text: string, isAllowedByName: boolean): string | null {
  if (!ipaddr.isValid(text)) return 'no address that can be read'
  const address = ipaddr.parse(text)
  if (metadataAddresses.some((one) => ipaddr.parse(one).toString() === address.toString()))
    return 'an address that tells machines of their cloud'
  const range = address.range()
  if (isAllowedByName && allowedRanges.includes(range)) return null
  if (range !== 'unicast') return rangeWords[range] ?? `in a special range (${range})`
  // Nothing else is handed out (RFC 4291, IANA): what the package has no name for is not public either.
  if (address.kind() === 'ipv6' && !address.match(ipaddr.parse('2000::'), 3)) return 'in no public range'
  return null
}

const rangeWords: Readonly<Record<string, string>> = {
  unspecified: 'no address of a machine',
  broadcast: 'a broadcast address',
  multicast: 'a multicast address',
  linkLocal: 'link-local',
  loopback: 'this very machine',
  private: 'private',
  uniqueLocal: 'private',
  carrierGradeNat: 'private to a provider',
  reserved: 'reserved or for documentation',
  ipv4Mapped: 'an IPv4 address in the form of an IPv6 one',
  rfc6052: 'an IPv4 address behind a translator',
  rfc6145: 'an IPv4 address behind a translator',
}

const sentenceAbout = (host: string, address: string, reason: string): string =>
  `${host === address ? host : `${host} (${address})`} is ${reason}, and nothing was sent. Only public addresses are sent to; whoever runs the server can allow a private host by name in STILLGROUND_WEBHOOK_HOSTS.`

const bareHost = ({ hostname }: URL): string =>
  hostname
    .replace(/^\[(.*)\]$/, '$1')
    .replace(/\.$/, '')
    .toLowerCase()

function parseUrl(text: string): URL | null {
  try {
    return new URL(text)
  } catch {
    return null
  }
}
