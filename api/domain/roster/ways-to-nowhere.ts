import type { Contact } from '../site/tables.ts'
import { contactWays } from './contact-ways.ts'

/**
 * Ways of the roster by which nothing would arrive, a sentence each: a webhook that is not set up or stands still, an
 * account that there is not or that is disabled. Whether a mail address exists nobody can say from here.
 */
export function waysToNowhere(
  contacts: readonly Contact[],
  webhookNames: ReadonlySet<string>,
  signInNames: ReadonlySet<string>,
): readonly string[] {
  return contacts.flatMap((contact) =>
    contactWays(contact).flatMap(({ kind, to }) => {
      if (kind === 'webhook' && !webhookNames.has(to))
        return [
          `${contact.name}: there is no webhook "${to}" that is sent to. Set it up, or correct the roster.`,
        ]
      if (kind === 'account' && !signInNames.has(to))
        return [
          `${contact.name}: nobody signs in here as "${to}". Invite that person, or correct the roster.`,
        ]
      return []
    }),
  )
}
