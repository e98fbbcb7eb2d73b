import { z } from 'zod'
import type { Membership } from '#domain/access/membership.ts'
import { roles } from '#domain/access/permissions.ts'

/** `GET /api/me`: whether one has to sign in here, and as whom one is. */
export interface Me {
  /**
   * `not-needed`: only this machine reaches the server, and it was started open for changes; `to-change`: only this
   * machine reaches it, and without an account one reads; `none-yet`: the first administrator is to be made by a link.
   */
  readonly accounts: 'not-needed' | 'to-change' | 'none-yet' | 'needed'
  readonly person: {
    readonly name: string
    readonly signInName: string
    readonly memberships: readonly Membership[]
  } | null
  /** The link by which one reads besides; null: none that holds. */
  readonly link: {
    readonly site: string
    readonly makerName: string
    readonly expiresAtEpochMs: number
  } | null
  /** Why nobody can sign in over this connection, and what to do; null: one can. */
  readonly hindrance: string | null
}

const word = z.string().min(1).max(200)
/** Longer than any password, so that a long one is told apart from nonsense. */
const typedPassword = z.string().max(1000)

/** `POST /api/sessions`. Without a code it is refused as `Code needed` where the account asks for one. */
export const signInSchema = z.strictObject({
  signInName: word,
  password: typedPassword,
  code: z.string().max(100).optional(),
})

/** `POST /api/invitations/look`: answered with the site (`*`: every one) and role that the link gives. */
export const lookSchema = z.strictObject({ token: word })

/** `POST /api/accounts`: makes the account of an invitation. */
export const newAccountSchema = z.strictObject({
  token: word,
  name: z.string().max(200),
  signInName: z.string().max(200),
  password: typedPassword,
})

/** `POST /api/invitations`. */
export const invitationSchema = z.strictObject({ site: word, role: z.enum(roles) })

/** The answer: the link's path is told this once. */
export interface NewInvitation {
  readonly path: string
  readonly expiresAtEpochMs: number
}

/** `PUT /api/people/:account/role`; no role: none at that site. */
export const roleChangeSchema = z.strictObject({ site: word, role: z.enum(roles).nullable() })

/** `PUT /api/people/:account/standing`. */
export const standingSchema = z.strictObject({ disabled: z.boolean() })

/** `GET /api/people`: those who may something at the sites that the asker administers. */
export interface People {
  /** Ids of the sites, `*` first where all are. */
  readonly sites: readonly string[]
  readonly people: readonly PersonEntry[]
}

export interface PersonEntry {
  readonly id: string
  readonly name: string
  readonly signInName: string
  readonly disabledAtEpochMs: number | null
  /** At the asker's sites only. */
  readonly memberships: readonly Membership[]
  /** Whether the asker may disable the account and end its sessions: not one's own, nor one of others' sites. */
  readonly governed: boolean
  /** Whether signing in needs a code; told where `governed`. */
  readonly hasSecondFactor: boolean
  readonly sessions: readonly {
    readonly id: string
    readonly device: string
    readonly createdAtEpochMs: number
    readonly lastSeenAtEpochMs: number
  }[]
}
