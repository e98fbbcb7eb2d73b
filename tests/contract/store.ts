import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterEach, beforeEach, describe } from 'vitest'
import type { Store } from '../../api/store/store.ts'
import { accessKeyContract } from './store-access-keys.ts'
import { accountContract } from './store-accounts.ts'
import { alertContract } from './store-alerts.ts'
import { auditContract } from './store-audit.ts'
import { batchContract } from './store-batches.ts'
import { deliveryContract } from './store-delivery.ts'
import { fieldContract } from './store-field.ts'
import { frozenContract } from './store-frozen.ts'
import { proposalContract } from './store-proposals.ts'
import { quarantineContract } from './store-quarantine.ts'
import { readingContract } from './store-readings.ts'
import { recordContract } from './store-records.ts'
import { reportContract } from './store-reports.ts'

/** What the parts of the contract work with: a fresh store for every test, which they may close and open again. */
export interface StoreUnderTest {
  readonly store: Store
  reopen(): Promise<void>
}

/**
 * What every implementation of the store must do. `open` opens the store that belongs to a folder,
 * with whatever was written to it before.
 */
export function storeContract(name: string, open: (folder: string) => Promise<Store>): void {
  describe(name, () => {
    let folder: string
    let store: Store
    beforeEach(async () => {
      folder = mkdtempSync(join(tmpdir(), 'store-contract-'))
      store = await open(folder)
    })
    afterEach(async () => {
      await store.close()
      rmSync(folder, { recursive: true, force: true })
    })
    const subject: StoreUnderTest = {
      get store() {
        return store
      },
      async reopen() {
        await store.close()
        store = await open(folder)
      },
    }
    describe('records', () => recordContract(subject))
    describe('batches', () => batchContract(subject))
    describe('proposals', () => proposalContract(subject))
    describe('quarantine', () => quarantineContract(subject))
    describe('readings', () => readingContract(subject))
    describe('field', () => fieldContract(subject))
    describe('accounts', () => accountContract(subject))
    describe('delivery', () => deliveryContract(subject))
    describe('audit record', () => auditContract(subject))
    describe('access keys', () => accessKeyContract(subject))
    describe('alerts', () => alertContract(subject))
    describe('frozen sets', () => frozenContract(subject))
    describe('reports', () => reportContract(subject))
  })
}
