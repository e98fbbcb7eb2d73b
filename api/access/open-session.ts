import { randomUUID } from 'node:crypto'
import { longestSessionMs } from '#domain/access/session-standing.ts'
import type { Store } from '../store/store.ts'
import { makeSecretToken } from './secret-token.ts'

/** Begins a session of an account on a device and gives its token: the only time that it is known. */
export async function openSession(
  store: Pick<Store, 'addSession'>,
  account: string,
  device: string,
  nowEpochMs: number,
): Promise<string> {
  const { token, sha256 } = makeSecretToken()
  await store.addSession({
    id: randomUUID(),
    sha256,
    account,
    device: device.replaceAll(/\p{C}/gu, ' ').slice(0, 200),
    createdAtEpochMs: nowEpochMs,
    expiresAtEpochMs: nowEpochMs + longestSessionMs,
  })
  return token
}
