import { createMemo, createRoot } from 'solid-js'
import { type NoteMark, noteMarks, type PlacedNote, placedNotes } from '../derived/note-marks.ts'
import { knownEntries } from './field-work.ts'
import { isLayerShown } from './plan-layers.ts'
import { clockEpochMs } from './site-clock.ts'
import { siteDocument } from './site-document.ts'
import { siteGrid } from './site-grid.ts'

const none: readonly NoteMark[] = []

/** Notes and damage reports that this device knows of, written by the clock, while their layer is shown. */
export const notesShown = createRoot(() =>
  createMemo((): readonly PlacedNote[] => {
    const [document, at] = [siteDocument(), clockEpochMs()]
    if (!document || at === null || !isLayerShown('notes')) return []
    const locations = new Map(document.locations.map((one) => [one.id, one]))
    const points = new Map(document.points.map((one) => [one.id, one]))
    const standsAt = new Map<string, string | null>(
      [...document.instruments, ...document.loggers, ...document.gateways].map(({ id, location }) => [
        id,
        location,
      ]),
    )
    const placeOf = (name: string) => points.get(name) ?? locations.get(standsAt.get(name) ?? name) ?? null
    return placedNotes(
      knownEntries().map(({ entry }) => entry),
      placeOf,
      at,
    )
  }),
)

export const noteMarksShown = createRoot(() =>
  createMemo((): readonly NoteMark[] => {
    const [grid, notes] = [siteGrid(), notesShown()]
    return grid && notes.length > 0 ? noteMarks(notes, grid.toLngLat) : none
  }),
)
