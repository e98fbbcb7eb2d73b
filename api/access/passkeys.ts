import {
  type AuthenticationResponseJSON,
  generateAuthenticationOptions,
  generateRegistrationOptions,
  type PublicKeyCredentialCreationOptionsJSON,
  type PublicKeyCredentialRequestOptionsJSON,
  type RegistrationResponseJSON,
  verifyAuthenticationResponse,
  verifyRegistrationResponse,
} from '@simplewebauthn/server'
import type { Passkey } from '#domain/access/access-keys.ts'
import type { Account } from '#domain/access/account.ts'
import type { Store } from '../store/store.ts'
import { createChallenges } from './challenges.ts'
import { openSession } from './open-session.ts'

/** Where a page was opened: its host is the relying party, and a signature must say its origin. */
export interface PasskeyPlace {
  readonly host: string
  readonly origin: string
}

/** Keys that stay on people's devices: registered while signed in, then signing in without name and password. */
export interface Passkeys {
  list(account: string): Promise<readonly Passkey[]>
  beginRegistration(account: Account, place: PasskeyPlace): Promise<PublicKeyCredentialCreationOptionsJSON>
  /** False: not what was asked for here just now, or not signed by the key that it brings. */
  register(
    account: Account,
    place: PasskeyPlace,
    name: string,
    response: RegistrationResponseJSON,
  ): Promise<boolean>
  beginSignIn(place: PasskeyPlace): Promise<PublicKeyCredentialRequestOptionsJSON>
  signIn(
    place: PasskeyPlace,
    response: AuthenticationResponseJSON,
    device: string,
  ): Promise<{ readonly token: string; readonly account: Account } | { readonly wrong: true }>
  name(account: string, id: string, name: string): Promise<boolean>
  remove(account: string, id: string): Promise<boolean>
}

export function createPasskeys({
  store,
  now,
}: {
  readonly store: Store
  readonly now: () => number
}): Passkeys {
  const challenges = createChallenges(now)
  const registering = (account: string) => `register ${account}`
  const signingIn = 'sign in'

  return {
    list: (account) => store.listPasskeys(account),

    async beginRegistration({ id, name, signInName }, { host }) {
      const known = await store.listPasskeys(id)
      const options = await generateRegistrationOptions({
        rpName: 'Stillground',
        rpID: host,
        userName: signInName,
        userDisplayName: name,
        // Comes back with every sign-in; it is random and says nothing of the person.
        userID: new TextEncoder().encode(id),
        excludeCredentials: known.filter((one) => one.host === host).map((one) => ({ id: one.id })),
        // Found by the device itself, and used only by whoever unlocks it: a passkey is both factors.
        authenticatorSelection: { residentKey: 'required', userVerification: 'required' },
      })
      challenges.remember(options.challenge, registering(id))
      return options
    },

    async register({ id }, { host, origin }, name, response) {
      const verified = await orNull(() =>
        verifyRegistrationResponse({
          response,
          expectedChallenge: (challenge) => challenges.take(challenge, registering(id)),
          expectedOrigin: origin,
          expectedRPID: host,
          requireUserVerification: true,
        }),
      )
      if (!verified?.verified) return false
      const { credential } = verified.registrationInfo
      return store.addPasskey({
        id: credential.id,
        account: id,
        name,
        host,
        publicKey: Buffer.from(credential.publicKey).toString('base64url'),
        counter: credential.counter,
        createdAtEpochMs: now(),
      })
    },

    async beginSignIn({ host }) {
      const options = await generateAuthenticationOptions({ rpID: host, userVerification: 'required' })
      challenges.remember(options.challenge, signingIn)
      return options
    },

    async signIn({ host, origin }, response, device) {
      const found = await store.findPasskey(response.id)
      if (!found || found.account.disabledAtEpochMs !== null) return { wrong: true }
      const { passkey, account } = found
      const handle = response.response.userHandle
      if (passkey.host !== host || (handle && textOf(handle) !== account.id)) return { wrong: true }
      const verified = await orNull(() =>
        verifyAuthenticationResponse({
          response,
          expectedChallenge: (challenge) => challenges.take(challenge, signingIn),
          expectedOrigin: origin,
          expectedRPID: host,
          credential: {
            id: passkey.id,
            publicKey: Uint8Array.from(Buffer.from(passkey.publicKey, 'base64url')),
            counter: passkey.counter,
          },
          requireUserVerification: true,
        }),
      )
      if (!verified?.verified) return { wrong: true }
      await store.usedPasskey(passkey.id, verified.authenticationInfo.newCounter, now())
      return { token: await openSession(store, account.id, device, now()), account }
    },

    name: (account, id, name) => store.namePasskey(account, id, name),
    remove: (account, id) => store.removePasskey(account, id),
  }
}

/** The package throws at whatever is not as it must be; to whoever sent it that is one and the same refusal. */
async function orNull<T>(verify: () => Promise<T>): Promise<T | null> {
  try {
    return await verify()
  } catch (cause) {
    if (cause instanceof Error) return null
    throw cause
  }
}

const textOf = (base64url: string): string => Buffer.from(base64url, 'base64url').toString('utf8')
