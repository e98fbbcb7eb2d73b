/** How far a publishing under way is. */
export interface PublishProgress {
  readonly startedAtEpochMs: number
  /** `2027-03`; null before the first. */
  readonly month: string | null
  readonly at: number
  readonly of: number
}

/** `GET /api/sites/:site/publishing`: whether what browsers read is behind what the server holds. */
export interface Publishing {
  readonly running: PublishProgress | null
  /** True while readings or records wait to be published; what browsers read is from before them. */
  readonly behind: boolean
  readonly publishedRevision: number
  /** When the last publishing failed and none has succeeded since; the reason is in the server's report. */
  readonly failedAtEpochMs: number | null
}
