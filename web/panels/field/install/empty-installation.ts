import type { InstallationBody, PointDraft, SensorDraft } from '#domain/field/field-bodies.ts'

/** What the form begins with. */
export const emptyInstallation = (atEpochMs: number): InstallationBody => ({
  kind: 'installation',
  instrument: '',
  instrumentKind: 'piezometer',
  replaces: null,
  eastingMetres: null,
  northingMetres: null,
  collarLevelMetres: null,
  surveyedAtEpochMs: null,
  surveyedBy: '',
  azimuthDegrees: 0,
  dipDegrees: 90,
  lengthMetres: null,
  axisBearingDegrees: null,
  positiveMeans: '',
  fixedEnd: null,
  installedAtEpochMs: atEpochMs,
  critical: false,
  grout: '',
  points: [],
})

/** Named after its instrument and the next letter. */
export const emptyPoint = (instrument: string, place: number, sensor: SensorDraft): PointDraft => ({
  id: `${instrument}${String.fromCharCode(65 + (place % 26))}`,
  depthMetres: 0,
  gaugeLengthMetres: null,
  intakeTopLevelMetres: null,
  intakeBaseLevelMetres: null,
  stratum: null,
  sensors: [sensor],
})

export const emptySensor: SensorDraft = {
  measure: 'pore-pressure',
  serial: '',
  rawUnit: 'mA',
  unit: 'kPa',
  rangeLow: null,
  rangeHigh: null,
  intervalMinutes: 60,
  barometer: null,
  certificate: null,
  zeroReadings: [],
  wiring: null,
}
