import type { SitePoint } from '../../geometry/site-grid.ts'
import type { GridPlace } from '../value-grid.ts'
import type { Anisotropy, Variogram } from './variogram.ts'
import type { VariogramShape } from './variogram-shape.ts'

export interface KrigingOptions {
  /** Of the values, as people read it. */
  readonly unit: string
  /** A constant mean that is not known, or a plane that is not known. */
  readonly drift: 'ordinary' | 'universal'
  /** Given, or fitted with the best of some shapes. */
  readonly variogram:
    | Variogram
    | {
        readonly shapes: readonly VariogramShape[]
        /** `fitted`: found where it is justified, else none. */
        readonly anisotropy: Anisotropy | null | 'fitted'
        /** Left out: fitted. `none`: what points differ by close together is their own error alone, as of ground that is one body. */
        readonly groundNugget?: 'none'
      }
  /** Lines that the ground moves apart at; no estimate crosses them. */
  readonly barriers: readonly (readonly SitePoint[])[]
  /** A grid, or how many nodes across the longer side of the points' box. */
  readonly grid: GridPlace | number
  /** Around a point without a current value nothing is shown; 0: no such radius. */
  readonly silentRadiusMetres: number
  /** Where the standard deviation is above it nothing is shown; null: no limit. */
  readonly greatestDeviation: number | null
}
