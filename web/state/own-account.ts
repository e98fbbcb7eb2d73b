import { createSignal, onCleanup } from 'solid-js'
import type { Me } from '#contract/access.ts'
import { mayAt } from '#domain/access/membership.ts'
import type { Action } from '#domain/access/permissions.ts'
import { askServer, changeServer, sendServer } from './ask-server.ts'
import { forgetName, keepName } from './kept-name.ts'
import { reportTrouble } from './notices.ts'

const [me, setMe] = createSignal<Me | null>(null)
const [invitation, setInvitation] = createSignal<string | null>(null)
const [passwordLink, setPasswordLink] = createSignal<string | null>(null)
const [openingLink, setOpeningLink] = createSignal(false)
const [asked, setAsked] = createSignal<'by-itself' | 'by-person' | 'put-aside'>('by-itself')

export {
  /** Token of the invitation by which the page was opened; null: it was opened as always. */
  invitation,
  /** What the server last said of who asks; null: not answered yet. */
  me,
  /** Token of the link for another password by which the page was opened; null: by none. */
  passwordLink,
}

/** Name of whoever is signed in; null: nobody, or the server has not been reached. */
export const signedInName = (): string | null => me()?.person?.name ?? null

/** Whether the page is to ask for a name and password, or for those of a new account. */
export const accessWanted = (): boolean => {
  const known = me()
  if (invitation() !== null || passwordLink() !== null) return true
  if (known === null || known.person !== null || isOpenWithoutAccount(known) || openingLink()) return false
  // Whoever reads by a link need not sign in, and may.
  return known.link ? asked() === 'by-person' : asked() !== 'put-aside'
}

const isOpenWithoutAccount = ({ accounts }: Me): boolean =>
  accounts === 'not-needed' || accounts === 'to-change'

/** Whether whoever is signed in administers some site. */
export const isAdministrator = (): boolean => {
  const memberships = me()?.person?.memberships ?? []
  return memberships.some(({ site }) => mayAt(memberships, site, 'administer'))
}

/** Whether whoever asks may do something at a site, as far as is known here; the server decides. */
export const mayHere = (site: string, action: Action): boolean => {
  const known = me()
  if (known === null || known.accounts === 'not-needed') return true
  // Whoever is on the server's own machine reads without an account.
  const isReading = action === 'read-approved' || action === 'read-all'
  return (known.accounts === 'to-change' && isReading) || mayAt(known.person?.memberships ?? [], site, action)
}

/** Works on with what is on the screen, until one asks to sign in or the page is loaded anew. */
export const putAccessAside = (): void => void setAsked('put-aside')
export const askForAccess = (): void => void setAsked('by-person')

/** Whether one may sign in here and has not. */
export const maySignIn = (): boolean => me()?.accounts === 'needed' && me()?.person === null

/** Whether nobody is signed in where one has to be. */
export const isSignedOut = (): boolean => maySignIn() && me()?.link === null

/** Finds out who one is at the server, and again when it refuses for want of a session. */
export function knowOwnAccount(): void {
  takeSecret()
  const ask = () => {
    // Without a network nobody can sign in, and what the device keeps is shown without.
    askServer<Me>('/api/me').then(
      (known) => {
        setMe(known)
        if (known.person) keepName(known.person.name)
      },
      () => undefined,
    )
  }
  const missed = () => {
    if (me() === null || me()?.person) ask()
  }
  ask()
  addEventListener('sign-in-needed', missed)
  // A link that is opened where the page is open already loads nothing.
  addEventListener('hashchange', takeSecret)
  onCleanup(() => {
    removeEventListener('sign-in-needed', missed)
    removeEventListener('hashchange', takeSecret)
  })
}

/** Out of the address at once: it is a secret, and the address is shown, kept and shared. */
function takeSecret(): void {
  const [, kind, token] = /^#(invitation|password|link)=([\w-]{20,200})$/.exec(location.hash) ?? []
  if (token === undefined) return
  history.replaceState(history.state, '', location.pathname + location.search)
  if (kind === 'invitation') setInvitation(token)
  if (kind === 'password') setPasswordLink(token)
  // The page begins anew as whoever reads by it.
  if (kind === 'link') void openShareLink(token)
}

async function openShareLink(token: string): Promise<void> {
  setOpeningLink(true)
  try {
    await sendServer('/api/share-links/open', { token })
    location.reload()
  } catch (cause) {
    setOpeningLink(false)
    reportTrouble({ cause })
  }
}

/**
 * Signs in; rejects, and says why, where the server does not let one in (`isCodeNeeded`: for want of a code). The page
 * is to be loaded anew.
 */
export async function signIn(signInName: string, password: string, code?: string): Promise<void> {
  await sendServer('/api/sessions', { signInName, password, ...(code !== undefined && { code }) })
}

/** Ends this device's session at the server, and what it reads by a link; what the device keeps stays on it. */
export async function signOut(): Promise<void> {
  await changeServer('DELETE', '/api/sessions/current')
  forgetName()
}

/** Makes the account of the invitation by which the page was opened, and signs in. */
export async function makeAccount(person: {
  readonly name: string
  readonly signInName: string
  readonly password: string
}): Promise<void> {
  await sendServer('/api/accounts', { token: invitation(), ...person })
  await signIn(person.signInName, person.password)
}
