import type { FeatureCollection, Geometry } from 'geojson'
import type { Row, TableName } from './tables.ts'
import type { WorksKind } from './vocabulary.ts'

/** `site.csv` (headings `field,value`): what holds for the whole site. */
export interface SiteFacts {
  readonly id: string
  readonly name: string
  /** True for made-up data; every screen then carries `watermark`. */
  readonly invented: boolean
  readonly watermark: string | null
  /** EPSG code or PROJ string of the site grid, or of what control points tie it to. */
  readonly crs: string
  /** Whether control points fit a scale (null: they do) or hold it at one. */
  readonly localGridScale?: 'fitted' | 'one' | null
  /** Largest residual that a control point may keep; null: 0.02 m. */
  readonly controlToleranceMetres?: number | null
  readonly verticalDatum: string
  /** IANA zone name in which people on the works read the time. */
  readonly timeZone: string
  /** Only for invented data: the instant that stands for the present. Null: the server's clock. */
  readonly presentEpochMs: number | null
  /** Names of levels 1, 2, 3 …, chosen by the project. */
  readonly levelNames: readonly string[]
  /** Level of ground before the works, for sections where no hole says otherwise. */
  readonly groundLevelMetres: number
  /** Unit weight of water, stated; or what it is computed from. `site-water.ts` gives the one that holds. */
  readonly waterUnitWeightKnPerM3?: number | null
  readonly waterTemperatureDegC?: number | null
  /** Practical salinity. */
  readonly waterSalinity?: number | null
  /** For gravity. */
  readonly latitudeDegrees?: number | null
  /** Day (1 to 28) and time (`10:00`, site time) of the monthly drill, and the duty told in it; all three or none. */
  readonly drillDayOfMonth?: number | null
  readonly drillTime?: string | null
  readonly drillDuty?: string | null
}

/** Properties of a feature of `works.geojson`; its geometry is WGS 84 longitude, latitude (RFC 7946). */
export interface WorksProperties {
  readonly id: string
  readonly kind: WorksKind
  readonly name: string
  /** True where the ground on the two sides moves apart: a surface must not cross it. */
  readonly barrier: boolean
  readonly fromEpochMs: number | null
  readonly untilEpochMs: number | null
  /** Level of its top and base, where it has them. */
  readonly topLevelMetres: number | null
  readonly baseLevelMetres: number | null
}

export type Works = FeatureCollection<Geometry, WorksProperties>

/** Everything known of a site but its readings. */
export type SiteModel = {
  readonly facts: SiteFacts
  readonly works: Works
} & { readonly [N in TableName]: readonly Row<N>[] }
