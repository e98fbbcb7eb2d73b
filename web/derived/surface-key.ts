import type { GroundMap } from '#domain/ground/ground-map.ts'
import { formatValue } from '../ui/format-value.ts'
import { decimalsApart, stepDecimals } from '../views/marks/value-ticks.ts'
import type { SurfaceKeyRow } from '../views/plan-map/layers/surface-layers.ts'
import { decimalsFor, oneInText } from './slope-text.ts'

type Band = { readonly lowMm: number; readonly highMm: number }

/** What the signs of a surface mean: its bands from the lowest up, dashes, hatches and arrows. */
export function surfaceKey({ slopes, bands, lines, gradient, unit }: GroundMap): readonly SurfaceKeyRow[] {
  const shown = slopes ?? { bands, lines }
  return [
    ...bandRows(shown.bands, slopes === null ? unit : null),
    ...(shown.lines.some(({ certain }) => !certain)
      ? [sign('dashes', slopes === null ? 'may as well run elsewhere' : 'not told from a step away')]
      : []),
    ...(slopes === null || slopes.hatches.length === 0 ? [] : [sign('hatch', 'not known, not level')]),
    ...arrowRows(gradient),
  ]
}

const sign = (of: SurfaceKeyRow['sign'], says: string): SurfaceKeyRow => ({ sign: of, middle: null, says })

/** `unit`: null where slopes are shown, in mm per metre. */
function bandRows(bands: readonly Band[], unit: string | null): readonly SurfaceKeyRow[] {
  const inner = bands.flatMap(({ lowMm, highMm }, at) => [
    ...(at > 0 ? [lowMm] : []),
    ...(at < bands.length - 1 ? [highMm] : []),
  ])
  const widest = Math.max(0, ...bands.map(({ lowMm, highMm }) => highMm - lowMm))
  const alone = new Set(inner).size < 2 ? stepDecimals(widest) : 0
  const decimals = Math.max(decimalsApart(inner), alone)
  return bands.map((band) => {
    const [low, high] = bandText(band, decimals)
    return {
      sign: 'band',
      middle: (band.lowMm + band.highMm) / 2,
      says:
        unit === null
          ? `${low} to ${high} mm/m, up to ${oneInText(band.highMm)}`
          : low === high
            ? `${low} ${unit}`
            : `${low} to ${high} ${unit}`,
    }
  })
}

/** The least and the most of all are no round values: where rounding would leave nothing between the ends, they go outwards. */
function bandText({ lowMm, highMm }: Band, decimals: number): readonly [low: string, high: string] {
  const ends = [formatValue(lowMm, decimals), formatValue(highMm, decimals)] as const
  if (ends[0] !== ends[1] || highMm === lowMm) return ends
  const scale = 10 ** decimals
  return [
    formatValue(Math.floor(lowMm * scale + 1e-6) / scale, decimals),
    formatValue(Math.ceil(highMm * scale - 1e-6) / scale, decimals),
  ]
}

function arrowRows(gradient: GroundMap['gradient']): readonly SurfaceKeyRow[] {
  if (gradient === null || gradient.arrows.length === 0) return []
  const has = (standing: string) => gradient.arrows.some((one) => one.standing === standing)
  const steepest = Math.max(...gradient.arrows.map((one) => one.gradient))
  const longest = `longest ${twoDigits(steepest)} (${oneInText(1000 * steepest)})`
  return [
    ...(has('told') ? [sign('arrow', `falls this way, ${longest}`)] : []),
    ...(has('unknown') ? [sign('open-arrow', `falls this way, error not known, ${longest}`)] : []),
    ...(has('none') ? [sign('ring', 'no direction told: not above twice its error')] : []),
  ]
}

const twoDigits = (value: number) => formatValue(value, decimalsFor(value))
