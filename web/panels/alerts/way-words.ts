import type { AlertWay } from '#domain/alerts/alert-event.ts'

/** How people are told, in words. */
export const wayWords: Readonly<Record<AlertWay, string>> = {
  mail: 'mail',
  webhook: 'webhook',
  push: 'push message',
}
