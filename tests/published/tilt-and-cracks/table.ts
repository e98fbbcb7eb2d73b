import {
  angleSlopeMmPerM,
  secondsOfSlope,
  sineSlopeMmPerM,
  tangentSlopeMmPerM,
} from '#domain/reduction/tilt-slope.ts'
import { fitLine } from '#domain/statistics/least-squares.ts'
import { convert } from '#domain/units.ts'
import { deriveMeasured, type MeasuredPoint } from '../derive-measured.ts'
import { thermalLength } from '../extensometers/table.ts'
import type { PublishedTable } from '../published-row.ts'
import { tiltAndCracksRows } from './rows.ts'

const inUnit = (value: number, from: string, to: string): number => {
  const outcome = convert(value, from, to)
  return outcome.ok ? outcome.value : Number.NaN
}

const slopeOf = (text: string): number => {
  const [rise = '', run = ''] = text.split('/')
  return inUnit(Number(rise) / Number(run), 'm/m', 'mm/m')
}

export const tiltAndCracks: PublishedTable = {
  area: 'tilt and cracks',
  rows: tiltAndCracksRows,
  computed: {
    'TI-01': ({ arcsec }) => ({
      microrad: 1e6 * inUnit(arcsec, "''", 'rad'),
      mm_per_m: angleSlopeMmPerM(inUnit(arcsec, "''", 'deg')),
    }),
    'TI-02': ({ mm_per_m }) => ({
      arcsec_small_angle: secondsOfSlope(mm_per_m, 'angle'),
      arcsec_atan: secondsOfSlope(mm_per_m, 'tangent'),
      arcsec_asin: secondsOfSlope(mm_per_m, 'sine'),
    }),
    'TI-03': ({ deg }) => [angleSlopeMmPerM(deg), sineSlopeMmPerM(deg), tangentSlopeMmPerM(deg)],
    'TI-04': ({ slope }) => {
      const mmPerM = slopeOf(slope)
      const arcsec = secondsOfSlope(mmPerM, 'tangent')
      return { mm_per_m: mmPerM, deg: inUnit(arcsec, "''", 'deg'), arcsec }
    },
    // The app tells settlements, downwards; the row the rise of the far end.
    'TI-05': ({ tilt_change_arcsec, beam_m }) => {
      let end = 0
      const derived = deriveMeasured({
        instrument: { kind: 'tilt-beam', fixedEnd: 'head' },
        unit: "''",
        points: beam_m.map((length: number, at: number): MeasuredPoint => {
          end += length
          return {
            id: `B${at}`,
            depthMetres: end - length / 2,
            gaugeLengthMetres: length,
            read: { tilt: tilt_change_arcsec[at] },
          }
        }),
      })
      return beam_m.map((_: number, at: number) => -(derived[`B${at}/differential-settlement`] ?? Number.NaN))
    },
    'TI-06': ({ T_C, tilt_arcsec }) => {
      const fit = fitLine(T_C, tilt_arcsec)
      return fit.ok
        ? { slope: fit.value.slope, residual_sd_n_minus_2: fit.value.residualStandardDeviation }
        : null
    },
    'CR-01': ({ AB_mm, AC0, BC0, AC1, BC1 }) => {
      const derived = deriveMeasured({
        instrument: { kind: 'crack-meter', studZeroAbMm: AB_mm, studZeroAcMm: AC0, studZeroBcMm: BC0 },
        points: [
          { id: 'C', read: { 'stud-length-ab': AB_mm, 'stud-length-ac': AC1, 'stud-length-bc': BC1 } },
        ],
      })
      return { opening: derived['I/opening'], shear: derived['I/shear'] }
    },
    'CR-02': ({ dx, dy, dz }) =>
      deriveMeasured({
        instrument: { kind: 'crack-meter' },
        points: [{ id: 'C', read: { opening: dx, shear: dy, step: dz } }],
      })['I/resultant'],
    'CR-03': ({ L_mm, alpha_per_C, dT_C }) => thermalLength(L_mm, alpha_per_C, dT_C),
  },
}
