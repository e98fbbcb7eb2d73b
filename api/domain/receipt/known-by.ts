/*
 * The one rule of receipt. What had been received at an instant or before was known by it: the instant itself counts. Frozen
 * sets, what was known then, alerts then, loggers as known, approvals and marks of what came later all go by it.
 */

/** Whether what was received at one instant was known by another, both in the same unit. */
export const isKnownBy = (receivedAt: number, instant: number): boolean => receivedAt <= instant

/** The same as SQL, of two expressions of one type. */
export const knownBySql = (receivedAt: string, instant: string): string => `${receivedAt} <= ${instant}`

/**
 * Whole seconds from a reading to its receipt as SQL, of two timestamps: rounded up, so that nothing counts as known before
 * it was received, and by an instant of whole seconds after the reading exactly that is known which is by microseconds.
 */
export const secondsToReceiptSql = (receivedAt: string, at: string): string =>
  `ceil((epoch_us(${receivedAt}) - epoch_us(${at})) / 1e6)::integer`

/** Slices do not keep a receipt within this long after the reading was taken. */
export const receiptKeptToMs = 900_000

/** Milliseconds of the receipt of a row of a raw slice as SQL; where it is not kept the earliest that it can have been. */
export const earliestReceiptMsSql = 'epoch_ms("at") + 1000 * coalesce(received_after_s, 0)::bigint'

/** Receipt of a reading; where it is not kept (null or NaN) the latest that it can have been. */
export const latestReceiptMs = (atEpochMs: number, receivedAfterSeconds: number | null): number =>
  atEpochMs +
  (receivedAfterSeconds === null || Number.isNaN(receivedAfterSeconds)
    ? receiptKeptToMs
    : receivedAfterSeconds * 1000)
