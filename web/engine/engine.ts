import type { Columns } from './columns.ts'

/** One running DuckDB: what a browser worker and a test's native one can both do. */
export interface Session {
  /** SQL without marks; throws whatever the engine throws. */
  run(sql: string): Promise<Columns>
  /** Makes the bytes of a DuckDB file readable as a file of that name; the array may be emptied. */
  registerBytes(name: string, bytes: Uint8Array): Promise<void>
  /** Makes a file on the server readable by ranges. */
  registerUrl(name: string, url: string): Promise<void>
  forgetFile(name: string): Promise<void>
  close(): Promise<void>
}

export type EngineStage = 'waiting' | 'fetching' | 'starting' | 'ready' | 'restarting' | 'failed'

/** What to tell a person about the engine. `share` is 0 to 1 while it is being fetched, else null. */
export interface EngineProgress {
  readonly stage: EngineStage
  readonly share: number | null
  readonly sentence: string
}

/** A DuckDB that is started when first asked and restarted when it has grown too large. */
export interface Engine {
  /** Counts starts: whoever attached files must attach them again when it has changed. */
  generation(): number
  progress(): EngineProgress
  /** Starts it in the background; harmless when it runs already. */
  start(): Promise<void>
  /** One query at a time; one whose signal is aborted while it waits is never begun. */
  run(sql: string, signal?: AbortSignal): Promise<Columns>
  attachBytes(alias: string, bytes: Uint8Array): Promise<void>
  attachUrl(alias: string, url: string): Promise<void>
  detach(alias: string): Promise<void>
  /** DuckDB's own count and the attached buffers, at its highest since the start. */
  memoryBytes(): number
  restart(reason: string): Promise<void>
  close(): Promise<void>
}
