import { mkdtemp, rm } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import type { Layout } from '#contract/layout.ts'
import type { Receipt } from '#contract/receipt.ts'
import type { SiteModel } from '#domain/site/site.ts'
import {
  createIntake,
  type FileRequest,
  type Intake,
  type IntakeSettings,
} from '../../api/intake/create-intake.ts'
import { openDuckdbStore } from '../../api/store/duckdb-store.ts'
import type { Store } from '../../api/store/store.ts'
import { intakeSite, localLayout, longLayout, wideLayout } from './intake-site.ts'

export interface OpenIntake {
  readonly folder: string
  readonly store: Store
  readonly intake: Intake
  /** Takes bytes or text as a file of the test site. */
  take(fileName: string, bytes: string | Uint8Array, more?: Partial<FileRequest>): Promise<Receipt>
  /** Stored readings, as `logger/channel`, UTC text and raw value, in order of channel and time. */
  readings(): Promise<readonly (readonly [string, string, number])[]>
  close(): Promise<void>
}

const signature = { author: 'tester', reason: 'test', atEpochMs: Date.UTC(2027, 0, 1) }

/** Intake over a real store in a folder of its own, with the test site and its layouts. */
export async function openIntake(
  options: Partial<IntakeSettings> & {
    layouts?: readonly Layout[]
    model?: SiteModel
    presentEpochMs?: () => number
  } = {},
): Promise<OpenIntake> {
  const folder = await mkdtemp(join(tmpdir(), 'intake-'))
  const store = options.store ?? (await openDuckdbStore({ file: join(folder, 'stillground.duckdb') }))
  await store.putSite(options.model ?? intakeSite(), signature)
  for (const layout of options.layouts ?? [wideLayout, longLayout, localLayout])
    await store.putLayout('test-quay', layout, signature)
  const intake = createIntake({
    presentEpochMs: () => Date.UTC(2027, 10, 1),
    ...options,
    store,
    filesFolder: join(folder, 'files'),
  })
  return {
    folder,
    store,
    intake,
    take: (fileName, bytes, more = {}) =>
      intake.takeFile({
        site: 'test-quay',
        fileName,
        bytes: oneChunk(typeof bytes === 'string' ? new TextEncoder().encode(bytes) : bytes),
        from: 'test',
        receivedAtEpochMs: Date.UTC(2027, 10, 1),
        ...more,
      }),
    async readings() {
      const channels = await store.listChannels('test-quay')
      const names = new Map(channels.map(({ channel, logger, name }) => [channel, `${logger}/${name}`]))
      const connection = await store.connect()
      try {
        await store.exposeReadings(connection, 'taken', { site: 'test-quay' })
        const rows = await connection.runAndReadAll(
          `SELECT channel, strftime("at", '%Y-%m-%dT%H:%M:%SZ'), raw FROM taken ORDER BY channel, "at"`,
        )
        return rows
          .getRows()
          .map(([channel, at, raw]) => [names.get(Number(channel)) ?? '', String(at), Number(raw)] as const)
      } finally {
        connection.closeSync()
      }
    },
    async close() {
      await store.close()
      await rm(folder, { recursive: true, force: true })
    },
  }
}

export async function* oneChunk(bytes: Uint8Array): AsyncGenerator<Uint8Array> {
  if (bytes.length > 0) yield bytes
}
