import type { AlertKind } from './alert-kinds.ts'

/** A program elsewhere that is told of a site's alerts. Removed ones stay on record without their secrets. */
export interface Webhook {
  readonly site: string
  readonly id: string
  /** By which people know it. */
  readonly name: string
  readonly url: string
  /** Kinds of messages that it takes. */
  readonly kinds: readonly AlertKind[]
  readonly madeBy: string
  readonly madeAtEpochMs: number
  /** Null: it is sent to. */
  readonly disabledAtEpochMs: number | null
  readonly disabledWhy: string | null
}

/** How it is shown that a message is from here: a secret that both know, or a key pair of which the receiver has one half. */
export const signingSchemes = ['shared-secret', 'key-pair'] as const
export type SigningScheme = (typeof signingSchemes)[number]

/** After a secret was replaced, messages are signed with the one before too for so long: the receiver has that time to change. */
export const earlierSecretLastsMs = 24 * 3_600_000
