import { type Resolution, resolutions } from '#contract/slice-columns.ts'
import type { Slice, SliceList } from '#contract/slice-list.ts'
import type { Columns } from '../engine/columns.ts'
import type { Engine } from '../engine/engine.ts'
import type { Query, SliceNeed } from '../engine/query.ts'
import { runQuery } from '../engine/run-query.ts'
import { fetchSlice, type SliceUnavailable } from './fetch-slice.ts'
import { lastTable, lastTableSql, lastViewSql, sliceAlias, sliceViewSql } from './slice-views.ts'

/** What came of making slices ready. `missing` is never empty in silence: views say which months lack. */
export interface SlicesReady {
  readonly attached: number
  readonly missing: readonly SliceUnavailable[]
}

export interface Answer {
  readonly columns: Columns
  readonly missing: readonly SliceUnavailable[]
  /** True where the question itself could not be answered and its `coarser` one was. */
  readonly isCoarser: boolean
}

export interface SliceKeeper {
  /** Takes a new list; slices it no longer names are detached before the next question. */
  replaceList(list: SliceList): void
  ensureSlices(need: SliceNeed, signal?: AbortSignal): Promise<SlicesReady>
  /** Makes ready what a question needs, then answers it, or its coarser one where that fails. */
  ask(query: Query, signal?: AbortSignal): Promise<Answer>
  /**
   * Lays hour slices in order of time one after another, those nearest an instant first, so that a clock that
   * runs into another month does not wait for it. Stops at `warmLimitBytes`, at its signal, and at the first
   * slice that cannot be had: the question that needs it will say so.
   */
  warmByTime(nearEpochMs: number, signal?: AbortSignal): Promise<void>
  /** First and last instant for which there are slices; null when there are none. */
  span(): { fromEpochMs: number; untilEpochMs: number } | null
  revision(): number
}

/** Memory that warming may fill with last values; a larger site warms what lies nearest. */
export const warmLimitBytes = 150e6

/** Of a row of last values in DuckDB's memory: series, instant, value, quality, marks and their null bits. */
const bytesPerLastRow = 24

/**
 * Keeps the engine's attached slices in step with a list. Hour and day slices are fetched whole and kept;
 * raw ones are read by ranges where they lie.
 */
