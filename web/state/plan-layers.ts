import { createSignal } from 'solid-js'

/** Layers of the plan that a person can switch. The measuring points themselves follow the kind filter. */
export const planLayers = [
  'works',
  'labels',
  'contours',
  'change',
  'water',
  'computed',
  'delivery',
  'coverage',
  'radio',
  'notes',
  'neighbours',
] as const
export type PlanLayer = (typeof planLayers)[number]

export const firstLayers: readonly PlanLayer[] = ['works', 'labels']

/** Only one surface is drawn at a time: two would hide each other. */
export const surfaceLayers: readonly PlanLayer[] = ['contours', 'change', 'water', 'computed']

const [shownLayers, setShownLayers] = createSignal<readonly PlanLayer[]>(firstLayers)

export { shownLayers }

export const isLayerShown = (layer: PlanLayer): boolean => shownLayers().includes(layer)

export function toggleLayer(layer: PlanLayer): void {
  if (isLayerShown(layer)) restoreLayers(shownLayers().filter((one) => one !== layer))
  else {
    const hidden = surfaceLayers.includes(layer) ? surfaceLayers : []
    restoreLayers([...shownLayers().filter((one) => !hidden.includes(one)), layer])
  }
}

/** Layers in their fixed order, whatever order they were asked for in. */
export function restoreLayers(wanted: readonly PlanLayer[]): void {
  setShownLayers(planLayers.filter((layer) => wanted.includes(layer)))
}
