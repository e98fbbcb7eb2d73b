import { randomUUID } from 'node:crypto'
import { mkdir, open, readFile, rename, rm } from 'node:fs/promises'
import { join } from 'node:path'
import { z } from 'zod'
import type { LevelGroup } from '#domain/alerts/level-group.ts'

/**
 * How far the levels of a site were folded up to a revision of its readings. It saves a start the folding of everything
 * and is never needed: without it, or where keys do not fit, levels are folded anew.
 */
export interface EvaluationSnapshot {
  readonly revision: number
  /** By the key of the group, which holds its levels and how its series are made. */
  readonly groups: Readonly<Record<string, LevelGroup>>
}

/** Changes when what is folded of the same values does. */
const form = 2

const snapshotSchema = z.object({
  form: z.literal(form),
  revision: z.int(),
  groups: z.record(
    z.string(),
    z.custom<LevelGroup>((given) => typeof given === 'object'),
  ),
})

/** Null: there is none, or one of another form or of no form. */
export async function readSnapshot(folder: string, site: string): Promise<EvaluationSnapshot | null> {
  const text = await readFile(pathOf(folder, site), 'utf8').catch((cause: NodeJS.ErrnoException) => {
    if (cause.code === 'ENOENT') return null
    throw new Error(`How far levels were evaluated cannot be read from ${pathOf(folder, site)}.`, { cause })
  })
  if (text === null) return null
  try {
    const read = snapshotSchema.safeParse(JSON.parse(text))
    return read.success ? read.data : null
  } catch {
    return null
  }
}

/** Replaces it in one step: a kill leaves the old one or the new one. */
export async function writeSnapshot(
  folder: string,
  site: string,
  snapshot: EvaluationSnapshot,
): Promise<void> {
  await mkdir(folder, { recursive: true })
  const unfinished = join(folder, `.${randomUUID()}.part`)
  try {
    const file = await open(unfinished, 'wx')
    try {
      await file.writeFile(JSON.stringify({ form, ...snapshot }))
      await file.sync()
    } finally {
      await file.close()
    }
    await rename(unfinished, pathOf(folder, site))
  } catch (cause) {
    await rm(unfinished, { force: true })
    throw new Error(`How far levels were evaluated could not be kept in ${folder}.`, { cause })
  }
}

const pathOf = (folder: string, site: string): string => join(folder, `${site}.json`)
