import type { AlertKind } from '#domain/alerts/alert-kinds.ts'
import type { SigningScheme } from '#domain/alerts/webhook.ts'

/** Kinds of messages, as a person reads them. */
export const alertKindWords: Readonly<Record<AlertKind, string>> = {
  raised: 'Raised: a level was passed',
  escalated: 'Escalated: nobody took it up in time',
  silence: 'Silence: a channel has no current data',
  closed: 'Closed: somebody closed it, with a reason',
  drill: 'Exercise of the whole way',
}

/** How a receiver checks that a message is from here. */
export const signingWords: Readonly<Record<SigningScheme, string>> = {
  'shared-secret': 'A secret that both know (HMAC-SHA256)',
  'key-pair': 'A key pair; the receiver gets the public half (ed25519)',
}
