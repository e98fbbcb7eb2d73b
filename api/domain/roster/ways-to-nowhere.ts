import type { Contact } from '../site/tables.ts'
import { contactWays } from './contact-ways.ts'

/**
 * Ways of the roster by which nothing would arrive, a sentence each: a webhook that is not set up or stands still, an
 * account that there is not, that is disabled or has no role at the site. Whether a mail address exists nobody can say from here.
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
          `${contact.name}: nobody with a role at this site signs in as "${to}". Give that person one, or correct the roster.`,
        ]
      return []
    }),
  )
}
