import { createMemo, For, Show } from 'solid-js'
import { barriersAt } from '#domain/ground/barriers-at.ts'
import { companionsOf } from '#domain/review/case/companions.ts'
import { siteWater } from '#domain/site/site-water.ts'
import {
  compared,
  comparedSeries,
  leadCompared,
  mostCompared,
  pickCompared,
  pickingCompared,
  restoreCompared,
  toggleCompared,
} from '../../state/compared.ts'
import { reviewedSeries, reviewStretch } from '../../state/reviewed-series.ts'
import { openSheet } from '../../state/sheet.ts'
import { siteDocument, siteLookup } from '../../state/site-document.ts'
import { siteGrid } from '../../state/site-grid.ts'
import { measureNames } from '../../ui/kind-names.ts'

/** The series that are compared, and every way to take one in or out: plan, register, search, neighbours. */
export function ComparedList() {
  let search: HTMLInputElement | undefined
  const known = createMemo(() => siteDocument()?.series ?? [])
  const full = () => compared().length >= mostCompared
  const take = () => {
    const id = search?.value.trim() ?? ''
    if (!search || !siteLookup().seriesById.has(id)) return
    if (!compared().includes(id)) toggleCompared(id)
    search.value = ''
  }
  return (
    <section aria-label="Series compared" class="compared-list">
      <Show
        when={comparedSeries().length > 0}
        fallback={
          <p class="review-known">No series is chosen yet. Take up to {mostCompared} of any quantity.</p>
        }
      >
        <ol class="compared-chips">
          <For each={comparedSeries()}>
            {(one, place) => (
              <li>
                <button
                  type="button"
                  aria-pressed={place() === 0}
                  title={place() === 0 ? 'The others are held against it' : 'Hold the others against it'}
                  onClick={() => leadCompared(one.id)}
                >
                  {place() + 1} <b>{one.point}</b> {measureNames[one.measure].toLowerCase()}
                </button>
                <button
                  type="button"
                  aria-label={`Take ${one.id} out of the comparison`}
                  onClick={() => toggleCompared(one.id)}
                >
                  ×
                </button>
              </li>
            )}
          </For>
        </ol>
        <p class="review-known">
          The others are held against {comparedSeries()[0]?.id}; press another to change that.
        </p>
      </Show>
      <div class="review-asked">
        <label>
          Add a series
          <input
            ref={(element) => (search = element)}
            list="compared-choices"
            autocomplete="off"
            placeholder="SP-31/settlement"
            disabled={full()}
            onChange={take}
            onKeyDown={(event) => {
              if (event.key === 'Enter') take()
            }}
          />
        </label>
        <datalist id="compared-choices">
          <For each={known()}>{(one) => <option value={one.id}>{measureNames[one.measure]}</option>}</For>
        </datalist>
        <div class="buttons">
          <button
            type="button"
            aria-pressed={pickingCompared()}
            onClick={() => pickCompared(!pickingCompared())}
          >
            Pick on the plan
          </button>
          <button
            type="button"
            onClick={() => {
              pickCompared(true)
              openSheet('register')
            }}
          >
            Pick in the register
          </button>
          <Show when={reviewedSeries()}>
            {(subject) => (
              <button type="button" onClick={() => restoreCompared(withNeighbours(subject().id))}>
                {subject().point} and its neighbours
              </button>
            )}
          </Show>
          <Show when={compared().length > 0}>
            <button type="button" onClick={() => restoreCompared([])}>
              Take all out
            </button>
          </Show>
        </div>
      </div>
      <Show when={pickingCompared()}>
        <p class="review-known" role="status">
          A tap on the plan takes a series in or out; by keyboard, arrows select and Enter takes. Its number
          stands above it. {full() ? `${mostCompared} are chosen: take one out first.` : ''}
        </p>
      </Show>
    </section>
  )
}

/** A series with the same quantity beside it, and what else shows a movement there. */
function withNeighbours(id: string): readonly string[] {
  const [document, grid, stretch] = [siteDocument(), siteGrid(), reviewStretch()]
  const subject = siteLookup().seriesById.get(id)
  if (!document || !grid || !stretch || !subject) return [id]
  const { same, other } = companionsOf(document, subject, {
    network: null,
    barriers: barriersAt(document.works, grid, stretch.asOfEpochMs),
    waterUnitWeightKnPerM3: siteWater(document.facts).unitWeightKnPerM3,
  })
  return [id, ...[...same, ...other.slice(0, 3)].map(({ series }) => series.id)]
}
