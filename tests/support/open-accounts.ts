import { mkdtemp, rm } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import type { Hono } from 'hono'
import type { Role } from '#domain/access/permissions.ts'
import { type Access, createAccess } from '../../api/access/create-access.ts'
import { sha256OfToken } from '../../api/access/secret-token.ts'
import type { Delivery } from '../../api/alerts/delivery/create-delivery.ts'
import { createApp } from '../../api/app.ts'
import type { Freezing } from '../../api/freeze/freezing.ts'
import { createIntake } from '../../api/intake/create-intake.ts'
import { openDuckdbStore } from '../../api/store/duckdb-store.ts'
import type { Store } from '../../api/store/store.ts'
import { smallSite } from '../contract/small-site.ts'

export const password = 'four plain words here'
export const ingestToken = 'a-token-of-at-least-twenty-characters'

export interface OpenAccounts {
  readonly app: Hono
  readonly store: Store
  readonly access: Access
  readonly reports: readonly string[]
  readonly nowEpochMs: () => number
  /** Moves the server's clock. */
  pass(ms: number): void
  /** Makes an account by an invitation. */
  join(signInName: string, site: string, role: Role): Promise<void>
  /** Signs in and gives the cookie as a browser sends it. */
  cookieOf(signInName: string): Promise<string>
  close(): Promise<void>
}

/** A server with the sites small-quay and other-quay, without slices; beside what each test says it stands on loopback. */
export async function openAccounts(
  standing: {
    readonly loopbackOnly?: boolean
    readonly visitorsOnly?: boolean
    readonly behindTls?: boolean
    readonly delivery?: (store: Store, now: () => number) => Delivery
    /** By which else it may be addressed. */
    readonly hosts?: readonly string[]
    readonly freezing?: Freezing | ((store: Store, now: () => number) => Freezing)
  } = {},
): Promise<OpenAccounts> {
  const folder = await mkdtemp(join(tmpdir(), 'accounts-'))
  const store = await openDuckdbStore({ file: join(folder, 'stillground.duckdb') })
  for (const site of ['small-quay', 'other-quay'])
    await store.putSite(smallSite(site), { author: 'tester', reason: 'test', atEpochMs: 0 })
  let nowEpochMs = Date.UTC(2027, 9, 21)
  const now = () => nowEpochMs
  const reports: string[] = []
  const report = (line: string) => void reports.push(line)
  const access = createAccess({ store, now, sealKey: Buffer.alloc(32, 7), report })
  const document = async (site: string) => ((await store.getSite(site)) ? { json: '{}', etag: '"1"' } : null)
  const app = createApp({
    store,
    access,
    intake: createIntake({ store, filesFolder: join(folder, 'files'), presentEpochMs: now }),
    publisher: {
      listSites: () => store.listSites(),
      siteDocument: document,
      stateDocument: document,
      sliceList: async () => ({ slices: [] }) as never,
      sliceFile: async () => null,
      trail: async () => ({ ok: false, issues: [] }),
      publish: async () => ({ months: 0, files: 0, bytes: 0, rawRows: 0 }),
      publishing: async () => ({ behind: false }) as never,
      changed: () => {},
      close: async () => {},
    },
    now,
    allowedHosts: ['localhost', 'works.example', ...(standing.hosts ?? [])],
    ingestTokenSha256: sha256OfToken(ingestToken),
    loopbackOnly: standing.loopbackOnly ?? true,
    visitorsOnly: standing.visitorsOnly ?? false,
    behindTls: standing.behindTls ?? false,
    ...(standing.delivery && { delivery: standing.delivery(store, now) }),
    ...(standing.freezing && {
      freezing: typeof standing.freezing === 'function' ? standing.freezing(store, now) : standing.freezing,
    }),
    report,
  })
  return {
    app,
    store,
    access,
    reports,
    nowEpochMs: now,
    pass: (ms) => {
      nowEpochMs += ms
    },
    async join(signInName, site, role) {
      const { token } = await access.invite({ site, role }, 1000)
      const joined = await access.redeem(token, { name: `Person ${signInName}`, signInName, password })
      if (!joined.ok) throw new Error(joined.issues.map(({ message }) => message).join(' '))
    },
    async cookieOf(signInName) {
      const answer = await access.signIn({ signInName, password, device: 'test', address: '192.0.2.1' })
      if (!('token' in answer)) throw new Error(`${signInName} is not let in`)
      return `stillground-session=${answer.token}`
    },
    async close() {
      await store.close()
      await rm(folder, { recursive: true, force: true })
    },
  }
}
