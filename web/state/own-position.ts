import { createSignal } from 'solid-js'
import { metresBetween, type Place } from '#domain/geometry/straight-distance.ts'
import { siteDocument } from './site-document.ts'
import { siteGrid } from './site-grid.ts'

/** Where the person stands, on the site's grid. */
export interface OwnPosition extends Place {
  /** Radius that the device states; of a place chosen by hand, how near one is taken to stand. */
  readonly accuracyMetres: number
  readonly atEpochMs: number
  readonly from: 'device' | 'hand'
}

export type PositionStanding = 'off' | 'asking' | 'known' | 'far-off' | 'refused'

/** Farther than this from every location of the site a position cannot be meant. */
const farOffMetres = 1000

const [position, setPosition] = createSignal<OwnPosition | null>(null)
const [standing, setStanding] = createSignal<PositionStanding>('off')
const [sentence, setSentence] = createSignal<string | null>(null)
let watching: number | null = null

export {
  /** Null: not asked for, not known, or so far off that it is not used. */
  position as ownPosition,
  /** What must be said of the position; null: nothing. */
  sentence as positionSentence,
  standing as positionStanding,
}

/** Follows the device's position until told otherwise. */
export function followPosition(): void {
  if (!('geolocation' in navigator)) {
    setStanding('refused')
    setSentence('This device gives no position. Choose the place that you stand at by hand.')
    return
  }
  stopFollowing()
  setStanding('asking')
  setSentence(null)
  watching = navigator.geolocation.watchPosition(take, refuse, {
    enableHighAccuracy: true,
    maximumAge: 5000,
    timeout: 30_000,
  })
}

export function stopFollowing(): void {
  if (watching !== null) navigator.geolocation.clearWatch(watching)
  watching = null
  setPosition(null)
  setStanding('off')
  setSentence(null)
}

/** Takes a location of the site as the place where the person stands. */
export function standAt(location: string): void {
  const place = siteDocument()?.locations.find(({ id }) => id === location)
  if (!place) return
  stopFollowing()
  setPosition({
    eastingMetres: place.eastingMetres,
    northingMetres: place.northingMetres,
    accuracyMetres: 5,
    atEpochMs: Date.now(),
    from: 'hand',
  })
  setStanding('known')
  setSentence(`Taken to stand at ${location}, chosen by hand.`)
}

function take({ coords, timestamp }: GeolocationPosition): void {
  const grid = siteGrid()
  if (!grid) return
  const [eastingMetres, northingMetres] = grid.toGrid([coords.longitude, coords.latitude])
  const here = { eastingMetres, northingMetres }
  const away = Math.min(...(siteDocument()?.locations ?? []).map((place) => metresBetween(here, place)))
  if (!(away <= farOffMetres + coords.accuracy)) {
    setPosition(null)
    setStanding('far-off')
    setSentence(
      `The device says that it is ${distanceText(away)} from the nearest point of this site. That position is not used: wait for a better one, or choose the place by hand.`,
    )
    return
  }
  setPosition({ ...here, accuracyMetres: coords.accuracy, atEpochMs: timestamp, from: 'device' })
  setStanding('known')
  setSentence(null)
}

function refuse({ code, message }: GeolocationPositionError): void {
  setPosition(null)
  setStanding('refused')
  setSentence(
    code === 1
      ? 'This page may not know the position. Allow it in the browser’s settings, or choose the place by hand.'
      : `The device has no position now (${message || 'no reason given'}). Go on by hand, or try again in the open.`,
  )
}

/** A distance as people say it. */
export const distanceText = (metres: number): string =>
  !Number.isFinite(metres)
    ? 'an unknown distance'
    : metres < 995
      ? `${Math.round(metres)} m`
      : `${(metres / 1000).toFixed(metres < 99_500 ? 1 : 0)} km`