export function createSliceKeeper(
  engine: Engine,
  list: SliceList,
  fetchBytes: (slice: Slice, signal?: AbortSignal) => Promise<Uint8Array> = fetchSlice,
): SliceKeeper {
  let current = list
  let attachedIn = -1
  const attached = new Map<string, Slice>()
  const pending = new Map<string, Promise<void>>()
  const byTime = new Set<string>()
  let viewsMade = ''
  let viewTurn: Promise<void> = Promise.resolve()

  /** After a restart of the engine nothing is attached any more. */
  const noticeRestart = () => {
    if (engine.generation() === attachedIn) return
    attachedIn = engine.generation()
    attached.clear()
    pending.clear()
    byTime.clear()
    viewsMade = ''
  }

  const attachSlice = async (slice: Slice, signal?: AbortSignal) => {
    const alias = sliceAlias(slice)
    if (slice.resolution === 'raw') await engine.attachUrl(alias, slice.url)
    else await engine.attachBytes(alias, await fetchBytes(slice, signal))
    attached.set(alias, slice)
  }

  const attachOnce = (slice: Slice): Promise<void> => {
    const alias = sliceAlias(slice)
    if (attached.has(alias)) return Promise.resolve()
    let work = pending.get(alias)
    if (!work) {
      // Not cancelled with the question that asked first: another may be waiting for the same slice.
      work = attachSlice(slice).finally(() => pending.delete(alias))
      pending.set(alias, work)
    }
    return work
  }

  /** Brings the views in step with what is attached, then lets go of what the list no longer names. */
  const makeViews = async () => {
    const listed = new Set(current.slices.map((slice) => sliceAlias(slice)))
    const keep = [...attached.keys()].filter((alias) => listed.has(alias)).sort()
    const laid = keep.filter((alias) => byTime.has(alias))
    const signature = `${keep} by time ${laid}`
    if (signature === viewsMade && attached.size === keep.length) return
    const of = (aliases: readonly string[], resolution: Resolution) =>
      aliases.filter((alias) => alias.startsWith(`${resolution}_`))
    for (const resolution of resolutions) await engine.run(sliceViewSql(resolution, of(keep, resolution)))
    for (const resolution of ['hour', 'day'] as const)
      await engine.run(lastViewSql(resolution, of(laid, resolution)))
    viewsMade = signature
    for (const alias of [...attached.keys()]) {
      if (listed.has(alias)) continue
      attached.delete(alias)
      if (byTime.delete(alias)) await engine.run(`drop table if exists "${lastTable(alias)}"`)
      await engine.detach(alias)
    }
  }

  const layByTime = async (slice: Slice) => {
    const alias = sliceAlias(slice)
    if (byTime.has(alias) || !attached.has(alias)) return
    await engine.run(lastTableSql(alias))
    byTime.add(alias)
  }

  const ensure = async (needs: readonly SliceNeed[], signal?: AbortSignal): Promise<SlicesReady> => {
    await engine.start()
    noticeRestart()
    const wanted = new Set(needs.flatMap((need) => slicesTouching(current.slices, need)))
    const sorted = needs.filter((need) => need.byTime).flatMap((need) => slicesTouching(current.slices, need))
    const missing: SliceUnavailable[] = []
    await Promise.all(
      [...wanted].map((slice) =>
        attachOnce(slice).catch((cause: unknown) => {
          if (!isUnavailable(cause)) throw cause
          missing.push(cause)
        }),
      ),
    )
    signal?.throwIfAborted()
    for (const slice of new Set(sorted)) await layByTime(slice)
    viewTurn = viewTurn.then(makeViews, makeViews)
    await viewTurn
    return { attached: wanted.size - missing.length, missing }
  }

  const askOnce = async (query: Query, signal?: AbortSignal): Promise<Omit<Answer, 'isCoarser'>> => {
    for (let attempt = 0; ; attempt++) {
      signal?.throwIfAborted()
      const { missing } = await ensure(query.needs, signal)
      const generation = engine.generation()
      try {
        return { columns: await runQuery(engine, query, signal), missing }
      } catch (cause) {
        // The engine restarted between attaching and asking: what was attached went with it.
        if (attempt > 0 || generation === engine.generation()) throw cause
      }
    }
  }

  return {
    replaceList(next) {
      current = next
    },
    ensureSlices: (need, signal) => ensure([need], signal),
    async ask(query, signal) {
      try {
        return { ...(await askOnce(query, signal)), isCoarser: false }
      } catch (cause) {
        // Raw slices are read by ranges: without a network those not read yet fail only when they are asked.
        if (!query.coarser || signal?.aborted) throw cause
        return { ...(await askOnce(query.coarser, signal)), isCoarser: true }
      }
    },
    async warmByTime(nearEpochMs, signal) {
      const away = (slice: Slice) => Math.abs((slice.fromEpochMs + slice.untilEpochMs) / 2 - nearEpochMs)
      let bytes = 0
      for (const slice of current.slices
        .filter((one) => one.resolution === 'hour')
        .toSorted((left, right) => away(left) - away(right))) {
        bytes += slice.rows * bytesPerLastRow
        if (bytes > warmLimitBytes || signal?.aborted) return
        const need = { ...slice, byTime: true, untilEpochMs: slice.untilEpochMs - 1 }
        const ready = await ensure([need], signal).catch(() => null)
        if (!ready || ready.missing.length > 0) return
        // Questions that came meanwhile go first.
        await new Promise((resolve) => setTimeout(resolve, 50))
      }
    },
    span() {
      if (current.slices.length === 0) return null
      return {
        fromEpochMs: Math.min(...current.slices.map((slice) => slice.fromEpochMs)),
        untilEpochMs: Math.max(...current.slices.map((slice) => slice.untilEpochMs)),
      }
    },
    revision: () => current.revision,
  }
}

/** Slices of the needed resolution that share at least an instant with the window. */
export function slicesTouching(slices: readonly Slice[], need: SliceNeed): Slice[] {
  return slices.filter(
    (slice) =>
      slice.resolution === need.resolution &&
      slice.fromEpochMs <= need.untilEpochMs &&
      slice.untilEpochMs > need.fromEpochMs,
  )
}

const isUnavailable = (cause: unknown): cause is SliceUnavailable =>
  cause instanceof Error && (cause as { code?: unknown }).code === 'slice-unavailable'
