import type { SiteModel } from '#domain/site/site.ts'

const noon = Date.UTC(2027, 1, 1, 12)

/** A site of a few records, enough to change, reorder and withdraw some. Invented. */
export function smallSite(id = 'small-quay'): SiteModel {
  return {
    facts: {
      id,
      name: 'Small Quay',
      invented: true,
      watermark: 'invented data',
      crs: 'EPSG:32626',
      verticalDatum: 'works datum',
      timeZone: 'Atlantic/Azores',
      presentEpochMs: null,
      levelNames: ['Level 1', 'Level 2'],
      groundLevelMetres: 4.6,
    },
    works: {
      type: 'FeatureCollection',
      features: ['wall-south', 'box', 'boundary'].map((name, i) => ({
        type: 'Feature',
        geometry: {
          type: 'LineString',
          coordinates: [
            [-30.000_001_234_5, 48],
            [-30 + i / 1000, 48.001],
          ],
        },
        properties: {
          id: name,
          kind: i === 0 ? 'wall' : i === 1 ? 'excavation' : 'boundary',
          name,
          barrier: i === 0,
          fromEpochMs: i === 2 ? null : noon,
          untilEpochMs: null,
          topLevelMetres: 4.6,
          baseLevelMetres: -18,
        },
      })),
    },
    stages: [
      { id: 'wall', name: 'wall', startsAt: noon, endsAt: noon + 86_400_000, formationLevelMetres: null },
      { id: 'dig-1', name: 'first dig', startsAt: noon + 86_400_000, endsAt: null, formationLevelMetres: -2 },
    ],
    // Neither in the order of their keys nor of anything else.
    locations: ['H-09', 'H-10', 'H-01'].map((location, i) => ({
      id: location,
      kind: 'hole' as const,
      eastingMetres: 500_000 + i / 3,
      northingMetres: 310_000,
      collarLevelMetres: 4.6,
      azimuthDegrees: 0,
      dipDegrees: 90,
      lengthMetres: 22,
      surveyedAt: noon,
      surveyedBy: 'A. Tester',
    })),
    strata: [
      layer('H-01', 4.6, 1.6, 'made ground'),
      layer('H-01', 1.6, -5.4, 'soft clay'),
      layer('H-09', 4.6, 1.2, 'made ground'),
    ],
    instruments: [],
    points: [],
    sensors: [],
    loggers: [],
    gateways: [{ id: 'GW-1', location: 'H-01', antennaHeightMetres: 12 }],
    wiring: [],
    calibrations: [],
    calibrationSteps: [],
    triggerLevels: [],
    holdPoints: [],
    coverageTests: [],
    diary: [],
    checkLimits: [],
    verdicts: [],
    predictions: [],
    verdictWithdrawals: [],
    verdictEvidence: [],
    verdictReviews: [],
    controlPoints: [],
    alignmentElements: [],
    structureLines: [],
    spiralSurveys: [],
    holeSurveys: [],
    zeroReadings: [],
    joins: [],
    aquifers: [],
    wells: [],
    pumpingRates: [],
    approvals: [],
    approvalWithdrawals: [],
    contacts: [],
    dutyShifts: [],
    holidays: [],
    escalations: [],
    suppressions: [],
    suppressionEnds: [],
  }
}

const layer = (location: string, topLevelMetres: number, baseLevelMetres: number, stratum: string) => ({
  location,
  topLevelMetres,
  baseLevelMetres,
  stratum,
  unitWeightKnPerM3: 18,
  compressibilityM2PerKn: stratum === 'soft clay' ? 1e-4 : null,
  consolidationM2PerYear: null,
})
