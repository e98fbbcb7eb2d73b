import { createMemo, createSignal, For, Show } from 'solid-js'
import { usualStiffnessRatio } from '#domain/ground/building-damage.ts'
import { type FacadePoint, facadeResponse } from '#domain/ground/facade-response.ts'
import { facadeFigure } from '../../derived/figures/building-figures.ts'
import { facadePoints, facadesOf } from '../../derived/ground/facade-places.ts'
import { selectedPoint } from '../../state/selection.ts'
import { clockEpochMs } from '../../state/site-clock.ts'
import { siteDocument } from '../../state/site-document.ts'
import { formatShortInstant } from '../../ui/format-instant.ts'
import { AnalysisResult } from './AnalysisResult.tsx'
import { NumberField } from './NumberField.tsx'
import { SinceField } from './SinceField.tsx'
import { createSettledPlaces } from './settled-places.ts'

const fourWeeksMs = 28 * 86_400_000

/** How the levelled points along a structure sag, hog and tilt at the clock, with the published categories as guidance. */
export function FacadeAnalysis() {
  const zone = () => siteDocument()?.facts.timeZone ?? 'UTC'
  const facades = createMemo(() => {
    const document = siteDocument()
    return document ? facadesOf(document) : []
  })
  const [wanted, choose] = createSignal<string | null>(null)
  const facade = () => facades().find(({ id }) => id === wanted()) ?? facades()[0] ?? null
  const [since, setSince] = createSignal<number | null>(null)
  const { places, remarks, waiting } = createSettledPlaces(() => since() ?? 'zero-reading')
  const [height, setHeight] = createSignal<number | null>(null)
  const heightMetres = () => height() ?? facade()?.structureHeightMetres ?? null
  const [ratio, setRatio] = createSignal<number | null>(null)
  const stiffnessRatio = () => ratio() ?? facade()?.structureStiffnessRatio ?? usualStiffnessRatio
  const [measuredStrain, setMeasuredStrain] = createSignal(false)
  const [strain, setStrain] = createSignal(0)
  const outcome = createMemo(() => {
    const [document, on, settled] = [siteDocument(), facade(), places()]
    return document && on && settled
      ? facadeResponse(
          facadePoints(document, on.id, settled),
          {
            heightMetres: heightMetres(),
            stiffnessRatio: stiffnessRatio(),
            horizontalStrainMmPerM: measuredStrain() ? strain() : null,
          },
          on.surveyMaximumAgeDays ?? null,
        )
      : null
  })
  const figure = () => {
    const found = outcome()
    const [from, at] = [since(), formatShortInstant(clockEpochMs() ?? 0, zone())]
    const times =
      from === null
        ? `since the zero readings, at ${at}`
        : `from ${formatShortInstant(from, zone())} to ${at}`
    return (
      found &&
      facadeFigure(found, {
        title: `${facade()?.id}: settlement along the façade ${times}`,
        selected: selectedPoint()?.id ?? null,
        timeZone: zone(),
      })
    )
  }
  const account = () => {
    const found = outcome()
    return found?.ok ? [{ heading: 'Façade', account: found.value }] : []
  }
  return (
    <Show
      when={facade()}
      fallback={
        <p class="waiting">
          The records name no façade. Add an instrument of kind structure-line and the points along it in
          structure-lines.csv.
        </p>
      }
    >
      {(on) => (
        <>
          <div class="ground-fields">
            <label class="ground-field">
              Façade
              <select
                value={on().id}
                onChange={(event) => {
                  choose(event.currentTarget.value)
                  setHeight(null)
                  setRatio(null)
                }}
              >
                <For each={facades()}>{({ id }) => <option value={id}>{id}</option>}</For>
              </select>
            </label>
            <label class="ground-field">
              Settlement since
              <select
                value={since() === null ? 'zero' : 'instant'}
                onChange={(event) =>
                  setSince(event.currentTarget.value === 'zero' ? null : (clockEpochMs() ?? 0) - fourWeeksMs)
                }
              >
                <option value="zero">the zero readings</option>
                <option value="instant">an instant</option>
              </select>
            </label>
            <Show when={since()}>
              {(from) => <SinceField name="Instant" atEpochMs={from()} onChange={setSince} />}
            </Show>
            <NumberField
              name="Height of the structure"
              unit="m"
              value={heightMetres() ?? 0}
              least={0.1}
              onChange={setHeight}
            />
            <NumberField
              name="E/G of the structure"
              unit=""
              value={stiffnessRatio()}
              least={0.1}
              onChange={setRatio}
            />
            <label class="ground-field">
              Horizontal strain
              <select
                value={measuredStrain() ? 'stated' : 'unknown'}
                onChange={(event) => setMeasuredStrain(event.currentTarget.value === 'stated')}
              >
                <option value="unknown">not known</option>
                <option value="stated">measured by other means</option>
              </select>
            </label>
            <Show when={measuredStrain()}>
              <NumberField
                name="Extension of the façade"
                unit="mm/m"
                value={strain()}
                least={-20}
                most={20}
                onChange={setStrain}
              />
            </Show>
          </div>
          <Show when={on().note}>{(note) => <p class="waiting">{note()}</p>}</Show>
          <For each={remarks()}>{(remark) => <p class="waiting">{remark}</p>}</For>
          <Show
            when={figure()}
            fallback={<p class="waiting">{waiting() ? 'Asking for settlements …' : 'Nothing to draw.'}</p>}
          >
            {(shown) => (
              <AnalysisResult
                figures={[shown()]}
                accounts={account()}
                nameOf={(point: FacadePoint) => point.id}
              />
            )}
          </Show>
        </>
      )}
    </Show>
  )
}
