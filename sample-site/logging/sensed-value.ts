import {
  type Axis,
  casingDeviationMillimetres,
  coldProbeMillimetres,
  probeBiasMillimetres,
} from '../models/casing.ts'
import { clay } from '../models/consolidation.ts'
import { clayShare, insideDrawdownMetres, outsideDrawdownMetres } from '../models/groundwater.ts'
import { leakPressureKpa, leakShare } from '../models/leak.ts'
import { dayMs, hourMs, programme } from '../models/programme.ts'
import { leanDegrees, settlementMillimetres } from '../models/settlement.ts'
import { bendingShare, strutForceKn } from '../models/strut.ts'
import { tideMetres } from '../models/tide.ts'
import { tunnel, tunnelMillimetres } from '../models/tunnel.ts'
import { groundDeflectionMillimetres, wallDeflectionMillimetres } from '../models/wall.ts'
import { dayOfYear, type Weather } from '../models/weather.ts'
import { openRandomStream } from '../random.ts'
import type { Place, Records } from './read-records.ts'

/** What a sensor senses at an instant, in its engineering unit, noise and the planted faults of sensors included. */
export type Sensed = (epochMs: number) => number

const unitWeightOfWater = 9.81
const sandHeadMetres = 1.9
const phreaticMetres = 2.9
/** Share of the tide that the deep sand feels, by hole. */
const tidalShare: Readonly<Record<string, number>> = {
  'PZ-01': 0.22,
  'PZ-02': 0.225,
  'PZ-03': 0.24,
  'PZ-04': 0.22,
  'PZ-05': 0.23,
  'PZ-06': 0.23,
}

/** The function of time for one sensor of `sensors.csv`. */
export function senseBy(records: Records, weather: Weather): (sensor: string) => Sensed {
  return (sensor) => {
    const [point = '', measure] = sensor.split('/')
    const place = records.placeOfPoint.get(point)
    if (!place) throw new Error(`${sensor} has no place`)
    const kind = records.kindOfPoint.get(point) as string
    const random = openRandomStream(sensor)
    const noisy = (value: Sensed, deviation: number): Sensed => {
      return (epochMs) => value(epochMs) + deviation * random.normal()
    }
    switch (measure) {
      case 'temperature':
        return noisy(temperatureAt(kind, point, place, weather), 0.03)
      case 'pore-pressure':
        return noisy(porePressure(point, place, weather), 0.12)
      case 'water-level':
        return noisy(standpipe(point, place), 0.006)
      case 'settlement':
        return noisy(markSettlement(point, place), 0.7)
      case 'displacement':
        return noisy(anchorDisplacement(place), 0.03)
      case 'inclination-a':
        return noisy(segmentIncrement(point, place, 1), 0.04)
      case 'inclination-b':
        return noisy(segmentIncrement(point, place, 0.04), 0.04)
      case 'face-a0':
        return noisy(casingFace(place, 'a', 0), 0.1)
      case 'face-a180':
        return noisy(casingFace(place, 'a', 180), 0.1)
      case 'face-b0':
        return noisy(casingFace(place, 'b', 0), 0.1)
      case 'face-b180':
        return noisy(casingFace(place, 'b', 180), 0.1)
      case 'tilt':
        return noisy(tilt(point, place, weather), 0.0015)
      case 'opening':
        return noisy(opening(point, place, weather), 0.008)
      case 'force':
        return noisy(gaugeForce(point, records, weather), 3)
      case 'rainfall':
        return (epochMs) => weather.rainTips(epochMs) * 0.2
      case 'barometric-pressure':
        return noisy(weather.barometerKpa, 0.02)
      case 'tide-level':
        return noisy(tideMetres, 0.008)
      case 'battery-voltage':
        return noisy(battery(point, weather), 0.004)
      default:
        throw new Error(`${sensor}: no model for ${measure}`)
    }
  }
}

