import { diagonalOf } from './fit-variogram.ts'
import type { KrigingPoint } from './kriging-system.ts'
import { highestPlace } from './pattern-search.ts'
import { restrictedLogLikelihood } from './restricted-likelihood.ts'
import type { Anisotropy, Variogram } from './variogram.ts'

export interface AnisotropyFit {
  /** Null: not justified, the ground is taken as alike in every direction. */
  readonly anisotropy: Anisotropy | null
  /** Whole sentence, with the figures it was decided by. */
  readonly sentence: string
}

/** As many pairs as an isotropic variogram needs, in each of the two directions. */
const fewestPairsEach = 30
/** Twice the gain in log-likelihood that chance alone passes once in a hundred: χ² with two degrees of freedom. */
const leastGain = 9.21
/** Longer likeness than ten times that across cannot be told from likeness without an end. */
const leastRatio = 0.1
/** More places are not looked at: the work grows with their cube, and so many show a direction plainly. */
const mostPlaces = 100

/**
 * Along which bearing the ground stays alike farther, and how much, by the greatest restricted likelihood of the places
 * over range, bearing and ratio with shape (exponential for spherical) and noise of an isotropic fit; taken only where it beats the best isotropic
 * range by more than chance does (2·Δ above 9.21, one in a hundred), and only with 30 pairs along and 30 across within
 * a third of the extent (each within 45° of its axis). Values are those less a fitted plane where the drift is one.
 */
export function fitAnisotropy(places: readonly KrigingPoint[], isotropic: Variogram): AnisotropyFit {
  const extentMetres = diagonalOf(places)
  const looked = everyOther(places)
  const errorShares = Float64Array.from(looked, ({ errorVariance }) => errorVariance / isotropic.partialSill)
  // The likelihood of a spherical shape has a step wherever a pair comes into reach, and a search is caught by them.
  const shape = isotropic.shape === 'spherical' ? 'exponential' : isotropic.shape
  const heightOf = ([logRange, stretch, azimuth]: readonly number[]) => {
    const { rangeMetres, anisotropy } = formOf(logRange as number, stretch as number, azimuth as number)
    return rangeMetres > 3 * extentMetres || anisotropy.ratio < leastRatio
      ? Number.NEGATIVE_INFINITY
      : restrictedLogLikelihood(
          looked,
          {
            shape,
            rangeMetres,
            anisotropy,
            nuggetShare: isotropic.nugget / isotropic.partialSill,
          },
          errorShares,
        )
  }
  const alike = highestPlace(
    ([logRange]) => heightOf([logRange as number, 0, 0]),
    [Math.log(shape === isotropic.shape ? isotropic.rangeMetres : isotropic.rangeMetres / 3)],
    [0.5],
    4,
  )
  const [logRange] = alike.place as readonly [number]
  const started = Array.from({ length: 9 }, (_, turn) => [logRange, 0.7, (turn * Math.PI) / 9])
    .map((start) => ({ start, height: heightOf(start) }))
    .toSorted((one, other) => other.height - one.height)[0]
  const found = highestPlace(heightOf, started?.start ?? [logRange, 0, 0], [0.3, 0.3, 0.16], 4)
  const { anisotropy } = formOf(...(found.place as [number, number, number]))
  const gain = 2 * (found.height - alike.height)
  const [along, across] = pairsByDirection(places, anisotropy.azimuthDegrees, extentMetres / 3)
  const of = looked.length < places.length ? ` (by ${looked.length} of ${places.length} places)` : ''
  const bearing = String(Math.round(anisotropy.azimuthDegrees) % 180).padStart(3, '0')
  const best = `bearing ${bearing}° and ${anisotropy.ratio.toFixed(2)} of its range across it`
  if (!Number.isFinite(gain))
    return {
      anisotropy: null,
      sentence: 'Taken as alike in every direction: a likelihood by direction cannot be worked out.',
    }
  if (Math.min(along, across) < fewestPairsEach)
    return {
      anisotropy: null,
      sentence: `Taken as alike in every direction: only ${along} pairs lie along and ${across} across the likeliest bearing ${bearing}°, and ${fewestPairsEach} of each are needed to tell${of}.`,
    }
  return gain > leastGain
    ? {
        anisotropy,
        sentence: `Likeness reaches farthest along ${best}: that raises twice the log-likelihood by ${gain.toFixed(1)}, where chance passes ${leastGain} once in a hundred (${along} pairs along, ${across} across)${of}.`,
      }
    : {
        anisotropy: null,
        sentence: `Taken as alike in every direction: the likeliest other, ${best}, would raise twice the log-likelihood by only ${Math.max(0, gain).toFixed(1)}, and chance passes ${leastGain} once in a hundred (${along} pairs along, ${across} across)${of}.`,
      }
}

/** From the logarithms of the mean range and of the stretch, and the bearing in radians. */
function formOf(
  logRange: number,
  stretch: number,
  azimuth: number,
): { rangeMetres: number; anisotropy: Anisotropy } {
  const along = Math.abs(stretch)
  return {
    rangeMetres: Math.exp(logRange + along / 2),
    anisotropy: {
      azimuthDegrees: ((((azimuth * 180) / Math.PI) % 180) + 180) % 180,
      ratio: Math.exp(-along),
    },
  }
}

function everyOther(places: readonly KrigingPoint[]): readonly KrigingPoint[] {
  const every = Math.ceil(places.length / mostPlaces)
  return places.filter((_, index) => index % every === 0)
}

/** Pairs not farther apart than a limit, within 45° of a bearing and of its normal. */
function pairsByDirection(
  places: readonly KrigingPoint[],
  azimuthDegrees: number,
  farthestMetres: number,
): readonly [along: number, across: number] {
  const azimuth = (azimuthDegrees * Math.PI) / 180
  const [sin, cos] = [Math.sin(azimuth), Math.cos(azimuth)]
  let [along, across] = [0, 0]
  places.forEach((one, index) => {
    for (let other = 0; other < index; other++) {
      const { east, north } = places[other] as KrigingPoint
      const [e, n] = [one.east - east, one.north - north]
      if (e * e + n * n > farthestMetres * farthestMetres) continue
      if (Math.abs(e * sin + n * cos) >= Math.abs(e * cos - n * sin)) along++
      else across++
    }
  })
  return [along, across]
}
