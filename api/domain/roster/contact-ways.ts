import type { Contact } from '../site/tables.ts'

/** One way to reach a person: an address, an account whose devices asked for messages, or a webhook by its name. */
export interface Way {
  readonly kind: 'email' | 'account' | 'webhook'
  readonly to: string
}

/** Every way to reach a person, in the order mail, account, webhooks. All of them are used at once. */
export function contactWays(contact: Pick<Contact, 'email' | 'account' | 'webhooks'>): readonly Way[] {
  return [
    ...(contact.email === null ? [] : [{ kind: 'email' as const, to: contact.email }]),
    ...(contact.account === null ? [] : [{ kind: 'account' as const, to: contact.account }]),
    ...webhookNames(contact.webhooks).map((to) => ({ kind: 'webhook' as const, to })),
  ]
}

/**
 * Whether something would arrive by what the roster says alone: mail or a webhook. An account does not count, as nothing
 * says that a device of it asked for messages.
 */
export const isReachable = (contact: Pick<Contact, 'email' | 'account' | 'webhooks'>): boolean =>
  contactWays(contact).some(({ kind }) => kind !== 'account')

export const webhookNames = (webhooks: string | null): readonly string[] =>
  (webhooks ?? '')
    .split(';')
    .map((name) => name.trim())
    .filter((name) => name !== '')

/** A way as one text, by which attempts name it. */
export const wayText = ({ kind, to }: Way): string => `${kind}:${to}`
