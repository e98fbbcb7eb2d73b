import type { SiteModel } from '#domain/site/site.ts'

/** The part of a site that some of its instruments need: its other instruments are taken out, and what names them. */
export function fewInstruments(model: SiteModel, ids: readonly string[]): SiteModel {
  const kept = new Set(ids)
  const points = model.points.filter(({ instrument }) => kept.has(instrument))
  const ofPoint = new Set([...points.map(({ id }) => id), ...ids])
  const isOwn = (series: string) => ofPoint.has(series.split('/')[0] ?? '')
  const sensors = model.sensors.filter(({ id }) => isOwn(id))
  const calibrations = model.calibrations.filter(({ sensor }) => isOwn(sensor))
  const versions = new Set(calibrations.map(({ id }) => id))
  return {
    ...model,
    instruments: model.instruments.filter(({ id }) => kept.has(id)),
    points,
    sensors,
    wiring: model.wiring.filter(({ sensor }) => isOwn(sensor)),
    calibrations,
    calibrationSteps: model.calibrationSteps.filter(({ calibration }) => versions.has(calibration)),
    zeroReadings: model.zeroReadings.filter(({ calibration }) => versions.has(calibration)),
    triggerLevels: model.triggerLevels.filter(
      ({ series, watches, against }) =>
        isOwn(series) && watches !== 'combination' && (against === null || isOwn(against ?? '')),
    ),
    verdicts: model.verdicts.filter(({ series }) => isOwn(series)),
    structureLines: model.structureLines.filter(({ line }) => kept.has(line)),
    checkLimits: model.checkLimits.filter(
      ({ series, against }) => (series === null || isOwn(series)) && (against === null || isOwn(against)),
    ),
    predictions: [],
    verdictWithdrawals: [],
    approvals: [],
    approvalWithdrawals: [],
    joins: [],
    coverageTests: [],
    suppressions: [],
    suppressionEnds: [],
    holdPoints: [],
  }
}
