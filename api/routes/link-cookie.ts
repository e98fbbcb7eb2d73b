import type { Context } from 'hono'
import { deleteCookie, getCookie, setCookie } from 'hono/cookie'
import type { Connection } from './connection-of.ts'

/** The token of the link by which a device reads, under the same rules as that of a session. */
const overTls = '__Host-stillground-link'
const here = 'stillground-link'

/** Undefined: none, or one that this connection may not carry. */
export function linkToken(context: Context, connection: Connection): string | undefined {
  if (connection.isEncrypted) return getCookie(context, overTls)
  return connection.isLocal ? getCookie(context, here) : undefined
}

/** The server ends a link by itself; the cookie goes at the latest after its whole length. */
export function giveLinkCookie(
  context: Context,
  { isEncrypted }: Connection,
  token: string,
  lastsMs: number,
): void {
  setCookie(context, isEncrypted ? overTls : here, token, {
    ...attributes(isEncrypted),
    maxAge: Math.ceil(lastsMs / 1000),
  })
}

export function takeLinkCookie(context: Context, { isEncrypted }: Connection): void {
  deleteCookie(context, isEncrypted ? overTls : here, attributes(isEncrypted))
}

const attributes = (secure: boolean) => ({ path: '/', httpOnly: true, sameSite: 'Strict' as const, secure })
