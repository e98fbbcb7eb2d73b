import { access, lstat, mkdir, readdir, rename, writeFile } from 'node:fs/promises'
import { basename, dirname, extname, join, relative } from 'node:path'
import { setTimeout as wait } from 'node:timers/promises'
import type { Receipt } from '#contract/receipt.ts'
import { wordsOfFailure } from '../words-of-failure.ts'
import type { Intake } from './create-intake.ts'

export interface InboxSettings {
  readonly folder: string
  readonly site: string
  readonly intake: Pick<Intake, 'takeFile'>
  readonly onReceipt?: (receipt: Receipt) => void
  /** What could not be done and why, for the person who looks after the server; the file stays and is tried again. */
  readonly onFault?: (fault: InboxFault) => void
  /** Instant that counts as receipt; the machine's clock unless said otherwise. */
  readonly receivedAtEpochMs?: () => number | Promise<number>
  readonly pollMs?: number
  /** How long a file must have stayed as it is. */
  readonly settleMs?: number
  readonly signal: AbortSignal
}

export interface InboxFault {
  readonly path: string
  readonly message: string
  readonly cause: unknown
}

interface Sighting {
  readonly size: number
  readonly mtimeMs: number
  /** When it was first seen like this, on a clock that only runs forward. */
  readonly sinceMs: number
  readonly polls: number
}

const outcomeFolders = ['taken', 'refused']
const retryAfterMs = 30_000

/**
 * Watches a folder into which any program may drop files, until the signal. A file is taken when its size and time have
 * stayed the same over two looks and for `settleMs`; names that begin with a dot or end in .part, .tmp or .filepart
 * wait until they are renamed. Folders one deep name the source. Taken files move to `taken/`, refused ones to
 * `refused/` with a text beside them that says why. It looks again and again instead of
 * listening, because events are lost on network file systems.
 */
export async function watchInbox(settings: InboxSettings): Promise<void> {
  const { signal, pollMs = 2000 } = settings
  const look = createInboxLook(settings)
  while (!signal.aborted) {
    await look()
    await wait(pollMs, undefined, { signal }).catch(() => undefined)
  }
}

/** One look at the inbox after another; each takes the files that have settled since. */
export function createInboxLook(settings: InboxSettings): () => Promise<void> {
  const { folder, site, intake, signal, settleMs = 5000 } = settings
  let seen = new Map<string, Sighting>()
  const notBefore = new Map<string, number>()
  const told = new Set<string>()

  function tell(path: string, cause: unknown, doing: string): void {
    const reason = wordsOfFailure(cause)
    const key = `${path}\n${reason}`
    if (told.has(key)) return
    if (told.size > 1000) told.clear()
    told.add(key)
    settings.onFault?.({ path, message: `${relative(folder, path) || '.'} ${doing}: ${reason}`, cause })
  }

  async function list(): Promise<string[]> {
    const paths: string[] = []
    const read = async (inside: string, deep: boolean): Promise<void> => {
      const entries = await readdir(inside, { withFileTypes: true }).catch((cause) => {
        tell(inside, cause, 'could not be read')
        return []
      })
      for (const entry of entries) {
        const path = join(inside, entry.name)
        if (isUnfinished(entry.name)) continue
        if (entry.isFile()) paths.push(path)
        else if (entry.isDirectory() && !deep && !outcomeFolders.includes(entry.name)) await read(path, true)
        else if (!entry.isDirectory() || deep)
          tell(path, 'only files, in folders one deep, are taken', 'is left alone')
      }
    }
    await read(folder, false)
    return paths.sort()
  }

  async function take(path: string, before: Sighting): Promise<void> {
    const source = relative(folder, dirname(path))
    const receipt = await intake.takeFile({
      site,
      fileName: basename(path),
      bytes: path,
      from: source ? `inbox, ${source}` : 'inbox',
      receivedAtEpochMs: await (settings.receivedAtEpochMs ?? Date.now)(),
      signal,
    })
    settings.onReceipt?.(receipt)
    const after = await lstat(path)
    // Written to while it was read: what came later is taken when it has settled in its turn.
    if (after.size !== before.size || after.mtimeMs !== before.mtimeMs) return
    const refused = receipt.outcome === 'refused'
    const place = await freePlace(join(folder, refused ? 'refused' : 'taken', source), basename(path))
    if (refused) await writeFile(`${place}.txt`, `${receipt.message ?? ''}\n`)
    await rename(path, place)
  }

  return async () => {
    const now = performance.now()
    const sightings = new Map<string, Sighting>()
    for (const path of await list()) {
      const found = await lstat(path).catch(() => null)
      if (!found?.isFile()) continue
      const last = seen.get(path)
      const same = last?.size === found.size && last.mtimeMs === found.mtimeMs
      sightings.set(path, {
        size: found.size,
        mtimeMs: found.mtimeMs,
        sinceMs: same ? last.sinceMs : now,
        polls: same ? last.polls + 1 : 1,
      })
    }
    seen = sightings
    for (const [path, sighting] of sightings) {
      if (signal.aborted) return
      if (sighting.polls < 2 || now - sighting.sinceMs < settleMs) continue
      if ((notBefore.get(path) ?? 0) > now) continue
      try {
        await take(path, sighting)
        notBefore.delete(path)
        seen.delete(path)
      } catch (cause) {
        if (signal.aborted) return
        if ((cause as NodeJS.ErrnoException).code === 'ENOENT') continue
        notBefore.set(path, now + retryAfterMs)
        tell(path, cause, 'could not be taken and is tried again')
      }
    }
  }
}

function isUnfinished(name: string): boolean {
  return name.startsWith('.') || /\.(part|tmp|filepart)$/i.test(name)
}

/** A path in a folder that nothing has yet: `name.csv`, `name-2.csv` … */
async function freePlace(folder: string, name: string): Promise<string> {
  await mkdir(folder, { recursive: true })
  const end = extname(name)
  const stem = basename(name, end)
  for (let n = 1; ; n++) {
    const path = join(folder, n === 1 ? name : `${stem}-${n}${end}`)
    const taken = await access(path).then(
      () => true,
      () => false,
    )
    if (!taken) return path
  }
}
