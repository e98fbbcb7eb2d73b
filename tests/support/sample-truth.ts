import { type Place, readRecords } from '../../sample-site/logging/read-records.ts'
import { leakShare } from '../../sample-site/models/leak.ts'
import { leanDegrees, settlementMillimetres } from '../../sample-site/models/settlement.ts'
import { strutForceKn } from '../../sample-site/models/strut.ts'
import { tunnel, tunnelMillimetres } from '../../sample-site/models/tunnel.ts'
import { groundDeflectionMillimetres, wallDeflectionMillimetres } from '../../sample-site/models/wall.ts'
import { createWeather } from '../../sample-site/models/weather.ts'

/** What ground and structures of the sample truly do, as its generator has it: without noise and planted faults. */
export interface TrueSeries {
  readonly at: (epochMs: number) => number
  /** Three times the scatter that the generator gives its readings, and what warmth does to them. */
  readonly margin: number
}

/** Of the series that the sample has levels on; null for one whose truth is not told here. */
export function createSampleTruth(folder = 'sample-site'): (series: string) => TrueSeries | null {
  const records = readRecords(folder)
  const weather = createWeather()
  const placesOf = (instrument: string) =>
    [...records.placeOfPoint]
      .filter(([point]) => point.startsWith(`${instrument}-`))
      .map(([, place]) => place)
  return (series) => {
    const [point = '', measure] = series.split('/')
    const place = records.placeOfPoint.get(point) ?? placesOf(point)[0]
    if (!place) return null
    const { eastingMetres: e, northingMetres: n } = place
    switch (`${point.slice(0, 2)} ${measure}`) {
      case 'SP settlement':
        return { at: (t) => settlementMillimetres(e, n, 0, t), margin: 2.1 }
      case 'EX settlement':
        return { at: (t) => settlementMillimetres(e, n, place.depthMetres, t), margin: 2.2 }
      case 'TL tilt':
        return { at: (t) => leanDegrees(e, n, t), margin: 0.009 }
      case 'CR opening':
        return { at: openingOf(point, place, weather.shadedDegC), margin: 0.024 }
      case 'ST force': {
        const wires = records.wiring.filter(({ sensor }) => sensor === `${point}-1/force`)
        const takenOutAt = wires.at(-1)?.untilEpochMs ?? Number.POSITIVE_INFINITY
        const strut = Number(point.slice(3))
        return { at: (t) => strutForceKn(strut, t, weather.steelDegC(t), takenOutAt), margin: 5 }
      }
      case 'IP deflection': {
        const share = { 'IP-01': 0.93, 'IP-02': 1, 'IP-03': 0.87, 'IP-04': 0.91 }[point] ?? 1
        const tops = placesOf(point).map(({ depthMetres }) => depthMetres - 1)
        return { at: (t) => share * greatest(tops, 2, (z) => wallDeflectionMillimetres(z, t)), margin: 0.45 }
      }
      case 'IC deflection': {
        const tops = placesOf(point).map(({ depthMetres }) => depthMetres - 0.25)
        return {
          at: (t) => greatest(tops, 0.5, (z) => groundDeflectionMillimetres(310_000 - n, z, t)),
          margin: 1.2,
        }
      }
      default:
        return null
    }
  }
}

/** Greatest movement of the tops of segments against the base of the lowest. */
function greatest(
  tops: readonly number[],
  segmentMetres: number,
  at: (depthMetres: number) => number,
): number {
  const still = at(Math.max(...tops) + segmentMetres)
  return Math.max(...tops.map((top) => at(top) - still))
}

function openingOf(point: string, { eastingMetres }: Place, shadedDegC: (epochMs: number) => number) {
  const number = Number(point.slice(3))
  const masonryMetres = [2.1, 1.6, 1.9, 1.4, 1.5, 1.7, 2.3, 1.3, 1.8, 2.0][number - 1] ?? 1.5
  const byTunnel = 0.012 + 0.006 * ((number * 7) % 5)
  const byLeak = number === 5 ? 0.9 : number === 4 || number === 6 ? 0.12 : 0
  return (t: number) =>
    -6e-3 * masonryMetres * (shadedDegC(t) - 9) +
    byTunnel * tunnelMillimetres(eastingMetres, tunnel.axisNorthingMetres + 8, 0, t) +
    byLeak * leakShare(t)
}
