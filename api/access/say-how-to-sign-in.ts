import { everySite } from '#domain/access/membership.ts'
import { onlyHere, type Settings } from '../settings.ts'
import type { Access } from './create-access.ts'
import { prepareHashing } from './password-hash.ts'

const firstLinkLastsMs = 24 * 3_600_000

interface Saying {
  readonly access: Access
  readonly settings: Settings
  readonly address: string
  readonly say: (line: string) => void
}

/**
 * At the start: where nobody has an account and the server is not open for changes, and where it is asked for, a link
 * that makes an administrator of every site, once and within a day. It is printed and kept nowhere but as a hash.
 */
export async function sayHowToSignIn({ access, settings, address, say }: Saying): Promise<void> {
  const hasAccounts = await access.hasAccounts()
  const isHere = onlyHere(settings)
  if (hasAccounts || !settings.openForChanges) void prepareHashing()
  if (!hasAccounts && !isHere)
    say('Other devices reach this server and nobody has an account yet: it shows nothing until someone has.')
  if (!hasAccounts && isHere && !settings.openForChanges)
    say(
      'Nobody has an account yet: the page on this machine reads everything and changes nothing. To try changes without an account, start with --open-for-changes.',
    )
  if (settings.administratorLink || (!hasAccounts && !settings.openForChanges)) {
    const { token } = await access.invite({ site: everySite, role: 'administrator' }, firstLinkLastsMs)
    say(
      `This link makes an administrator, once and within 24 hours: ${pageAddress(settings, address)}${invitationPath(token)}`,
    )
  }
  if (!isHere && !settings.behindTls)
    say(
      'People sign in on this machine only, until a proxy that speaks TLS stands in front and STILLGROUND_BEHIND_TLS=yes says so.',
    )
}

/** The fragment never leaves the browser, so no log on the way has it. */
export const invitationPath = (token: string): string => `/#invitation=${token}`

/** Where a person who reads the terminal can open the page and sign in. */
function pageAddress({ behindTls, names, host, port }: Settings, address: string): string {
  const [name] = names
  if (behindTls && name !== undefined) return `https://${name}`
  const everyAddress = host === '0.0.0.0' || host === '::'
  return everyAddress ? `http://127.0.0.1:${port === 0 ? new URL(address).port : port}` : address
}
