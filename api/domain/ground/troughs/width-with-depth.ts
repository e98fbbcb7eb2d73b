import { accept, type Outcome, reject } from '../../outcome.ts'
import { type Analysis, estimated, given } from '../analysis.ts'
import { type TunnelDrive, troughBelowGround } from '../trough.ts'
import type { Estimate } from './fit-trough.ts'

/** i of a trough at a depth below ground. */
export interface WidthAtDepth {
  readonly depthMetres: number
  readonly widthMetres: Estimate
  /** Through points across the line; or from one settlement over it, taking that no volume is lost on the way up. Left out: fitted. */
  readonly basis?: 'fitted' | 'volume-kept'
  /** Points that it is of. */
  readonly points?: readonly string[]
}

export interface WidthsWithDepth extends Analysis<WidthAtDepth> {
  /** In the order of `used`: what clay is expected to show, and K = i/(z₀ − z) measured. */
  readonly compared: readonly {
    readonly expectedWidthMetres: number
    /** K (z₀ − z), with the K stated for the surface. */
    readonly constantKWidthMetres: number
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
      "Width of the trough at each depth beside i/z₀ = 0.175 + 0.325 (1 − z/z₀) for clay (Mair, Taylor and Bracegirdle 1993, from memory) and beside i = K (z₀ − z) with the K of the surface (O'Reilly and New 1982).",
    parameters: [given('depth of the axis', axisDepthMetres, 'm'), given('K', drive.widthParameter, '')],
    found: used.map(({ depthMetres, widthMetres, basis }) =>
      estimated(
        `i at ${depthMetres} m${basis === 'volume-kept' ? ', volume kept' : ''}`,
        widthMetres.value,
        'm',
        widthMetres.standardError,
      ),
    ),
    used,
    leftOut: widths
      .filter(({ depthMetres }) => !(depthMetres < axisDepthMetres))
      .map((item) => ({ item, reason: 'It lies at or below the axis.' })),
    remarks: [
      'The expected width is of clay; sand shows narrower troughs near the tunnel.',
      ...(used.some(({ basis }) => basis === 'volume-kept')
        ? [
            'Where points at a depth stand at one offset only, no width is measured: i is told from how much more settles there than above it, as if no volume were lost on the way up and the drive were even. Sand that loosens or clay that consolidates breaks this; other works that settle the ground do too.',
          ]
        : []),
    ],
    compared: used.map(({ depthMetres, widthMetres }) => {
      const expected = (troughBelowGround(drive, depthMetres) as { widthMetres: number }).widthMetres
      const above = axisDepthMetres - depthMetres
      return {
        expectedWidthMetres: expected,
        constantKWidthMetres: drive.widthParameter * above,
        widthParameter: {
          value: widthMetres.value / above,
          standardError: widthMetres.standardError / above,
        },
        apart: Math.abs(widthMetres.value - expected) > 2 * widthMetres.standardError,
      }
    }),
  })
}
