import { keepName, keptName } from './kept-name.ts'
import { signedInName } from './own-account.ts'

/**
 * The name with which changes are signed: of whoever is signed in; without a network, or where nobody signs in, the one
 * that this device's user last signed with. Empty at first, or where nothing may be kept.
 */
export const rememberedName = (): string => signedInName() ?? keptName()

/** For the next time; whoever is signed in keeps the name of the account. */
export function rememberName(name: string): void {
  if (signedInName() === null) keepName(name)
}
