/** One file or document of a frozen data set. */
export interface FrozenPart {
  /** `site`, `state`, `alerts`, `network`, `slices`, or the name of a slice file. */
  readonly name: string
  readonly sha256: string
  readonly bytes: number
}

/**
 * The data of a site as they had been received up to an instant, copied apart: what arrives or is corrected later
 * cannot reach them. Readings count by their receipt; records (calibrations, levels, verdicts) are as they stood when it
 * was frozen.
 */
export interface FrozenSet {
  /** First 16 hexadecimal digits of the SHA-256 of its manifest: another content is another set. */
  readonly id: string
  readonly site: string
  /** Nothing received after this instant is in it. */
  readonly cutOffEpochMs: number
  /** By the clock of the site: equal to the cut-off, or later. */
  readonly frozenAtEpochMs: number
  readonly frozenBy: string
  /** Revision of the site's records that it was made from. */
  readonly revision: number
  /** Version of this program, since another may compute and draw otherwise. */
  readonly software: string
  /** Readings of all series in it, and how many of them nobody has approved. */
  readonly readings: { readonly all: number; readonly provisional: number }
  readonly parts: readonly FrozenPart[]
}
