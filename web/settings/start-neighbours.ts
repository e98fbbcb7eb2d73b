import { onCleanup } from 'solid-js'
import type { Series, SiteDocument } from '#contract/site-document.ts'
import { barriersAt } from '#domain/ground/barriers-at.ts'
import { agreementsOf } from '#domain/review/agreement.ts'
import { reviewCaseOf } from '#domain/review/case/case-of.ts'
import { companionsOf } from '#domain/review/case/companions.ts'
import { dayText } from '#domain/review/wording.ts'
import { outOfUseSince } from '#domain/site/series-ends.ts'
import { siteWater } from '#domain/site/site-water.ts'
import { type Derivation, openDerivation } from '../derived/open-derivation.ts'
import type { NeighboursFound, ResidualsFound } from '../derived/review/neighbours-found.ts'
import { settlementSeries } from '../derived/settlement-points.ts'
import { knownHours, knownReadings } from '../queries/review-readings.ts'
import { analysis, slicesRevision } from '../state/analysis.ts'
import { sentenceOf } from '../state/ask-server.ts'
import {
  reportNeighboursTrouble,
  reportNeighboursWaiting,
  showNeighbours,
  showResiduals,
} from '../state/neighbours-shown.ts'
import { isLayerShown } from '../state/plan-layers.ts'
import { reviewedSeries, reviewStretch } from '../state/reviewed-series.ts'
import { siteDocument } from '../state/site-document.ts'
import { siteGrid } from '../state/site-grid.ts'
import { newestNext } from '../ui/newest-next.ts'
import { sync } from '../ui/sync.ts'
import { subjectOf, type Wanted } from './surface-subjects.ts'

interface Asked {
  readonly subject: Series
  readonly fromEpochMs: number
  readonly asOfEpochMs: number
}

/** Keeps the neighbours of the series reviewed in step with selection, stretch and clock, while their layer is shown. */
export function startNeighbours(): void {
  const derivation = openDerivation()
  let now: Asked | null = null
  /** A clock that runs on lets an answer be shown; of another series none is. */
  const isWanted = ({ subject }: Asked) => now?.subject.id === subject.id
  const ask = newestNext(
    async (asked: Asked) => {
      reportNeighboursWaiting('Neighbours are being held against it …')
      const found = await findNeighbours(asked)
      if (!found || !isWanted(asked)) return
      showNeighbours(found)
      reportNeighboursWaiting('Each point is being left out of the surface in turn …')
      // Without residuals the neighbours still stand.
      const residuals = await findResiduals(asked, derivation).catch(
        (cause: unknown): ResidualsFound => ({
          ok: false,
          sentence: `They could not be worked out: ${sentenceOf(cause)}`,
        }),
      )
      if (isWanted(asked)) showResiduals(residuals)
    },
    (_, asked) => {
      if (asked === now) reportNeighboursWaiting(null)
    },
    (cause, asked) => {
      if (!isWanted(asked)) return
      reportNeighboursWaiting(null)
      reportNeighboursTrouble(`The neighbours could not be worked out: ${sentenceOf(cause)}`)
    },
  )
  sync(
    () => {
      const [subject, stretch] = [reviewedSeries(), reviewStretch()]
      if (!isLayerShown('neighbours') || !analysis() || !siteGrid() || !subject || !stretch) return null
      slicesRevision()
      return { subject, ...stretch }
    },
    (asked) => {
      // Of another series nothing is shown in its place, not for a moment.
      if (asked?.subject.id !== now?.subject.id) {
        showNeighbours(null)
        showResiduals(null)
      }
      now = asked
      if (asked) ask(asked)
      else reportNeighboursWaiting(null)
    },
  )
  onCleanup(derivation.close)
}

async function findNeighbours({ subject, fromEpochMs, asOfEpochMs }: Asked): Promise<NeighboursFound | null> {
  const [document, grid, on] = [siteDocument(), siteGrid(), analysis()]
  if (!document || !grid || !on) return null
  const companions = companionsOf(document, subject, {
    network: null,
    barriers: barriersAt(document.works, grid, asOfEpochMs),
    waterUnitWeightKnPerM3: siteWater(document.facts).unitWeightKnPerM3,
  })
  const beside = [...companions.same, ...companions.other, ...companions.byHand]
  const stretch = { fromEpochMs, asOfEpochMs }
  const [hours, readings] = await Promise.all([
    on.keeper.ask(
      knownHours({
        ...stretch,
        series: [...new Set(beside.map(({ series }) => series.series))].sort((one, other) => one - other),
      }),
    ),
    on.keeper.ask(knownReadings({ ...stretch, series: subject.series })),
  ])
  const reviewed = reviewCaseOf(
    document,
    { subject, companions: { ...companions, ofLogger: [], drivers: [], checksums: [] }, ...stretch },
    { hours: hours.columns, readings: readings.columns },
    { network: null, battery: null, beside: [] },
  )
  const agreements = agreementsOf(reviewed)
  const read = new Set(agreements.map(({ neighbour }) => neighbour.series))
  return {
    series: subject.id,
    point: subject.point,
    ...stretch,
    agreements,
    parted: companions.parted,
    outOfUse: new Map(
      beside.flatMap(({ series }) => {
        const since = outOfUseSince(document, series, asOfEpochMs)
        return since === null ? [] : [[series.id, dayText(document.facts, since)] as const]
      }),
    ),
    unread: beside.filter(({ series }) => !read.has(series.id)),
    remarks: [...new Set([...hours.missing, ...readings.missing].map(({ message }) => message))],
  }
}

/** Of which surface its residuals are; null where no surface is made of such readings. */
export function surfaceOf(
  document: Pick<SiteDocument, 'series' | 'points'>,
  subject: Series,
  atEpochMs: number,
): Wanted | null {
  if (settlementSeries(document.series, document.points).some(({ id }) => id === subject.id))
    return { of: 'settlement', atEpochMs, sinceEpochMs: null }
  const stratum = document.points.find(({ id }) => id === subject.point)?.stratum ?? null
  return subject.measure === 'pore-pressure' && stratum !== null
    ? { of: 'water', atEpochMs, sinceEpochMs: null, stratum }
    : null
}

async function findResiduals(
  { subject, asOfEpochMs }: Asked,
  derivation: Derivation,
): Promise<ResidualsFound> {
  const [document, grid] = [siteDocument(), siteGrid()]
  const wanted = document && surfaceOf(document, subject, asOfEpochMs)
  const points = wanted && (await subjectOf(wanted))
  if (!document || !grid || !points)
    return {
      ok: false,
      sentence:
        'No surface is made of such readings, so none is left out of one: only points of settlement at the surface, and tips whose layer is stated, have residuals.',
    }
  const outcome = await derivation.residuals({
    points: points.points,
    unit: points.unit,
    barriers: barriersAt(document.works, grid, asOfEpochMs),
  })
  return outcome.ok
    ? { ok: true, what: points.what, residuals: outcome.value }
    : { ok: false, sentence: outcome.issues.map(({ message }) => message).join(' ') }
}
