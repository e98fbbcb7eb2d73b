import { createMemo, createSignal, onCleanup } from 'solid-js'
import type { Series } from '#contract/site-document.ts'
import { barriersAt } from '#domain/ground/barriers-at.ts'
import { nodesAcross } from '#domain/ground/coarse-grid.ts'
import type { GroundMap } from '#domain/ground/ground-map.ts'
import type { GroundPoint } from '#domain/ground/kriging/ground-point.ts'
import type { Outcome } from '#domain/outcome.ts'
import { siteWater } from '#domain/site/site-water.ts'
import type { ReducedSeries } from '#domain/what-if/reduced-series.ts'
import { pressureTips } from '../../derived/ground/string-pressures.ts'
import { type Derivation, openDerivation } from '../../derived/open-derivation.ts'
import { settlementPoints, settlementSeries } from '../../derived/settlement-points.ts'
import { waterPoints } from '../../derived/water-points.ts'
import { withSandboxValues } from '../../derived/what-if-surface.ts'
import type { Columns } from '../../engine/columns.ts'
import { lastOf } from '../../queries/often-read.ts'
import { settlementAt } from '../../queries/settlement-at.ts'
import { sentenceOf } from '../../state/ask-server.ts'
import { siteDocument } from '../../state/site-document.ts'
import { siteGrid } from '../../state/site-grid.ts'
import { surfaceMethod } from '../../state/surface-choice.ts'
import { newestNext } from '../../ui/newest-next.ts'
import { sync } from '../../ui/sync.ts'
import { createAnswer } from '../create-answer.ts'
import { markDrawn } from './mark-drawn.ts'

/** Sides of the triangulation longer than this say nothing between their ends, as on the plan. */
const longestSideMetres = { settlement: 40, water: 120 } as const
const silentRadiusMetres = 10

/** Surface that a series is part of; null: none. */
export function surfaceOf(series: Series): 'settlement' | 'water' | null {
  const document = siteDocument()
  if (!document) return null
  if (settlementSeries(document.series, document.points).some(({ id }) => id === series.id))
    return 'settlement'
  return series.measure === 'pore-pressure' && series.unit === 'kPa' ? 'water' : null
}

interface Surfaces {
  readonly official: Outcome<GroundMap>
  readonly sandbox: Outcome<GroundMap>
  readonly difference: Outcome<GroundMap>
  readonly points: readonly {
    readonly id: string
    readonly official: number | null
    readonly sandbox: number | null
  }[]
  readonly places: readonly GroundPoint[]
}

/** The surface of a series' kind at the clock, officially, in the sandbox, and what lies between, by the plan's rules. */
export function createSurfaces(
  wanted: () => Series | null,
  values: () => ReadonlyMap<string, ReducedSeries> | null,
  moved: () => ReadonlySet<string>,
  asOfEpochMs: () => number | null,
) {
  const derivation = openDerivation()
  onCleanup(derivation.close)
  const [found, setFound] = createSignal<Surfaces | null>(null)
  const [trouble, setTrouble] = createSignal<string | null>(null)
  const of = createMemo(() => {
    const [on, at, document] = [wanted(), asOfEpochMs(), siteDocument()]
    const kind = on && surfaceOf(on)
    if (!on || !kind || at === null || !document) return null
    const stratum = document.points.find(({ id }) => id === on.point)?.stratum ?? null
    const tips = pressureTips(document, at).filter(({ point }) => point.stratum === stratum)
    const series =
      kind === 'settlement'
        ? settlementSeries(document.series, document.points)
        : tips.map(({ series }) => series)
    return { kind, at, series, stratum, tips, document }
  })
  const asked = createAnswer(() => {
    const on = of()
    return on && settlementAt({ atEpochMs: on.at, ...lastOf(on.series) })
  })
  const barriers = createMemo(() => {
    const [on, grid] = [of(), siteGrid()]
    return on && grid ? barriersAt(on.document.works, grid, on.at) : []
  })
  const pointsOf = (columns: Columns): readonly GroundPoint[] => {
    const on = of()
    if (!on) return []
    if (on.kind === 'water')
      return waterPoints(columns, on.tips, on.stratum, siteWater(on.document.facts).unitWeightKnPerM3, on.at)
    return settlementPoints(columns, on.series, on.document, on.at, false).map(
      ({ valueMm, standardUncertaintyMm, ...rest }) => ({
        ...rest,
        value: valueMm,
        standardUncertainty: standardUncertaintyMm,
      }),
    )
  }
  const both = createMemo(() => {
    const [on, answer, after] = [of(), asked.answer(), values()]
    if (!on || !answer || !after) return null
    const others = new Map(
      on.series.flatMap(({ id, series }) => {
        const own = moved().has(id) ? after.get(id) : undefined
        return own ? [[series, own] as const] : []
      }),
    )
    return {
      kind: on.kind,
      official: pointsOf(answer.columns),
      sandbox: pointsOf(withSandboxValues(answer.columns, others, on.at)),
    }
  })
  const work = newestNext(
    (points: NonNullable<ReturnType<typeof both>>) => workOut(derivation, points, barriers()),
    (made) => {
      setTrouble(null)
      setFound(made)
      markDrawn('what-if-surface-drawn')
    },
    (cause) => {
      if (cause instanceof DOMException && cause.name === 'AbortError') return
      setFound(null)
      setTrouble(`The surfaces could not be worked out: ${sentenceOf(cause)}`)
    },
  )
  sync(both, (points) => {
    if (points) work(points)
    else setFound(null)
  })
  return { of, found, trouble, barriers, remarks: asked.remarks }
}

/** The official surface stands while numbers of the sandbox are typed. */
let lastOfficial: { readonly key: string; readonly made: Outcome<GroundMap> } | null = null

async function workOut(
  derivation: Derivation,
  {
    kind,
    official,
    sandbox,
  }: { kind: 'settlement' | 'water'; official: readonly GroundPoint[]; sandbox: readonly GroundPoint[] },
  barriers: ReturnType<typeof barriersAt>,
): Promise<Surfaces> {
  const surface = (points: readonly GroundPoint[], method = surfaceMethod()) =>
    derivation.surface({
      points,
      unit: kind === 'water' ? 'm' : 'mm',
      method,
      barriers,
      longestSideMetres: longestSideMetres[kind],
      silentRadiusMetres,
      nodes: nodesAcross(points),
      aspect: 'values',
      ofHeads: false,
      at: [],
      sectionLine: [],
    })
  const apart = official.map((point, at): GroundPoint => {
    const other = sandbox[at]?.value ?? null
    return {
      ...point,
      value: point.value === null || other === null ? null : other - point.value,
      standardUncertainty: 0,
    }
  })
  const isAlike = apart.every(({ value }) => value === null || Math.abs(value) < 1e-9)
  const key = JSON.stringify([official, barriers, surfaceMethod()])
  const own = lastOfficial?.key === key ? lastOfficial.made : await surface(official)
  lastOfficial = { key, made: own }
  return {
    official: own,
    sandbox: isAlike ? own : await surface(sandbox),
    difference: isAlike
      ? { ok: false, issues: [{ code: 'alike', message: 'No point of the surface is moved.' }] }
      : // Kriging would take one point that moves for noise about a plane; what lies between is drawn as it is.
        await surface(apart, 'linear'),
    points: official.map(({ id, value }, at) => ({
      id,
      official: value,
      sandbox: sandbox[at]?.value ?? null,
    })),
    places: official,
  }
}
