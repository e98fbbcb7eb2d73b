import { createSignal } from 'solid-js'

/** Which part of the plan is reviewed: around what is selected, or an area that was drawn. */
export type Patch =
  | { readonly kind: 'around'; readonly radiusMetres: number }
  | {
      readonly kind: 'area'
      readonly corners: readonly { readonly eastingMetres: number; readonly northingMetres: number }[]
    }

export const patchRadii = [15, 30, 60] as const
export const firstPatch: Patch = { kind: 'around', radiusMetres: 30 }

const [patch, setPatch] = createSignal<Patch>(firstPatch)

export { patch }

/** An area needs three corners; with fewer nothing changes. */
export function takePatch(wanted: Patch): void {
  if (wanted.kind === 'around' || wanted.corners.length >= 3) setPatch(wanted)
}

/** As the address carries it: `30`, or corners `e,n e,n e,n` to the decimetre. */
export const writePatch = (patch: Patch): string =>
  patch.kind === 'around'
    ? String(patch.radiusMetres)
    : patch.corners
        .map(({ eastingMetres, northingMetres }) => `${round(eastingMetres)},${round(northingMetres)}`)
        .join(' ')

export function readPatch(text: string | null): Patch {
  const words = (text ?? '').split(' ').filter((word) => word !== '')
  const [only] = words
  if (words.length === 1 && only !== undefined && /^\d{1,3}$/.test(only) && Number(only) > 0)
    return { kind: 'around', radiusMetres: Number(only) }
  const corners = words.flatMap((word) => {
    const [eastingMetres, northingMetres] = word.split(',').map(Number)
    return eastingMetres !== undefined &&
      northingMetres !== undefined &&
      Number.isFinite(eastingMetres + northingMetres)
      ? [{ eastingMetres, northingMetres }]
      : []
  })
  return corners.length >= 3 ? { kind: 'area', corners } : firstPatch
}

const round = (metres: number) => Math.round(metres * 10) / 10
