import { createMemo, createSignal, For, Show } from 'solid-js'
import { pointsBehindWall } from '#domain/ground/troughs/points-behind-wall.ts'
import {
  type PointBehindWall,
  troughBehindWall,
  type WallReading,
} from '#domain/ground/troughs/trough-behind-wall.ts'
import { wallFigures } from '../../derived/figures/wall-figures.ts'
import { asSettledPlaces, placesWithin } from '../../derived/ground/settled-places.ts'
import { lateSentence } from '../../derived/ground/wall-readings.ts'
import { selectedPoint } from '../../state/selection.ts'
import { clockEpochMs } from '../../state/site-clock.ts'
import { siteDocument } from '../../state/site-document.ts'
import { formatShortInstant } from '../../ui/format-instant.ts'
import { formatValue } from '../../ui/format-value.ts'
import { AnalysisResult } from './AnalysisResult.tsx'
import { createSettledPlaces } from './settled-places.ts'
import { WallFields } from './WallFields.tsx'
import { createWallDeflection } from './wall-deflection.ts'
import { createWall } from './wall-of-panel.ts'

/** How a wall bends into a dig between two instants, and what the ground behind it does. */
export function WallAnalysis() {
  const zone = () => siteDocument()?.facts.timeZone ?? 'UTC'
  const wall = createWall()
  const deflection = createWallDeflection(wall.read, wall.sinceEpochMs)
  const settled = createSettledPlaces(wall.sinceEpochMs)
  const [within, setWithin] = createSignal(12)
  const behind = createMemo((): readonly PointBehindWall[] => {
    const [on, points] = [wall.chosen(), settled.places()]
    if (!on || !points) return []
    const { face, place } = on
    const near = placesWithin(asSettledPlaces(points), face.stationOf, 4 * wall.depthMetres())
    return pointsBehindWall(near, face.stationOf, {
      dugSide: face.dugSide,
      chainageMetres: face.stationOf(place)?.chainageMetres ?? 0,
      withinMetres: within(),
    }).filter(({ distanceMetres }) => distanceMetres >= -1)
  })
  const outcome = createMemo(() => {
    const shown = deflection.profile()
    return shown && settled.places()
      ? troughBehindWall(wall.inward(shown), wall.depthMetres(), behind())
      : null
  })
  const missing = () => {
    const shown = deflection.profile()
    const sentence = shown && lateSentence(shown)
    return sentence ? [sentence] : []
  }
  const title = () =>
    `${wall.chosen()?.face.name}, ${wall.chosen()?.instrument.id}: from ${formatShortInstant(wall.sinceEpochMs(), zone())} to ${formatShortInstant(clockEpochMs() ?? 0, zone())}`
  return (
    <Show
      when={wall.chosen()}
      fallback={
        <p class="waiting">
          At the clock no inclinometer stands within 2 m of a wall of the works beside an open excavation.
        </p>
      }
    >
      <WallFields wall={wall} within={within()} setWithin={setWithin} />
      <For each={[...wall.sentences(), ...missing(), ...deflection.remarks(), ...settled.remarks()]}>
        {(remark) => <p class="waiting">{remark}</p>}
      </For>
      <Show
        when={outcome()}
        keyed
        fallback={
          <p class="waiting">
            {deflection.subject() === null
              ? 'No deflection along that axis is published of it.'
              : deflection.waiting() || settled.waiting()
                ? 'Asking for readings …'
                : 'No readings.'}
          </p>
        }
      >
        {(found) => (
          <AnalysisResult
            figures={wallFigures(found, {
              title: title(),
              selected: selectedPoint()?.id ?? null,
              timeZone: zone(),
            })}
            accounts={found.ok ? [{ heading: 'Behind the wall', account: found.value }] : []}
            nameOf={(item: WallReading | PointBehindWall) =>
              'id' in item ? item.id : `${formatValue(item.depthMetres, 2)} m deep`
            }
          />
        )}
      </Show>
    </Show>
  )
}
