import { practicalRangeMetres, type Variogram } from './variogram.ts'

/** A variogram's parameters in words: shape, sill, range, nugget, and by direction where there is one. */
export function variogramParameters(variogram: Variogram, unit: string): string {
  const { shape, partialSill, nugget, anisotropy } = variogram
  const reach = practicalRangeMetres(variogram)
  const direction =
    anisotropy === null
      ? 'in every direction'
      : `along ${String(Math.round(anisotropy.azimuthDegrees) % 180).padStart(3, '0')}°, ${figure(anisotropy.ratio * reach)} m across it`
  return `${shape}, partial sill ${figure(partialSill)} ${unit}², nugget of the ground ${figure(nugget)} ${unit}², likeness reaching ${figure(reach)} m ${direction}`
}

const figure = (value: number) => String(Number(value.toPrecision(3)))
