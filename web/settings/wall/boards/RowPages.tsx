import { createMemo, createSignal, For, onCleanup, onMount, Show } from 'solid-js'
import { rowPages } from '../../../derived/meeting/board-sequence.ts'
import { boardPlace, tellPages } from '../../../state/meeting.ts'
import { sync } from '../../../ui/sync.ts'

/** A row of a board's table; with `heading` alone it heads those that follow. */
export interface BoardRow {
  readonly heading?: string
  readonly cells: readonly string[]
  /** Presses: drawn with weight. */
  readonly presses?: boolean
}

/**
 * A table whose rows go over as many pages as they need, which follow one another like boards: every row is on one,
 * none is cut. `shares`: widths of the columns, per cent.
 */
export function RowPages(props: {
  caption: string
  headings: readonly string[]
  shares: readonly number[]
  rows: readonly BoardRow[]
}) {
  let room: HTMLDivElement | undefined
  let table: HTMLTableElement | undefined
  const [pages, setPages] = createSignal<readonly (readonly number[])[]>([])
  const [measuring, setMeasuring] = createSignal(true)
  const shown = createMemo(() => {
    const list = pages()
    return new Set(list[Math.min(boardPlace().page, list.length) - 1] ?? [])
  })
  const measure = () => {
    if (!room || !table) return
    const body = table.tBodies[0]
    const head = table.tHead?.getBoundingClientRect().height ?? 0
    const rows = Array.from(body?.rows ?? [], (row, place) => ({
      heightPixels: row.getBoundingClientRect().height,
      heads: props.rows[place]?.heading !== undefined,
    }))
    const next = rowPages(rows, Math.max(1, room.clientHeight - head))
    setPages(next)
    tellPages(next.length)
    setMeasuring(false)
  }
  let frame = 0
  const measureSoon = () => {
    setMeasuring(true)
    cancelAnimationFrame(frame)
    frame = requestAnimationFrame(measure)
  }
  sync(() => props.rows, measureSoon)
  onMount(() => {
    if (!room || typeof ResizeObserver === 'undefined') return
    const sizes = new ResizeObserver(measureSoon)
    sizes.observe(room)
    onCleanup(() => sizes.disconnect())
  })
  onCleanup(() => cancelAnimationFrame(frame))
  return (
    <div class="row-pages" ref={room} classList={{ measuring: measuring() }}>
      <table ref={table}>
        <caption class="visually-hidden">{props.caption}</caption>
        <colgroup>
          <For each={props.shares}>{(share) => <col style={{ width: `${share}%` }} />}</For>
        </colgroup>
        <thead>
          <tr>
            <For each={props.headings}>{(heading) => <th scope="col">{heading}</th>}</For>
          </tr>
        </thead>
        <tbody>
          <For each={props.rows}>
            {(row, place) => (
              <tr
                hidden={!measuring() && !shown().has(place())}
                classList={{ presses: row.presses === true }}
              >
                <Show
                  when={row.heading}
                  fallback={
                    <For each={row.cells}>
                      {(cell, column) => (
                        <Show when={column() === 0} fallback={<td>{cell}</td>}>
                          <th scope="row">{cell}</th>
                        </Show>
                      )}
                    </For>
                  }
                >
                  {(heading) => (
                    <th scope="colgroup" class="row-heading" colspan={props.headings.length}>
                      {heading()}
                    </th>
                  )}
                </Show>
              </tr>
            )}
          </For>
        </tbody>
      </table>
    </div>
  )
}
