import type { PlacedPoint, Series, SiteDocument } from '#contract/site-document.ts'
import { standingApprovals } from '#domain/approval/approved-stretches.ts'
import { worksOnElements } from '#domain/geometry/alignment-of-works.ts'
import {
  type GrooveSpiral,
  grooveSentence,
  grooveSpiral,
  grooveTurnDegrees,
} from '#domain/geometry/groove-spiral.ts'
import { positionAtDepth } from '#domain/geometry/hole.ts'
import type { SiteGrid } from '#domain/geometry/site-grid.ts'
import { surveyedHole } from '#domain/geometry/surveyed-hole.ts'
import type { SiteModel } from '#domain/site/site.ts'
import type { InstrumentKind, Measure } from '#domain/site/vocabulary.ts'

/** Measure that colours a point of each kind on the plan. */
const primaryMeasure: Readonly<Record<InstrumentKind, readonly Measure[]>> = {
  piezometer: ['pore-pressure'],
  standpipe: ['water-level'],
  extensometer: ['displacement', 'settlement'],
  'in-place-inclinometer': ['deflection', 'inclination-a'],
  'settlement-point': ['settlement'],
  tiltmeter: ['tilt'],
  'crack-meter': ['opening'],
  'strut-load': ['force'],
  'rain-gauge': ['rainfall'],
  barometer: ['barometric-pressure'],
  'air-temperature': ['temperature'],
  'tide-gauge': ['tide-level'],
  'logger-battery': ['battery-voltage'],
  'traversed-inclinometer': ['deflection', 'deviation-a', 'face-a0'],
  'tilt-beam': ['differential-settlement', 'tilt'],
  'settlement-cell': ['settlement', 'relative-settlement'],
  'structure-line': ['deflection-ratio'],
}

/** Everything that draws the site but its readings; `series` already carry their slice numbers. */
export function buildSiteDocument(
  model: SiteModel,
  series: readonly Series[],
  grid: SiteGrid,
  presentEpochMs: number,
  recipeNow: (instrument: string, fromEpochMs: number, untilEpochMs: number) => string,
): SiteDocument {
  const instrumentById = new Map(model.instruments.map((instrument) => [instrument.id, instrument]))
  const surveyed = model.locations.map((location) => surveyedHole(location, model.holeSurveys))
  const locationById = new Map(surveyed.map((location) => [location.id, location]))
  const seriesByPoint = new Map<string, Series[]>()
  for (const one of series) seriesByPoint.set(one.point, [...(seriesByPoint.get(one.point) ?? []), one])

  const spirals = new Map(
    model.instruments
      .filter(({ kind }) => kind === 'in-place-inclinometer' || kind === 'traversed-inclinometer')
      .flatMap(({ id, location }) => {
        const spiral = grooveSpiral(location, model.spiralSurveys)
        return spiral ? [[id, spiral] as const] : []
      }),
  )
  const points = model.points.flatMap((point): PlacedPoint[] => {
    const instrument = instrumentById.get(point.instrument)
    const location = instrument && locationById.get(instrument.location)
    if (!instrument || !location) return []
    const spiral = spirals.get(instrument.id)
    const position = positionAtDepth(location, point.depthMetres)
    const [longitude, latitude] = grid.toLngLat([position.eastingMetres, position.northingMetres])
    const candidates = seriesByPoint.get(point.id) ?? []
    const primary = primaryMeasure[instrument.kind]
      .map((measure) => candidates.find((one) => one.measure === measure))
      .find((one) => one !== undefined)
    return [
      {
        id: point.id,
        instrument: instrument.id,
        kind: instrument.kind,
        location: location.id,
        depthMetres: point.depthMetres,
        gaugeLengthMetres: point.gaugeLengthMetres,
        ...optional({ zeroDeviationAMm: point.zeroDeviationAMm, zeroDeviationBMm: point.zeroDeviationBMm }),
        eastingMetres: position.eastingMetres,
        northingMetres: position.northingMetres,
        levelMetres: position.levelMetres,
        longitude,
        latitude,
        stratum: point.stratum,
        ...(spiral ? { grooveTurnDegrees: grooveTurnDegrees(spiral, point.depthMetres) } : {}),
        retiredAtEpochMs: point.retiredAt ?? instrument.retiredAt,
        replaces: point.replaces,
        primarySeries: primary?.series ?? null,
      },
    ]
  })
  const wiredTo = Object.fromEntries(
    model.wiring
      .filter((wire) => wire.fromAt <= presentEpochMs && (wire.untilAt ?? Infinity) > presentEpochMs)
      .map((wire) => [wire.sensor, `${wire.logger} / ${wire.channel}`]),
  )
  return {
    facts: model.facts,
    works: worksOnElements(model.works, model.alignmentElements, grid),
    alignmentElements: model.alignmentElements,
    stages: model.stages,
    strata: model.strata,
    locations: surveyed.map((location) => {
      const [longitude, latitude] = grid.toLngLat([location.eastingMetres, location.northingMetres])
      return { ...location, longitude, latitude }
    }),
    instruments: model.instruments.map((instrument) => ({
      id: instrument.id,
      kind: instrument.kind,
      location: instrument.location,
      axisBearingDegrees: instrument.axisBearingDegrees,
      positiveB: instrument.positiveB ?? null,
      positiveMeans: instrument.positiveMeans,
      fixedEnd: instrument.fixedEnd,
      ...optional({
        stillBelowMetres: instrument.stillBelowMetres,
        surveyMaximumAgeDays: instrument.surveyMaximumAgeDays,
        structureHeightMetres: instrument.structureHeightMetres,
        structureStiffnessRatio: instrument.structureStiffnessRatio,
      }),
      critical: instrument.critical,
      retiredAtEpochMs: instrument.retiredAt,
      note: instrument.note,
      points: model.points.filter((point) => point.instrument === instrument.id).map((point) => point.id),
      ...saidOfGrooves(spirals.get(instrument.id)),
    })),
    points,
    series,
    loggers: model.loggers,
    gateways: model.gateways,
    triggerLevels: model.triggerLevels,
    checkLimits: model.checkLimits,
    verdicts: model.verdicts,
    predictions: model.predictions,
    verdictWithdrawals: model.verdictWithdrawals,
    verdictEvidence: model.verdictEvidence,
    verdictReviews: model.verdictReviews,
    holdPoints: model.holdPoints,
    approvals: standingApprovals(model.approvals, model.approvalWithdrawals, recipeNow),
    joins: model.joins,
    aquifers: model.aquifers,
    wells: model.wells,
    pumpingRates: model.pumpingRates,
    structureLines: model.structureLines,
    coverageTests: model.coverageTests,
    diary: model.diary,
    controlPoints: model.controlPoints,
    wiredTo,
  }
}

/** Leaves out what is not stated. */
const optional = <T extends Record<string, number | null | undefined>>(
  stated: T,
): { readonly [Name in keyof T]?: number } =>
  Object.fromEntries(Object.entries(stated).filter(([, value]) => typeof value === 'number')) as {
    [Name in keyof T]?: number
  }
const saidOfGrooves = (spiral: GrooveSpiral | undefined) =>
  spiral ? { grooveSentence: grooveSentence(spiral) } : {}
