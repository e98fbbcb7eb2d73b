import { accept, type Outcome, reject } from '../../outcome.ts'
import { type Analysis, given } from '../analysis.ts'
import { type TunnelDrive, troughBelowGround } from '../trough.ts'
import type { Estimate } from './fit-trough.ts'

/** i of a trough fitted at a depth below ground. */
export interface WidthAtDepth {
  readonly depthMetres: number
  readonly widthMetres: Estimate
}

export interface WidthsWithDepth extends Analysis<WidthAtDepth> {
  /** In the order of `used`: what clay is expected to show, and K = i/(z₀ − z) measured. */
  readonly compared: readonly {
    readonly expectedWidthMetres: number
    readonly widthParameter: Estimate
    /** More than two standard errors apart. */
    readonly apart: boolean
  }[]
}

/** Widths of troughs at several depths beside that of clay, i/z₀ = 0.175 + 0.325 (1 − z/z₀). */
export function widthsWithDepth(
  widths: readonly WidthAtDepth[],
  drive: TunnelDrive,
): Outcome<WidthsWithDepth> {
  const { axisDepthMetres } = drive
  const used = widths.filter(({ depthMetres }) => depthMetres < axisDepthMetres)
  if (used.length === 0)
    return reject({
      code: 'points-below-axis',
      message: 'No trough was fitted above the axis of the tunnel, so there is no width to compare.',
    })
  return accept({
    method:
      'Width of the trough at each depth beside i/z₀ = 0.175 + 0.325 (1 − z/z₀) for clay (Mair, Taylor and Bracegirdle 1993, from memory).',
    parameters: [given('depth of the axis', axisDepthMetres, 'm')],
    found: [],
    used,
    leftOut: widths
      .filter(({ depthMetres }) => !(depthMetres < axisDepthMetres))
      .map((item) => ({ item, reason: 'It lies at or below the axis.' })),
    remarks: ['The expected width is of clay; sand shows narrower troughs near the tunnel.'],
    compared: used.map(({ depthMetres, widthMetres }) => {
      const expected = (troughBelowGround(drive, depthMetres) as { widthMetres: number }).widthMetres
      const above = axisDepthMetres - depthMetres
      return {
        expectedWidthMetres: expected,
        widthParameter: {
          value: widthMetres.value / above,
          standardError: widthMetres.standardError / above,
        },
        apart: Math.abs(widthMetres.value - expected) > 2 * widthMetres.standardError,
      }
    }),
  })
}
