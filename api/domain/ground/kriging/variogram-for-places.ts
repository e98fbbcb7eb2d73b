import { accept, type Outcome, reject } from '../../outcome.ts'
import { fitAnisotropy } from './fit-anisotropy.ts'
import { type FitChoice, fitVariogram } from './fit-variogram.ts'
import type { KrigingOptions } from './kriged-surface.ts'
import type { KrigingPoint } from './kriging-system.ts'
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
  return fit.ok
    ? { variogram: fit.value.variogram, sentence: `${fit.value.sentence} ${sentence}` }
    : {
        variogram: isotropic.variogram,
        sentence: `${isotropic.sentence} ${sentence} With it no variogram can be fitted, so the ground is taken as alike in every direction.`,
      }
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
