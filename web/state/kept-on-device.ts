import { createSignal } from 'solid-js'
import type { SliceList } from '#contract/slice-list.ts'
import { fetchShell, type KeepingProgress, keepShell, keptShell } from '../offline/keep-shell.ts'
import { keepSite, keptSlices, slicesToKeep } from '../offline/keep-site.ts'
import type { Shell } from '../service-worker/kept-names.ts'
import { askServer, sentenceOf } from './ask-server.ts'
import { sitePath } from './open-site.ts'

export interface OnDevice {
  /** Version of the page that is kept; null: none. */
  readonly shellVersion: string | null
  /** Bytes of readings kept, of those that would be. */
  readonly slices: { readonly kept: number; readonly wanted: number }
  /** What the browser says it uses and allows here; null: it does not say. */
  readonly storage: { readonly usedBytes: number; readonly allowedBytes: number } | null
  /** Whether the browser promised not to clear it by itself. */
  readonly persistent: boolean
}

/** What keeping would take, said before anything is taken. */
export interface KeepingPlan {
  readonly shell: Shell
  readonly shellBytes: number
  readonly list: SliceList
  readonly rawMonths: ReadonlySet<string>
  readonly sliceBytes: number
}

const [onDevice, setOnDevice] = createSignal<OnDevice | null>(null)
const [keeping, setKeeping] = createSignal<(KeepingProgress & { readonly what: string }) | null>(null)
const [keepingTrouble, setKeepingTrouble] = createSignal<string | null>(null)
let stopping: AbortController | null = null

export { keeping, keepingTrouble, onDevice }

const noRawMonths: ReadonlySet<string> = new Set()

/** Looks at what this device keeps of a site. */
export async function lookAtDevice(site: string): Promise<void> {
  if (typeof caches === 'undefined') return
  const list = await askServer<SliceList>(sitePath(site, '/slices')).catch(() => null)
  const wanted = list ? slicesToKeep(list, noRawMonths) : []
  const has = await keptSlices(wanted)
  const estimate = await navigator.storage?.estimate?.().catch(() => null)
  setOnDevice({
    shellVersion: (await keptShell())?.version ?? null,
    slices: {
      kept: bytesOf(wanted.filter(({ url }) => has.has(url))),
      wanted: bytesOf(wanted),
    },
    storage:
      estimate?.usage !== undefined && estimate.quota !== undefined
        ? { usedBytes: estimate.usage, allowedBytes: estimate.quota }
        : null,
    persistent: (await navigator.storage?.persisted?.().catch(() => false)) ?? false,
  })
}

/** Works out what keeping a site would take. */
export async function planKeeping(site: string, rawMonths: ReadonlySet<string>): Promise<KeepingPlan> {
  const [shell, list] = await Promise.all([fetchShell(), askServer<SliceList>(sitePath(site, '/slices'))])
  return {
    shell,
    shellBytes: bytesOf(shell.files),
    list,
    rawMonths,
    sliceBytes: bytesOf(slicesToKeep(list, rawMonths)),
  }
}

/** Keeps page, records, latest states and the chosen readings on this device; `stopKeeping` ends it half way. */
export async function keepOnDevice(site: string, plan: KeepingPlan): Promise<void> {
  if (stopping) return
  const stop = new AbortController()
  stopping = stop
  setKeepingTrouble(null)
  try {
    await navigator.storage?.persist?.().catch(() => false)
    const slices = slicesToKeep(plan.list, plan.rawMonths)
    await keepSite(site, slices, (done) => setKeeping({ ...done, what: 'readings' }), stop.signal)
    await keepShell(plan.shell, (done) => setKeeping({ ...done, what: 'the page' }), stop.signal)
  } catch (cause) {
    setKeepingTrouble(
      stop.signal.aborted
        ? 'Stopped. What was kept by then stays; go on to keep the rest.'
        : `Not everything could be kept: ${sentenceOf(cause)}`,
    )
  } finally {
    stopping = null
    setKeeping(null)
    await lookAtDevice(site)
  }
}

export const stopKeeping = (): void => stopping?.abort()

const bytesOf = (of: readonly { readonly bytes: number }[]) => of.reduce((sum, { bytes }) => sum + bytes, 0)
