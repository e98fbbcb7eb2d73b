import type { Store } from '../store/store.ts'

/** By which name records are signed, of the accounts that there are. */
export async function accountNames(store: Pick<Store, 'listAccounts'>): Promise<(account: string) => string> {
  const names = new Map((await store.listAccounts()).map(({ id, name }) => [id, name]))
  return (account) => names.get(account) ?? 'somebody unknown'
}
