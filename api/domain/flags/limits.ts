/** Limits of a check on one series: beyond `fail` it fails, beyond `suspect` it is suspect; on a limit it is neither. */
export interface Limits {
  readonly suspectBelow: number | null
  readonly suspectAbove: number | null
  readonly failBelow: number | null
  readonly failAbove: number | null
}

export const noLimits: Limits = { suspectBelow: null, suspectAbove: null, failBelow: null, failAbove: null }

/** 'fail', 'suspect', or null for neither. */
export function beyond(measured: number, limits: Limits): 'fail' | 'suspect' | null {
  const { suspectBelow, suspectAbove, failBelow, failAbove } = limits
  if ((failBelow !== null && measured < failBelow) || (failAbove !== null && measured > failAbove))
    return 'fail'
  return (suspectBelow !== null && measured < suspectBelow) ||
    (suspectAbove !== null && measured > suspectAbove)
    ? 'suspect'
    : null
}

/** Names of the columns that hold the limits of check number `at`. */
export const limitColumns = (at: number) => ({
  suspectBelow: `suspect_below_${at}`,
  suspectAbove: `suspect_above_${at}`,
  failBelow: `fail_below_${at}`,
  failAbove: `fail_above_${at}`,
})
