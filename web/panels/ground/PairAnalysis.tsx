import { createMemo, createSignal, For, Show } from 'solid-js'
import { metresBetween } from '#domain/geometry/straight-distance.ts'
import { barrierBetween } from '#domain/ground/barrier-between.ts'
import { barriersAt } from '#domain/ground/barriers-at.ts'
import { betweenTwoPoints } from '#domain/ground/between-two-points.ts'
import type { SettledPlace } from '#domain/ground/settled-place.ts'
import { pairFigure } from '../../derived/figures/pair-figure.ts'
import { selectedPoint } from '../../state/selection.ts'
import { clockEpochMs } from '../../state/site-clock.ts'
import { siteDocument } from '../../state/site-document.ts'
import { siteGrid } from '../../state/site-grid.ts'
import { formatShortInstant } from '../../ui/format-instant.ts'
import { AnalysisResult } from './AnalysisResult.tsx'
import { SinceField } from './SinceField.tsx'
import { createSettledPlaces } from './settled-places.ts'

/** How two points settled against each other, how steep that is, and how a third between them bends their line. */
export function PairAnalysis() {
  const zone = () => siteDocument()?.facts.timeZone ?? 'UTC'
  const [since, setSince] = createSignal<number | null>(null)
  /** The end of the first stage, readings before any works being its zero; before that, four weeks before the clock. */
  const sinceEpochMs = () => {
    const at = clockEpochMs() ?? 0
    const first = siteDocument()?.stages[0]?.endsAt ?? null
    return since() ?? (first !== null && first < at ? first : at - 28 * 86_400_000)
  }
  const settled = createSettledPlaces(sinceEpochMs)
  const places = createMemo((): readonly SettledPlace[] =>
    (settled.places() ?? [])
      .map(({ valueMm, ...rest }) => ({ ...rest, settlementMm: valueMm }))
      .toSorted((one, other) => one.id.localeCompare(other.id, 'en', { numeric: true })),
  )
  const byId = createMemo(() => new Map(places().map((place) => [place.id, place])))
  const [chosen, setChosen] = createSignal<{ first?: string; second?: string; between?: string }>({})
  const first = () => byId().get(chosen().first ?? selectedPoint()?.id ?? '') ?? places()[0] ?? null
  const second = createMemo(() => {
    const one = first()
    return byId().get(chosen().second ?? '') ?? (one && nearest(one, places()))
  })
  const between = () => byId().get(chosen().between ?? '') ?? null
  const isParted = createMemo(() => {
    const [document, grid, at, one, other] = [siteDocument(), siteGrid(), clockEpochMs(), first(), second()]
    if (!document || !grid || at === null || !one || !other) return false
    return barrierBetween(barriersAt(document.works, grid, at))(
      [one.eastingMetres, one.northingMetres],
      [other.eastingMetres, other.northingMetres],
    )
  })
  const outcome = createMemo(() => {
    const [one, other] = [first(), second()]
    return one && other ? betweenTwoPoints(one, other, between(), isParted()) : null
  })
  return (
    <>
      <div class="ground-fields">
        <PointField
          name="First point"
          places={places()}
          value={first()?.id ?? ''}
          onChange={(id) => setChosen({ ...chosen(), first: id })}
        />
        <PointField
          name="Second point"
          places={places()}
          value={second()?.id ?? ''}
          onChange={(id) => setChosen({ ...chosen(), second: id })}
        />
        <PointField
          name="A third between them"
          places={places()}
          value={between()?.id ?? ''}
          none="none"
          onChange={(id) => setChosen({ ...chosen(), between: id })}
        />
        <SinceField name="Since" atEpochMs={sinceEpochMs()} onChange={setSince} />
      </div>
      <For each={settled.remarks()}>{(remark) => <p class="waiting">{remark}</p>}</For>
      <Show
        when={outcome()}
        keyed
        fallback={
          <p class="waiting">
            {settled.waiting()
              ? 'Asking for settlements …'
              : 'Two levelled points are needed; no difference can be stated.'}
          </p>
        }
      >
        {(found) => (
          <AnalysisResult
            figures={[
              pairFigure(found, {
                title: `${first()?.id} and ${second()?.id}: settlement from ${formatShortInstant(sinceEpochMs(), zone())} to ${formatShortInstant(clockEpochMs() ?? 0, zone())}`,
                selected: selectedPoint()?.id ?? null,
                timeZone: zone(),
              }),
            ]}
            accounts={found.ok ? [{ heading: 'Between two points', account: found.value }] : []}
            nameOf={(place: SettledPlace) => place.id}
          />
        )}
      </Show>
    </>
  )
}

function PointField(props: {
  name: string
  places: readonly SettledPlace[]
  value: string
  none?: string
  onChange: (id: string) => void
}) {
  return (
    <label class="ground-field">
      {props.name}
      <select value={props.value} onChange={(event) => props.onChange(event.currentTarget.value)}>
        <Show when={props.none}>{(none) => <option value="">{none()}</option>}</Show>
        <For each={props.places}>{({ id }) => <option value={id}>{id}</option>}</For>
      </select>
    </label>
  )
}

/** The nearest other place with a current value; where none has one, the nearest. */
function nearest(one: SettledPlace, places: readonly SettledPlace[]): SettledPlace | null {
  const metres = (other: SettledPlace) => metresBetween(one, other)
  const others = places.filter((other) => metres(other) > 0.01)
  const known = others.filter(({ settlementMm, late }) => settlementMm !== null && !late)
  return (known.length > 0 ? known : others).toSorted((a, b) => metres(a) - metres(b))[0] ?? null
}
