import { For, Show } from 'solid-js'
import { type NeighbourKind, neighbourSigns } from '../../derived/review/neighbour-words.ts'
import { lonelySentence } from '../../derived/review/neighbours-found.ts'
import { neighboursFound, neighboursTrouble, neighboursWaiting } from '../../state/neighbours-shown.ts'

const lineNames = { whole: 'whole line', dashes: 'dashed', dots: 'dotted', stub: 'broken off' } as const

/** What plates, lines and rings around the series reviewed mean. */
export function NeighbourKey() {
  const kinds = Object.entries(neighbourSigns) as [NeighbourKind, (typeof neighbourSigns)[NeighbourKind]][]
  return (
    <>
      <div class="neighbour-key">
        <For each={kinds}>
          {([, { sign, name, line }]) => (
            <span class="key-row">
              <b class="neighbour-sign" aria-hidden="true">
                {sign}
              </b>
              <span>
                {name} ({lineNames[line]})
              </span>
            </span>
          )}
        </For>
      </div>
      <p class="key-note">
        Figures beside a shape: what the neighbour itself changed by, in its own unit. Rings: each point left
        out of the surface in turn; filled, it reads more than all others say, open, less. The larger the ring
        the more standard errors; from 2 on they are written at the lower left.
      </p>
      <p class="key-note">
        <Show when={neighboursFound()} fallback={neighboursTrouble() ?? neighboursWaiting() ?? awaited}>
          {(found) => (
            <>
              {lonelySentence(found()) ?? `Around ${found().point}; the table stands in Review, Neighbours.`}
            </>
          )}
        </Show>
      </p>
    </>
  )
}

const awaited = 'Select a point whose neighbours are wanted.'
