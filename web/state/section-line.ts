import { createSignal } from 'solid-js'

/** A corner of a section line, site grid metres. */
export interface GridPoint {
  readonly eastingMetres: number
  readonly northingMetres: number
}

const [sectionLine, setSectionLine] = createSignal<readonly GridPoint[]>([])
const [drawingSection, setDrawingSection] = createSignal(false)

/** Corners of the section line in order of chainage; empty when none is drawn. */
export { drawingSection, sectionLine }

/** Takes a line of two or more distinct corners; fewer clear it. Corners are kept to the centimetre. */
export function drawSection(corners: readonly GridPoint[]): void {
  const rounded = corners.map((corner) => ({
    eastingMetres: Math.round(corner.eastingMetres * 100) / 100,
    northingMetres: Math.round(corner.northingMetres * 100) / 100,
  }))
  const distinct = rounded.filter((corner, place) => {
    const before = rounded[place - 1]
    return (
      before === undefined ||
      before.eastingMetres !== corner.eastingMetres ||
      before.northingMetres !== corner.northingMetres
    )
  })
  setSectionLine(distinct.length >= 2 ? distinct : [])
}

export function clearSection(): void {
  setSectionLine([])
}

/** Turns the tool on or off with which a line is tapped on the plan. */
export function takeSectionTool(on: boolean): void {
  setDrawingSection(on)
}
