import type * as maplibregl from 'maplibre-gl'
import { describeCoverage } from '../../derived/coverage-marks.ts'
import { describeNote } from '../../derived/note-marks.ts'
import { signAside } from './layers/note-layers.ts'
import { nearestSymbol } from './pick-symbol.ts'
import type { PlanMapProps } from './plan-map-props.ts'
import { createSymbolCard } from './symbol-card.ts'
import { symbolSizePixels } from './symbol-size.ts'

export const tapRadiusPixels = 26
const signRadiusPixels = 16

/** The card beside what is pointed at, selected or tapped: an instrument, a note, a coverage test. */
export function createPlanCard(
  element: HTMLElement,
  map: maplibregl.Map,
  pixels: (at: { longitude: number; latitude: number }) => { x: number; y: number },
) {
  const card = createSymbolCard(element)
  let openTest: string | null = null
  let openNote: string | null = null

  /** A coverage test near a tap, where no symbol is. */
  function nearestTest(props: PlanMapProps, x: number, y: number): string | null {
    const tests = props.coverage.map((mark) => ({ id: mark.test, ...pixels(mark) }))
    return nearestSymbol(tests, x, y, tapRadiusPixels)
  }

  /** Notes whose sign was tapped; it stands beside its place, where the symbol of an instrument may be. */
  function nearestNote(props: PlanMapProps, x: number, y: number): string | null {
    const [right, below] = signAside(symbolSizePixels(map.getZoom(), props.scale))
    const notes = props.notes.map((mark) => ({ id: mark.id, ...pixels(mark) }))
    return nearestSymbol(notes, x - right, y - below, signRadiusPixels)
  }

  function show(props: PlanMapProps, hoveredId: string | null): void {
    // The card of what is selected would lie over what stands around it.
    const isAroundIt = props.neighbours || props.picked || props.area.length > 0
    const standing = isAroundIt ? null : props.selectedId
    const note = hoveredId === null ? props.notes.find((mark) => mark.id === openNote) : undefined
    const symbol =
      props.drawingSection || note
        ? undefined
        : props.symbols.find(({ id }) => id === (hoveredId ?? standing))
    const test = symbol || note ? undefined : props.coverage.find((mark) => mark.test === openTest)
    if (test) {
      const { x, y } = pixels(test)
      card.show(describeCoverage(test), x, y, element.clientWidth, element.clientHeight)
    } else if (note) {
      const { x, y } = pixels(note)
      card.show(note.notes.slice(0, 5).map(describeNote), x, y, element.clientWidth, element.clientHeight)
    } else if (!symbol) card.hide()
    else {
      const { x, y } = pixels(symbol)
      card.show(props.describe(symbol), x, y, element.clientWidth, element.clientHeight)
    }
  }

  return {
    show,
    /** Opens the notes whose sign was tapped; false: none was. */
    openNoteAt(props: PlanMapProps, x: number, y: number): boolean {
      openNote = nearestNote(props, x, y)
      if (openNote === null) return false
      show(props, null)
      return true
    },
    /** Opens the coverage test near a tap, unless that was on a symbol; it shows with the next card. */
    openTestAt(props: PlanMapProps, x: number, y: number, isOnSymbol: boolean): void {
      openTest = isOnSymbol ? null : nearestTest(props, x, y)
    },
    destroy: card.destroy,
  }
}
