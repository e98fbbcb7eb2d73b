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
  readonly groups: ReadonlyMap<string, LevelGroup>
}

/** Changes when what is folded of the same values does, or the form of the file. */
const form = 4

const headSchema = z.object({ form: z.literal(form), revision: z.int(), groups: z.int() })
const groupSchema = z.tuple([z.string(), z.custom<LevelGroup>((given) => typeof given === 'object')])

/** Groups written in one go: between them the server does its other work. */
const groupsAtOnce = 100

/** Null: there is none, or none that can be read; nothing rests on it. */
export async function readSnapshot(folder: string, site: string): Promise<EvaluationSnapshot | null> {
  const text = await readFile(pathOf(folder, site), 'utf8').catch(() => null)
  if (text === null) return null
  try {
    const [first = '', ...lines] = text.trimEnd().split('\n')
    const head = headSchema.parse(JSON.parse(first))
    if (lines.length !== head.groups) return null
    return {
      revision: head.revision,
      groups: new Map(lines.map((line) => groupSchema.parse(JSON.parse(line)))),
    }
  } catch {
    return null
  }
}

/**
 * Replaces it in one step: a kill leaves the old one or the new one. A line a group; earlier states, which are many, are left
 * out, so that after a start an old reading costs the whole stretch once.
 */
export async function writeSnapshot(
  folder: string,
  site: string,
  { revision, groups }: EvaluationSnapshot,
): Promise<void> {
  const entries = [...groups]
  await mkdir(folder, { recursive: true })
  const unfinished = join(folder, `.${randomUUID()}.part`)
  try {
    const file = await open(unfinished, 'wx')
    try {
      await file.write(`${JSON.stringify({ form, revision, groups: entries.length })}\n`)
      for (let from = 0; from < entries.length; from += groupsAtOnce) {
        const lines = entries
          .slice(from, from + groupsAtOnce)
          .map(([key, group]) => `${JSON.stringify([key, { ...group, checkpoints: [] }])}\n`)
        await file.write(lines.join(''))
      }
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

const pathOf = (folder: string, site: string): string => join(folder, `${site}.jsonl`)
