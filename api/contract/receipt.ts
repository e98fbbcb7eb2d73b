import { z } from 'zod'

/** Why a cell or row was set aside. Codes are stable; sentences may change. */
export const quarantineCodes = [
  'number-expected',
  'not-finite',
  'fault-code',
  'time-unreadable',
  'time-in-repeated-hour',
  'time-in-skipped-hour',
  'time-in-future',
  'time-before-1990',
  'column-count',
  'row-too-long',
  'channel-unknown',
  'logger-unknown',
  'encoding',
  'header-repeated',
  /** Two columns say that they are the same channel; neither is taken. */
  'name-repeated',
  /** A double quote that is never closed; reading goes on at the next line. */
  'quote-unclosed',
  /** A compressed file that ends early or is damaged: what follows the last whole row. */
  'file-truncated',
  /** A level line that closes worse than allowed: none of its levels is taken. */
  'level-line-open',
  /** A level line with a setup missing or not read, or without a benchmark at an end. */
  'level-line-broken',
] as const

export const quarantinedSchema = z.object({
  batch: z.int(),
  /** 1-based line in the file. */
  line: z.int(),
  column: z.string().nullable(),
  code: z.enum(quarantineCodes),
  message: z.string(),
  /** The offending text, at most 200 characters. */
  value: z.string(),
  /** How many readings this entry stands for (a whole unknown column is one entry). */
  readings: z.int(),
})
export type Quarantined = z.infer<typeof quarantinedSchema>

export const conflictSchema = z.object({
  batch: z.int(),
  logger: z.string(),
  channel: z.string(),
  atEpochMs: z.number(),
  keptRaw: z.number(),
  offeredRaw: z.number(),
})
export type Conflict = z.infer<typeof conflictSchema>

/** What became of one file. `refused` files are kept too, byte for byte. */
export const receiptSchema = z.object({
  batch: z.int(),
  site: z.string(),
  fileName: z.string(),
  sha256: z.string(),
  bytes: z.int(),
  receivedAtEpochMs: z.number(),
  from: z.string(),
  layout: z.string().nullable(),
  layoutVersion: z.int().nullable(),
  outcome: z.enum(['taken', 'taken-in-part', 'refused']),
  /** What was wrong and what to do, or that the same bytes were taken before; null where there is nothing to say. */
  message: z.string().nullable(),
  accepted: z.int(),
  repeated: z.int(),
  conflicting: z.int(),
  quarantined: z.int(),
  absent: z.int(),
  firstEpochMs: z.number().nullable(),
  lastEpochMs: z.number().nullable(),
})
export type Receipt = z.infer<typeof receiptSchema>
