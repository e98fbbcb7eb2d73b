import type { Context } from 'hono'
import type { Actor } from '#domain/audit/audit-entry.ts'

/** What was sent, signed by whoever is signed in; by whoever it says where nobody is. */
export function signed<D extends { readonly author: string }>(context: Context, draft: D): D {
  return { ...draft, author: signerName(context, draft.author) }
}

/** Name of whoever is signed in, or the other one. */
export const signerName = (context: Context, otherwise: string): string =>
  context.get('caller')?.account.name ?? otherwise

/** Account of whoever is signed in; null where nobody is. */
export const signerAccount = (context: Context): string | null => context.get('caller')?.account.id ?? null

/** Whoever is signed in, or who says so. */
export const signer = (context: Context, otherwise: string): Actor => ({
  account: signerAccount(context),
  name: signerName(context, otherwise),
})

/** An account as the audit record names it. */
export const actorOf = ({ id, name }: { readonly id: string; readonly name: string }): Actor => ({
  account: id,
  name,
})