/** Temperature of the transducer itself, without noise: what its thermal term feels. */
export function temperatureAt(kind: string, point: string, place: Place, weather: Weather): Sensed {
  switch (kind) {
    case 'tiltmeter':
      if (point !== 'TL-11') return weather.shadedDegC
      return (epochMs) =>
        epochMs < programme.bracketMovedAt ? weather.shadedDegC(epochMs) : weather.sunlitBracketDegC(epochMs)
    case 'crack-meter':
      return weather.shadedDegC
    case 'strut-load':
      return weather.steelDegC
    case 'air-temperature':
      return weather.airDegC
    case 'logger-battery':
      return (epochMs) => 0.65 * weather.airDegC(epochMs) + 0.35 * weather.sunlitBracketDegC(epochMs)
    default: {
      // Yearly wave into the ground, damping depth 2.2 m; the chamber of a head lies 0.4 m deep.
      const damped = Math.max(0.4, place.depthMetres) / 2.2
      return (epochMs) =>
        12.9 + 6 * Math.exp(-damped) * Math.cos((2 * Math.PI * (dayOfYear(epochMs) - 208)) / 365 - damped)
    }
  }
}

function porePressure(point: string, place: Place, weather: Weather): Sensed {
  const hole = point.slice(0, 5)
  const inside = hole === 'PZ-05' || hole === 'PZ-06'
  const inSand = place.levelMetres < clay.baseLevelMetres
  const tidal = (tidalShare[hole] ?? 0.22) * (inSand ? 1 : 0.15)
  const rainGain = inSand ? (point.charAt(5) === 'B' ? 0.01 : 0.004) : 0.05
  const depthShare = Math.max(0, (clay.topLevelMetres - place.levelMetres) / clay.thicknessMetres)
  const stillHead = inSand ? sandHeadMetres : phreaticMetres - depthShare * (phreaticMetres - sandHeadMetres)
  const drawn = hole === 'PZ-06' ? 0.96 : 1
  return (epochMs) => {
    const drawdown = inside
      ? drawn * insideDrawdownMetres(epochMs)
      : outsideDrawdownMetres(place.eastingMetres, place.northingMetres, epochMs)
    const share = inSand ? 1 : clayShare(depthShare, (epochMs - programme.pumpingFrom) / dayMs, clay)
    const head = stillHead - drawdown * share + tidal * tideMetres(epochMs - 4 * hourMs)
    const rain = rainGain * weather.recentRainMillimetres(epochMs)
    const leak = point === 'PZ-04A' ? leakPressureKpa(epochMs) : 0
    // Planted: the transducer of PZ-05C drifts, the ground does not.
    const drift = point === 'PZ-05C' ? -0.06 * Math.max(0, (epochMs - programme.driftFrom) / dayMs) : 0
    return unitWeightOfWater * (head - place.levelMetres) + rain + leak + drift
  }
}

function standpipe(point: string, place: Place): Sensed {
  const inside = point === 'WS-03'
  return (epochMs) => {
    const drawdown = inside
      ? insideDrawdownMetres(epochMs)
      : outsideDrawdownMetres(place.eastingMetres, place.northingMetres, epochMs)
    return sandHeadMetres - drawdown + 0.23 * tideMetres(epochMs - 4 * hourMs)
  }
}

function markSettlement(point: string, place: Place): Sensed {
  const { eastingMetres, northingMetres } = place
  return (epochMs) => {
    // Planted: the mark of SP-40 is bent down, the ground under it stays.
    const struck = point === 'SP-40' && epochMs >= programme.barrierHitAt ? 6 : 0
    return settlementMillimetres(eastingMetres, northingMetres, 0, epochMs) + struck
  }
}

/** Head less anchor, both downwards: negative where the ground stretches between them. */
function anchorDisplacement(place: Place): Sensed {
  const { eastingMetres, northingMetres, depthMetres } = place
  return (epochMs) =>
    settlementMillimetres(eastingMetres, northingMetres, 0, epochMs) -
    settlementMillimetres(eastingMetres, northingMetres, depthMetres, epochMs)
}

/** Movement of the top of a 2 m segment over its base, mm; the four walls do not bend alike. */
function segmentIncrement(point: string, place: Place, axisShare: number): Sensed {
  const share =
    axisShare * ({ 'IP-01': 0.93, 'IP-02': 1, 'IP-03': 0.87, 'IP-04': 0.91 }[point.slice(0, 5)] ?? 1)
  const middle = place.depthMetres
  return (epochMs) =>
    share * (wallDeflectionMillimetres(middle - 1, epochMs) - wallDeflectionMillimetres(middle + 1, epochMs))
}

