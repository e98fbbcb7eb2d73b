import type { SiteModel } from '#domain/site/site.ts'
import type { Store } from '../store/store.ts'
import type { KeptFile } from './keep-file.ts'

/** How far taking a file is. */
export interface TakingProgress {
  readonly stage: 'keeping' | 'reading'
  readonly bytesDone: number
  /** Null while the length of the file is not known. */
  readonly bytesTotal: number | null
  readonly readings: number
}

/** A file that is kept already, and what taking its readings needs. */
export interface KeptFileRequest {
  readonly store: Store
  readonly channels: Pick<Store, 'channelNumbers'>
  readonly model: SiteModel
  readonly kept: KeptFile
  readonly fileName: string
  readonly from: string
  readonly receivedAtEpochMs: number
  readonly presentEpochMs: number
  readonly layoutId?: string
  readonly inflatedLimitBytes: number
  readonly onProgress?: (progress: TakingProgress) => void
  readonly signal?: AbortSignal
}
