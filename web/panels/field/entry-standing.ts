import type { KnownEntry } from '../../state/field-work.ts'

/** Where an entry stands, in words. */
export function standingOfEntry({ own, stored }: KnownEntry): string {
  const onServer = stored?.effect?.sentence ?? 'on the server'
  if (own === null) return `from another device; ${onServer}`
  if (own.delivery === 'waiting') return 'waits on this device'
  if (own.delivery === 'delivered') return onServer
  return own.problem ?? 'kept on this device'
}