/** What the probe reads on one face over 0.5 m of casing, mm; of the other face the lean counts the other way. */
function casingFace({ northingMetres, depthMetres }: Place, axis: Axis, face: 0 | 180): Sensed {
  const offset = 310_000 - northingMetres
  const share = axis === 'a' ? 1 : 0.04
  const [top, base] = [depthMetres - 0.25, depthMetres + 0.25]
  return (epochMs) => {
    const moved =
      groundDeflectionMillimetres(offset, top, epochMs) - groundDeflectionMillimetres(offset, base, epochMs)
    const leans = casingDeviationMillimetres(axis, depthMetres) + share * moved
    const firstPass = axis === 'a' && face === 0 ? coldProbeMillimetres(epochMs) : 0
    return (face === 0 ? leans : -leans) + probeBiasMillimetres(axis, epochMs) + firstPass
  }
}

/** How the moved bracket of TL-11 bends, and the bracket temperature at which its new zero holds. */
const movedBracket = { degreesPerKelvin: 0.0045, zeroDegC: 20.9 } as const

function tilt(point: string, place: Place, weather: Weather): Sensed {
  const { eastingMetres, northingMetres } = place
  const lean: Sensed = (epochMs) =>
    leanDegrees(eastingMetres, northingMetres, epochMs) + 0.0003 * (weather.shadedDegC(epochMs) - 12)
  if (point !== 'TL-11') return lean
  const carried = leanDegrees(eastingMetres, northingMetres, programme.bracketMovedAt)
  return (epochMs) => {
    if (epochMs < programme.bracketMovedAt) return lean(epochMs)
    // Planted: the bracket bends in the sun; the wall does not.
    const bent = movedBracket.degreesPerKelvin * (weather.laggedBracketDegC(epochMs) - movedBracket.zeroDegC)
    return leanDegrees(eastingMetres, northingMetres, epochMs) - carried + bent
  }
}

/** Length of masonry between joints, metres, by crack meter: it shrinks in the cold and opens the crack. */
const masonryMetres = [2.1, 1.6, 1.9, 1.4, 1.5, 1.7, 2.3, 1.3, 1.8, 2.0]

function opening(point: string, place: Place, weather: Weather): Sensed {
  const number = Number(point.slice(3))
  const perKelvin = 6e-6 * 1000 * (masonryMetres[number - 1] ?? 1.5)
  const byTunnel = 0.012 + 0.006 * ((number * 7) % 5)
  const byLeak = number === 5 ? 0.9 : number === 4 || number === 6 ? 0.12 : 0
  return (epochMs) =>
    -perKelvin * (weather.shadedDegC(epochMs) - 9) +
    byTunnel * tunnelMillimetres(place.eastingMetres, tunnel.axisNorthingMetres + 8, 0, epochMs) +
    byLeak * leakShare(epochMs)
}

function gaugeForce(point: string, records: Records, weather: Weather): Sensed {
  const strut = Number(point.slice(3, 5))
  const bending = bendingShare(strut, Number(point.slice(6)))
  const wired = records.wiring.find(({ sensor }) => sensor === `${point}/force`)
  const takenOutAt = wired?.untilEpochMs ?? Number.POSITIVE_INFINITY
  return (epochMs) => (1 + bending) * strutForceKn(strut, epochMs, weather.steelDegC(epochMs), takenOutAt)
}

function battery(point: string, weather: Weather): Sensed {
  const number = Number(point.slice(3))
  const fresh = 3.59 + 0.004 * ((number * 5) % 7)
  return (epochMs) => {
    const share = (epochMs - programme.startsAt) / (programme.endsAt - programme.startsAt)
    // Planted: the cells of LG-22 run down.
    const used = number === 22 ? 0.09 * share + 0.58 * share ** 3 : 0.07 * share
    return fresh - used + 0.0018 * (weather.airDegC(epochMs) - 15)
  }
}
