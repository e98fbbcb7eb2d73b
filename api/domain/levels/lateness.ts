/**
 * True where the last reading is older than the stated minutes, or there never was one. Exactly as old is not late.
 * Give the earlier of stamp and receipt: a logger whose clock runs fast must not hide its silence.
 */
export const isLate = (lastEpochMs: number | null, nowEpochMs: number, lateAfterMinutes: number): boolean =>
  lastEpochMs === null || nowEpochMs - lastEpochMs > lateAfterMinutes * 60_000
