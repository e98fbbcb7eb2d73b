import type { People, PersonEntry } from '#contract/access.ts'
import type { Account } from '#domain/access/account.ts'
import { everySite, mayAt } from '#domain/access/membership.ts'
import type { Store } from '../store/store.ts'

/** Whether someone administers a site; every site (`*`) only by a role for every site. */
export const administers = (administrator: Account, site: string): boolean =>
  mayAt(administrator.memberships, site, 'administer')

/** Whether someone may know another account: by a site that both have to do with. */
export const seesAccount = (administrator: Account, { memberships }: Account): boolean =>
  administers(administrator, everySite) || memberships.some(({ site }) => administers(administrator, site))

/**
 * Whether someone may disable another account and end its sessions: only where all its sites are the administrator's.
 * Never one's own, so that one administrator always remains.
 */
export const governs = (administrator: Account, account: Account): boolean =>
  administrator.id !== account.id &&
  (administers(administrator, everySite) ||
    (account.memberships.length > 0 &&
      account.memberships.every(({ site }) => administers(administrator, site))))

/**
 * Whether a link still does what it was made for: the server made it, or an account that may sign in and may make such a
 * one now. Whoever is no administrator any more leaves no way back in.
 */
export async function madeByWhoMay(
  store: Pick<Store, 'listAccounts'>,
  maker: string | null,
  may: (maker: Account) => boolean,
): Promise<boolean> {
  if (maker === null) return true
  const account = (await store.listAccounts()).find(({ id }) => id === maker)
  return account !== undefined && account.disabledAtEpochMs === null && may(account)
}

const hasSecondFactor = async (store: Store, { id }: Account): Promise<boolean> =>
  typeof (await store.findSecondFactor(id))?.confirmedAtEpochMs === 'number'

/** What an administrator is shown of people. */
export async function governedPeople(store: Store, administrator: Account): Promise<People> {
  const sites = (await store.listSites()).map(({ id }) => id)
  const seen = (await store.listAccounts()).filter((account) => seesAccount(administrator, account))
  const people: PersonEntry[] = []
  for (const account of seen) {
    const governed = governs(administrator, account)
    people.push({
      id: account.id,
      name: account.name,
      signInName: account.signInName,
      disabledAtEpochMs: account.disabledAtEpochMs,
      memberships: account.memberships.filter(({ site }) => administers(administrator, site)),
      governed,
      hasSecondFactor: governed && (await hasSecondFactor(store, account)),
      sessions: governed
        ? (await store.listSessions(account.id)).map(
            ({ id, device, createdAtEpochMs, lastSeenAtEpochMs }) => ({
              id,
              device,
              createdAtEpochMs,
              lastSeenAtEpochMs,
            }),
          )
        : [],
    })
  }
  return { sites: [everySite, ...sites].filter((site) => administers(administrator, site)), people }
}
