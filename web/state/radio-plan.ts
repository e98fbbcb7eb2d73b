import { createSignal } from 'solid-js'
import { type RadioTerms, usualTerms } from '#domain/radio/receiver-sensitivity.ts'
import type { SpreadingFactor } from '#domain/site/vocabulary.ts'
import type { PlannedObstruction } from '../derived/radio/planned-obstruction.ts'
import type { GridPoint } from './section-line.ts'

/** A gateway where somebody thinks of moving it; an id that the site does not know is one more. */
export interface PlannedGateway extends GridPoint {
  readonly id: string
  /** Of the antenna. */
  readonly levelMetres: number
}

const [wantedShare, wantShare] = createSignal(0.9)
const [radioTerms, stateTerms] = createSignal<RadioTerms>(usualTerms)
const [shownFactor, showFactor] = createSignal<SpreadingFactor>(7)
const [shownGateway, showGateway] = createSignal<string | null>(null)
const [plannedObstruction, planObstruction] = createSignal<PlannedObstruction | null>(null)
const [plannedGateway, planGateway] = createSignal<PlannedGateway | null>(null)

/** Share of packets that is wanted of a link, 0 to 1. */
/** Frequency, bandwidth and receiver that links are judged with. */
/** What predicted delivery on the plan is of; a null gateway is the best of all. */
export {
  planGateway,
  plannedGateway,
  plannedObstruction,
  planObstruction,
  radioTerms,
  showFactor,
  showGateway,
  shownFactor,
  shownGateway,
  stateTerms,
  wantedShare,
  wantShare,
}

/** Takes corners that were drawn, kept to the centimetre, with the shape and top that were planned before. */
export function placeObstruction(corners: readonly GridPoint[]): void {
  const before = plannedObstruction()
  planObstruction({
    corners: corners.map(roundedPlace),
    closed: (before?.closed ?? false) && corners.length > 2,
    topLevelMetres: before?.topLevelMetres ?? firstTopLevelMetres,
  })
}

/** A stack of three containers on ground about the datum; people put in their own. */
const firstTopLevelMetres = 8

/** Takes the place that was tapped for the gateway that is being planned. */
export function placeGateway(place: GridPoint | undefined): void {
  const before = plannedGateway()
  if (place && before) planGateway({ ...before, ...roundedPlace(place) })
}

const roundedPlace = ({ eastingMetres, northingMetres }: GridPoint): GridPoint => ({
  eastingMetres: Math.round(100 * eastingMetres) / 100,
  northingMetres: Math.round(100 * northingMetres) / 100,
})
