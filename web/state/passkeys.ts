import type { PublicKeyCredentialCreationOptionsJSON } from '@simplewebauthn/browser'
import { sendServer } from './ask-server.ts'

/** Whether this browser knows passkeys at all; whether they work at this address the server says. */
export const isPasskeyBrowser = (): boolean => typeof globalThis.PublicKeyCredential === 'function'

/** Signs in by a passkey that the device finds; rejects, and says why, where it does not come about. */
export async function signInByPasskey(): Promise<void> {
  const { startAuthentication } = await import('@simplewebauthn/browser')
  const optionsJSON = await sendServer<Parameters<typeof startAuthentication>[0]['optionsJSON']>(
    '/api/sessions/passkey-options',
    {},
  )
  const response = await startAuthentication({ optionsJSON }).catch(notDone)
  await sendServer('/api/sessions/by-passkey', { response })
}

/** Makes a passkey on this device for whoever is signed in. */
export async function registerPasskey(name: string, password: string): Promise<void> {
  const { startRegistration } = await import('@simplewebauthn/browser')
  const optionsJSON = await sendServer<PublicKeyCredentialCreationOptionsJSON>('/api/me/passkeys/options', {
    password,
  })
  const response = await startRegistration({ optionsJSON }).catch(notDone)
  await sendServer('/api/me/passkeys', { name, response })
}

/** Browsers say little of why, on purpose. */
function notDone(cause: unknown): never {
  const isKnown = cause instanceof Error && cause.name === 'InvalidStateError'
  throw new Error(
    isKnown
      ? 'This device has a passkey of your account already.'
      : 'The device did not use a passkey: it was put off, it took too long, or there is none for this address.',
    { cause },
  )
}
