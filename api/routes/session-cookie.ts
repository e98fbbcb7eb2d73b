import type { Context } from 'hono'
import { deleteCookie, getCookie, setCookie } from 'hono/cookie'
import { longestSessionMs } from '#domain/access/session-standing.ts'
import type { Connection } from './connection-of.ts'

/**
 * The token of a device's session, out of reach of scripts and of other sites. Over TLS the name's prefix has the
 * browser hold it to this host and to TLS; on this machine, where there is none, it has another name, so that
 * neither stands for the other.
 */
const overTls = '__Host-stillground-session'
const here = 'stillground-session'

/** Undefined: none, or one that this connection may not carry. */
export function sessionToken(context: Context, connection: Connection): string | undefined {
  if (connection.isEncrypted) return getCookie(context, overTls)
  return connection.isLocal ? getCookie(context, here) : undefined
}

export function giveSessionCookie(context: Context, { isEncrypted }: Connection, token: string): void {
  setCookie(context, isEncrypted ? overTls : here, token, {
    ...attributes(isEncrypted),
    maxAge: longestSessionMs / 1000,
  })
}

export function takeSessionCookie(context: Context, { isEncrypted }: Connection): void {
  deleteCookie(context, isEncrypted ? overTls : here, attributes(isEncrypted))
}

const attributes = (secure: boolean) => ({ path: '/', httpOnly: true, sameSite: 'Strict' as const, secure })
