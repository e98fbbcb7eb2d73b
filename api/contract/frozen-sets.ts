import { z } from 'zod'
import type { FrozenSet } from '#domain/meeting/frozen-set.ts'

const sha256 = z.string().regex(/^[0-9a-f]{64}$/)

/** `GET /api/sites/:site/frozen/:set`. */
export const frozenSetSchema: z.ZodType<FrozenSet> = z.strictObject({
  id: z.string().regex(/^[0-9a-f]{16}$/),
  site: z.string(),
  cutOffEpochMs: z.int(),
  frozenAtEpochMs: z.int(),
  frozenBy: z.string(),
  revision: z.int(),
  software: z.string(),
  readings: z.strictObject({ all: z.int().min(0), provisional: z.int().min(0) }),
  parts: z.array(z.strictObject({ name: z.string(), sha256, bytes: z.int().min(0) })),
})
