import { isIP } from 'node:net'
import type { Context } from 'hono'
import type { PasskeyPlace } from '../access/passkeys.ts'
import type { Connection } from './connection-of.ts'

/**
 * For which host passkeys work at the address by which the page was opened, or why none do there. The host is one of
 * this server's names: others were refused before.
 */
export function passkeyPlaceOf(
  context: Context,
  { isEncrypted, isLocal }: Connection,
): { readonly place: PasskeyPlace } | { readonly hindrance: string } {
  const address = (context.req.header('host') ?? new URL(context.req.url).host).toLowerCase()
  const { hostname: host, port } = new URL(`http://${address}`)
  if (isIP(host.replaceAll(/[[\]]/g, '')))
    return {
      hindrance: isLocal
        ? `Passkeys belong to a name, and ${host} is an address. Open the page as http://localhost${port && `:${port}`} instead.`
        : `Passkeys belong to a name, and ${host} is an address. Give the server a name (STILLGROUND_NAMES) and open the page by it.`,
    }
  if (isEncrypted) return { place: { host, origin: `https://${address}` } }
  if (isLocal) return { place: { host, origin: `http://${address}` } }
  return { hindrance: 'Passkeys work over TLS only. Open the page by https.' }
}
