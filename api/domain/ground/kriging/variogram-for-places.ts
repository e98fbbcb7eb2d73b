import { accept, type Outcome, reject } from '../../outcome.ts'
import { fitAnisotropy } from './fit-anisotropy.ts'
import { type FitChoice, fitVariogram } from './fit-variogram.ts'
import { krigeAt } from './krige-at.ts'
import type { KrigingOptions } from './kriging-options.ts'
import { buildSystem, type KrigingPoint } from './kriging-system.ts'
import { planeThrough } from './plane-through.ts'
import { practicalRangeMetres, type Variogram } from './variogram.ts'

/** The variogram to use; or none, for values that are all the same. */
export interface ChosenVariogram {
  readonly variogram: Variogram | null
  readonly sentence: string
  /** Of a flat surface: the standard uncertainty of one of its points; null for any other. */
  readonly flatDeviation: number | null
}

/** Given or fitted; of values less a fitted plane where the drift is a plane. */
export function variogramForPlaces(
  places: readonly KrigingPoint[],
  { variogram: asked, drift, unit }: Pick<KrigingOptions, 'unit' | 'drift' | 'variogram'>,
): Outcome<ChosenVariogram> {
  if (!('shapes' in asked)) {
    const fault = faultOf(asked)
    if (fault) return fault
    const sentence = `Variogram given: ${asked.shape}, partial sill ${asked.partialSill} ${unit}², range parameter ${asked.rangeMetres} m (95 % of the sill at ${Number(practicalRangeMetres(asked).toPrecision(3))} m), nugget ${asked.nugget} ${unit}².`
    return accept({ variogram: asked, sentence, flatDeviation: null })
  }
  const errorVariance = places.reduce((sum, place) => sum + place.errorVariance / places.length, 0)
  const first = places[0]?.value
  if (places.every(({ value }) => value === first))
    return accept({
      variogram: null,
      sentence: `All ${places.length} places have the same value, so no variogram can be fitted; the surface is flat, and its deviation is that of one point alone, which says nothing of the ground between them.`,
      flatDeviation: Math.sqrt(errorVariance),
    })
  const plane = drift === 'universal' ? planeThrough(places) : null
  const rest = plane ? places.map((place) => ({ ...place, value: place.value - plane(place) })) : places
  const withoutNugget = asked.groundNugget === 'none'
  const given = asked.anisotropy === 'fitted' ? null : asked.anisotropy
  const choice: FitChoice = { shapes: asked.shapes, anisotropy: given, errorVariance, withoutNugget }
  const fit = fitVariogram(rest, choice)
  if (!fit.ok) return fit
  const { variogram, sentence } =
    asked.anisotropy === 'fitted' ? withAnisotropy(rest, choice, fit.value) : fit.value
  const said = withoutNugget
    ? ' The ground is taken to have no nugget of its own: the surface meets every reading within its own error.'
    : ''
  return accept({ variogram, sentence: `${sentence}${said}`, flatDeviation: null })
}

/** The fit once more along and across, where a direction is justified. */
function withAnisotropy(
  rest: readonly KrigingPoint[],
  choice: FitChoice,
  isotropic: Pick<ChosenVariogram, 'sentence'> & { readonly variogram: Variogram },
): Pick<ChosenVariogram, 'sentence'> & { readonly variogram: Variogram } {
  const { anisotropy, sentence } = fitAnisotropy(rest, isotropic.variogram)
  if (anisotropy === null)
    return { variogram: isotropic.variogram, sentence: `${isotropic.sentence} ${sentence}` }
  const fit = fitVariogram(rest, { ...choice, anisotropy })
  const against = fit.ok
    ? choice.withoutNugget
      ? passedBy(rest, fit.value.variogram)
      : null
    : 'With it no variogram can be fitted'
  return fit.ok && against === null
    ? { variogram: fit.value.variogram, sentence: `${fit.value.sentence} ${sentence}` }
    : {
        variogram: isotropic.variogram,
        sentence: `${isotropic.sentence} ${sentence} ${against}, so the ground is taken as alike in every direction.`,
      }
}

/** A surface that passes a reading by more than twice its error has taken what is real there for an error. */
const mostErrors = 2

/**
 * What speaks against a direction: the reading that a surface drawn with it would pass by most, in its own errors; null:
 * every reading is met. Ground that is alike far along one line smooths away a bowl on that line.
 */
function passedBy(places: readonly KrigingPoint[], variogram: Variogram): string | null {
  const spread = places.reduce((most, { east, north }) => Math.max(most, Math.hypot(east, north)), 1)
  const system = buildSystem(places, {
    variogram,
    drift: 'mean',
    farthestMetres: 2 * spread,
    placeMetres: 1e-6 * spread,
    ways: null,
  })
  if (!system.ok) return 'With it no surface can be drawn'
  let worst = 0
  for (const { east, north, value, errorVariance } of places) {
    const passed = Math.abs(krigeAt(system.value, east, north).value - value)
    const errors = passed / Math.sqrt(errorVariance)
    if (errorVariance > 0) worst = Math.max(worst, errors)
  }
  return worst > mostErrors
    ? `With it the surface would pass one reading by ${worst.toFixed(1)} times its own error`
    : null
}

function faultOf({
  partialSill,
  rangeMetres,
  nugget,
  exponent,
  anisotropy,
}: Variogram): Outcome<never> | null {
  const wrong = !(partialSill > 0 && Number.isFinite(partialSill))
    ? `partial sill ${partialSill}, which must be above 0`
    : !(rangeMetres > 0 && Number.isFinite(rangeMetres))
      ? `range ${rangeMetres} m, which must be above 0`
      : !(nugget >= 0 && Number.isFinite(nugget))
        ? `nugget ${nugget}, which must be 0 or more`
        : exponent !== undefined && !(exponent > 0 && exponent < 2)
          ? `exponent ${exponent}, which must be above 0 and below 2`
          : anisotropy !== null &&
              !(anisotropy.ratio > 0 && anisotropy.ratio <= 1 && Number.isFinite(anisotropy.azimuthDegrees))
            ? `anisotropy ratio ${anisotropy.ratio}, which must be above 0 and at most 1`
            : null
  if (wrong === null) return null
  return reject({
    code: 'variogram-impossible',
    value: wrong,
    expected: 'positive sill and range',
    message: `The variogram has ${wrong}. Correct it, or let it be fitted.`,
  })
}
