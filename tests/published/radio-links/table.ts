import { chanceOfPassing, judgeCoverageTest } from '#domain/radio/acceptance.ts'
import { clopperPearsonInterval } from '#domain/radio/clopper-pearson.ts'
import {
  breakDistanceMetres,
  farGroundLossDb,
  freeSpaceLossDb,
  fresnelRadiusMetres,
  twoRayLossDb,
  wavelengthMetres,
} from '#domain/radio/free-space.ts'
import { approximateKnifeEdgeLossDb, knifeEdgeLossDb, knifeEdgeNumber } from '#domain/radio/knife-edge.ts'
import { dipoleGainDb, linkMarginDb, sensitivityDbm, usualTerms } from '#domain/radio/receiver-sensitivity.ts'
import { spreadingFactors } from '#domain/site/vocabulary.ts'
import { wilsonInterval } from '#domain/statistics/wilson-interval.ts'
import type { PublishedInputs, PublishedTable } from '../published-row.ts'
import { radioLinkRows } from './rows.ts'
import { coverageSpots } from './spots.ts'

const intervals = (received: number, sent: number) => {
  const [wilson, exact] = [wilsonInterval(received, sent), clopperPearsonInterval(received, sent)]
  return { wilson: [wilson.low, wilson.high], clopper_pearson: [exact.low, exact.high] }
}
const ofCounts = ({ k, n }: PublishedInputs) => intervals(k, n)
/** Wavelength for which 550 √(d₁d₂ / ((d₁ + d₂) f)) is the radius, with km and MHz: the recommendation rounds 547.5. */
const roundedWavelength = (frequencyMHz: number) => 550 ** 2 / 1000 / frequencyMHz
/** What the recommendation rounds 32.4478 to. */
const roundedConstant = 32.4

export const radioLinks: PublishedTable = {
  area: 'radio links',
  rows: radioLinkRows,
  computed: {
    'LRA-10': ({ BW_Hz, NF_dB }) =>
      spreadingFactors.map((factor) => sensitivityDbm(factor, { bandwidthHz: BW_Hz, noiseFigureDb: NF_dB })),
    'LRA-11': ({ eirp_dBm, L_dB, Gr_dBi }) =>
      linkMarginDb(usualTerms.radiatedPowerDbm + dipoleGainDb + (eirp_dBm - 16.15) - L_dB + Gr_dBi, 10),
    'RAD-01': ({ f_MHz, d_km }) => ({
      P525: d_km.map((km: number) => freeSpaceLossDb(1000 * km, f_MHz, roundedConstant)),
      exact: d_km.map((km: number) => freeSpaceLossDb(1000 * km, f_MHz)),
    }),
    'RAD-02': () => freeSpaceLossDb(100_000, 915),
    'RAD-03': ({ f_MHz, d1_d2_km }) => {
      const radii = (wavelength: number) =>
        d1_d2_km.map(([one, other]: [number, number]) =>
          fresnelRadiusMetres(1000 * one, 1000 * other, wavelength),
        )
      return { P526_practical: radii(roundedWavelength(f_MHz)), exact: radii(wavelengthMetres(f_MHz)) }
    },
    'RAD-04': ({ v }) => ({
      exact: v.map(knifeEdgeLossDb),
      approx: v.map(approximateKnifeEdgeLossDb),
    }),
    'RAD-05': ({ h_m, d1_m, d2_m, f_MHz }) => {
      const v = knifeEdgeNumber(h_m, d1_m, d2_m, wavelengthMetres(f_MHz))
      return { v, J_approx_dB: approximateKnifeEdgeLossDb(v), J_exact_dB: knifeEdgeLossDb(v) }
    },
    'RAD-07': ({ f_MHz, ht_m, hr_m }) => ({
      '4hh/lambda': breakDistanceMetres(ht_m, hr_m, wavelengthMetres(f_MHz)),
      '4pi_hh/lambda': breakDistanceMetres(ht_m, hr_m, wavelengthMetres(f_MHz), 4 * Math.PI),
    }),
    'RAD-08': ({ f_MHz, ht_m, hr_m, d_m }) => ({
      exact: d_m.map((metres: number) => twoRayLossDb(metres, ht_m, hr_m, wavelengthMetres(f_MHz))),
      asymptote: d_m.map((metres: number) => farGroundLossDb(metres, ht_m, hr_m)),
    }),
    'RAD-10': () => {
      const judged = coverageSpots.map((spot) => {
        const accepted = (rows: Parameters<typeof judgeCoverageTest>[0]) =>
          judgeCoverageTest(rows).verdict === 'accepted'
        const seven = { spreadingFactor: 7, sent: spot.sent, received: spot.received7 }
        const twelve = { spreadingFactor: 12, sent: spot.sent, received: spot.received12 }
        return {
          seven: accepted([seven]),
          twelve: accepted([twelve]),
          any: accepted([seven, twelve]),
          // The row asks with the sensitivity rounded to a tenth.
          reaches: spot.signalDbm >= Math.round(10 * sensitivityDbm(7)) / 10,
        }
      })
      const count = (holds: (one: (typeof judged)[number]) => boolean) => judged.filter(holds).length
      return {
        accepted_sf7: count((one) => one.seven),
        accepted_sf12: count((one) => one.twelve),
        accepted_any: count((one) => one.any),
        TP: count((one) => one.seven && one.reaches),
        FP: count((one) => !one.seven && one.reaches),
        FN: count((one) => one.seven && !one.reaches),
        TN: count((one) => !one.seven && !one.reaches),
      }
    },
    'BIN-01': ofCounts,
    'BIN-02': ofCounts,
    'BIN-03': ofCounts,
    'BIN-04': ofCounts,
    'BIN-05': () => intervals(5, 10),
    'BIN-06': () => intervals(10, 20),
    'BIN-09': () => intervals(50, 100),
    'BIN-10': () => intervals(45, 50),
    'BIN-11': () => intervals(0, 10),
    'BIN-13': ({ p, n }) => n.map((sent: number) => chanceOfPassing(p, [sent])),
    'BIN-14': ({ p, n }) => ({
      one: chanceOfPassing(p, [n]),
      any_of_six: chanceOfPassing(p, [n, n, n, n, n, n]),
    }),
  },
}
