import { randomUUID } from 'node:crypto'
import { mkdir, open, readdir, readFile, rename, rm } from 'node:fs/promises'
import { join } from 'node:path'
import { z } from 'zod'
import { sliceSchema } from '#contract/slice-list.ts'

/** The last known value of a series in one month. */
const latestSchema = z.object({
  series: z.int(),
  atEpochMs: z.number(),
  receivedAtEpochMs: z.number(),
  value: z.number(),
  quality: z.int(),
  /** What the automatic checks marked about it. */
  flags: z.int(),
})
export type Latest = z.infer<typeof latestSchema>

const monthSchema = z.object({
  /** Hash of everything but readings that went into the month's values: wiring, calibrations, ranges, limits of checks. */
  recipe: z.string(),
  slices: z.array(sliceSchema),
  latest: z.array(latestSchema),
})
export type PublishedMonth = z.infer<typeof monthSchema>

/** What is published of a site: by month its slices and last values, and what they were made from. */
const indexSchema = z.object({
  /** Changes when the form of slices does, so that an older folder is published anew. */
  form: z.literal(3),
  revision: z.int(),
  months: z.record(z.string(), monthSchema),
  /** When each version held when all of it was published; left out by an index from before that was kept. */
  calibrations: z
    .array(z.object({ sensor: z.string(), version: z.int(), validFromEpochMs: z.number() }))
    .optional(),
})
export type SliceIndex = z.infer<typeof indexSchema>

export const emptyIndex: SliceIndex = { form: 3, revision: 0, months: {} }

/** Reads the index of a site's slice folder; a missing or older one counts as empty and is published anew. */
export async function readIndex(folder: string): Promise<SliceIndex> {
  let text: string
  try {
    text = await readFile(join(folder, 'index.json'), 'utf8')
  } catch (cause) {
    if ((cause as NodeJS.ErrnoException).code === 'ENOENT') return emptyIndex
    throw new Error(`The index of published slices in ${folder} cannot be read.`, { cause })
  }
  const parsed = indexSchema.safeParse(JSON.parse(text))
  return parsed.success ? parsed.data : emptyIndex
}

/** Replaces the index in one step, so that a crash leaves the old one or the new one. */
export async function writeIndex(folder: string, index: SliceIndex): Promise<void> {
  await mkdir(folder, { recursive: true })
  const temporary = join(folder, `.${randomUUID()}.json`)
  const file = await open(temporary, 'w')
  await file.writeFile(JSON.stringify(index))
  await file.sync()
  await file.close()
  await rename(temporary, join(folder, 'index.json'))
}

/**
 * Removes slice files that no index names. Readers that still hold an old list are given one whole
 * publishing in which the files of the previous index stay (`keep`).
 */
export async function removeOrphans(folder: string, keep: ReadonlySet<string>): Promise<void> {
  for (const name of await readdir(folder))
    if (name !== 'index.json' && !keep.has(name)) await rm(join(folder, name), { force: true })
}

export const fileNames = (index: SliceIndex): readonly string[] =>
  Object.values(index.months).flatMap((month) =>
    month.slices.map((slice) => slice.url.slice(slice.url.lastIndexOf('/') + 1)),
  )
