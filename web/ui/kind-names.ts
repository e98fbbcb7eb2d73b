import type { InstrumentKind, Measure } from '#domain/site/vocabulary.ts'

/** Kinds of instrument in the trade's words (ISO 18674). */
export const kindNames: Readonly<Record<InstrumentKind, string>> = {
  piezometer: 'Piezometer',
  standpipe: 'Standpipe',
  extensometer: 'Extensometer',
  'in-place-inclinometer': 'In-place inclinometer',
  'settlement-point': 'Settlement point',
  tiltmeter: 'Tiltmeter',
  'crack-meter': 'Crack meter',
  'strut-load': 'Strut load',
  'rain-gauge': 'Rain gauge',
  barometer: 'Barometer',
  'air-temperature': 'Air temperature',
  'tide-gauge': 'Tide gauge',
  'logger-battery': 'Logger battery',
}

/** What a series measures, as a heading. */
export const measureNames: Readonly<Record<Measure, string>> = {
  'pore-pressure': 'Pore pressure',
  'water-level': 'Water level',
  temperature: 'Temperature',
  displacement: 'Displacement',
  'inclination-a': 'Inclination A',
  'inclination-b': 'Inclination B',
  deflection: 'Deflection',
  settlement: 'Settlement',
  tilt: 'Tilt',
  opening: 'Opening',
  strain: 'Strain',
  force: 'Force',
  rainfall: 'Rainfall',
  'barometric-pressure': 'Barometric pressure',
  'tide-level': 'Tide level',
  'battery-voltage': 'Battery voltage',
}
