import { createMemo, For, Show } from 'solid-js'
import { type SurfaceAspect, surfaceAspects } from '#domain/ground/surface-aspects.ts'
import { type SurfaceMethod, surfaceMethods } from '#domain/ground/surface-methods.ts'
import { pressureTips } from '../derived/ground/string-pressures.ts'
import { strataOfTips } from '../derived/water-points.ts'
import { isLayerShown } from '../state/plan-layers.ts'
import { clockEpochMs } from '../state/site-clock.ts'
import { siteDocument } from '../state/site-document.ts'
import {
  chooseSurfaceAspect,
  chooseSurfaceMethod,
  chooseSurfaceStratum,
  surfaceAspect,
  surfaceMethod,
  surfaceStratum,
} from '../state/surface-choice.ts'

/** How the surface is drawn between points, and of water in which stratum. */
export function SurfaceChoice() {
  const strata = createMemo(() => {
    const [document, at] = [siteDocument(), clockEpochMs()]
    return document && at !== null ? strataOfTips(pressureTips(document, at)) : []
  })
  return (
    <>
      <Show when={!isLayerShown('computed')}>
        <label class="key-field">
          Between points
          <select
            value={surfaceMethod()}
            onChange={(event) => chooseSurfaceMethod(event.currentTarget.value as SurfaceMethod)}
          >
            <For each={surfaceMethods}>{(one) => <option value={one}>{methodNames[one]}</option>}</For>
          </select>
        </label>
      </Show>
      <Show when={isLayerShown('contours') || isLayerShown('change')}>
        <label class="key-field">
          Show
          <select
            value={surfaceAspect()}
            onChange={(event) => chooseSurfaceAspect(event.currentTarget.value as SurfaceAspect)}
          >
            <For each={surfaceAspects}>{(one) => <option value={one}>{aspectNames[one]}</option>}</For>
          </select>
        </label>
      </Show>
      <Show when={isLayerShown('water') && strata().length > 0}>
        <label class="key-field">
          Stratum
          <select
            value={surfaceStratum() ?? strata().at(-1)}
            onChange={(event) => chooseSurfaceStratum(event.currentTarget.value)}
          >
            <For each={strata()}>{(one) => <option value={one}>{one}</option>}</For>
          </select>
        </label>
      </Show>
    </>
  )
}

const aspectNames: Readonly<Record<SurfaceAspect, string>> = {
  values: 'Settlement',
  slope: 'Slope of the ground',
  distortion: 'Angular distortion of the ground',
}

const methodNames: Readonly<Record<SurfaceMethod, string>> = {
  kriging: 'Kriging, with its deviation',
  'kriging-plane': 'Kriging around a plane (ground that tilts as a whole)',
  linear: 'Straight lines',
  'natural-neighbours': 'Natural neighbours',
  'inverse-distance': 'Inverse distance (fallback)',
}
