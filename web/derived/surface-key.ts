import type { GroundMap } from '#domain/ground/ground-map.ts'
import type { SurfaceKeyRow } from '../views/plan-map/layers/surface-layers.ts'
import { oneInText } from './slope-text.ts'

type Band = { readonly lowMm: number; readonly highMm: number }

/** What the signs of a surface mean: its bands from the lowest up, dashes, hatches and arrows. */
export function surfaceKey({ slopes, bands, lines, gradient, unit }: GroundMap): readonly SurfaceKeyRow[] {
  const shown = slopes ?? { bands, lines }
  const name = slopes === null ? valueBand(unit) : slopeBand
  return [
    ...shown.bands.map(
      (band): SurfaceKeyRow => ({
        sign: 'band',
        middle: (band.lowMm + band.highMm) / 2,
        says: name(band),
      }),
    ),
    ...(shown.lines.some(({ certain }) => !certain)
      ? [sign('dashes', slopes === null ? 'may as well run elsewhere' : 'not told from a step away')]
      : []),
    ...(slopes === null || slopes.hatches.length === 0 ? [] : [sign('hatch', 'not known, not level')]),
    ...arrowRows(gradient),
  ]
}

const sign = (of: SurfaceKeyRow['sign'], says: string): SurfaceKeyRow => ({ sign: of, middle: null, says })

const digits = (value: number) => String(Number(value.toPrecision(3))).replace('-', '−')

const valueBand = (unit: string) => (band: Band) => `${digits(band.lowMm)} to ${digits(band.highMm)} ${unit}`

const slopeBand = ({ lowMm, highMm }: Band) =>
  `${digits(lowMm)} to ${digits(highMm)} mm/m, up to ${oneInText(highMm)}`

function arrowRows(gradient: GroundMap['gradient']): readonly SurfaceKeyRow[] {
  if (gradient === null || gradient.arrows.length === 0) return []
  const has = (standing: string) => gradient.arrows.some((one) => one.standing === standing)
  const steepest = Math.max(...gradient.arrows.map((one) => one.gradient))
  const longest = `longest ${digits(steepest)} (${oneInText(1000 * steepest)})`
  return [
    ...(has('told') ? [sign('arrow', `falls this way, ${longest}`)] : []),
    ...(has('unknown') ? [sign('open-arrow', `falls this way, error not known, ${longest}`)] : []),
    ...(has('none') ? [sign('ring', 'no direction told: not above twice its error')] : []),
  ]
}
