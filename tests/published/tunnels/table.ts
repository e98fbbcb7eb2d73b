import {
  beamStrains,
  crackWidthGuide,
  damageCategory,
  riskClasses,
  skemptonLimits,
  withHorizontalStrain,
} from '#domain/ground/building-damage.ts'
import { distortionOf } from '#domain/ground/distortion.ts'
import {
  curvatureAt,
  gaussianTrough,
  settlementAt,
  slopeAt,
  type Trough,
  troughBelowGround,
} from '#domain/ground/trough.ts'
import { partsOverTrough } from '#domain/ground/troughs/building-over-trough.ts'
import { buildingResponse } from '#domain/ground/troughs/building-response.ts'
import { fitLongitudinalTrough } from '#domain/ground/troughs/fit-longitudinal.ts'
import { fitTrough } from '#domain/ground/troughs/fit-trough.ts'
import {
  horizontalDisplacementAt,
  horizontalStrainAt,
  principalExtension,
} from '#domain/ground/troughs/horizontal-ground-movement.ts'
import {
  settlementDuringDrive,
  shareOfSettlement,
  steepestAlong,
} from '#domain/ground/troughs/longitudinal-trough.ts'
import {
  measuredVolumeM3PerMetre,
  settlementOfTroughs,
  shareWithin,
} from '#domain/ground/troughs/trough-volume.ts'
import { fitCurve } from '#domain/statistics/curve-fit.ts'
import { accepted } from '../accepted.ts'
import type { PublishedInputs, PublishedTable } from '../published-row.ts'
import { tunnelRows } from './rows.ts'

const drive = ({ D_m, z0_m, K, VL }: PublishedInputs) => ({
  diameterMetres: D_m ?? 6,
  axisDepthMetres: z0_m,
  volumeLoss: VL ?? 0.01,
  widthParameter: K ?? 0.5,
})
const trough = (inputs: PublishedInputs) => gaussianTrough(drive(inputs))
const settlement = (inputs: PublishedInputs) => settlementAt(trough(inputs), inputs.y_m)
const below = (inputs: PublishedInputs) => {
  const widthMetres = troughBelowGround(drive(inputs), inputs.z_m)?.widthMetres as number
  return { i_m: widthMetres, K: widthMetres / (inputs.z0_m - inputs.z_m) }
}
/** The face has come from far behind to 0; the point stands as far ahead of it. */
const share = ({ distance_ahead_of_face_over_i }: PublishedInputs) =>
  shareOfSettlement({ startChainageMetres: -1000, faceChainageMetres: 0 }, 1, distance_ahead_of_face_over_i)
const fitted = ({ y_m, s_mm, D_m }: PublishedInputs, centreHeldAtMetres?: number) =>
  accepted(
    fitTrough(
      y_m.map((offsetMetres: number, at: number) => ({
        id: String(at),
        offsetMetres,
        settlementMm: s_mm[at],
        standardUncertaintyMm: null,
        late: false,
      })),
      { faceDiameterMetres: D_m ?? 6, ...(centreHeldAtMetres === undefined ? {} : { centreHeldAtMetres }) },
    ),
  )

type Curve = (x: number, b: readonly number[]) => number
const eckerle: Curve = (x, [b1, b2, b3]) =>
  ((b1 as number) / (b2 as number)) * Math.exp(-0.5 * ((x - (b3 as number)) / (b2 as number)) ** 2)
const misra: Curve = (x, [b1, b2]) => (b1 as number) * (1 - Math.exp(-(b2 as number) * x))
const ratkowsky: Curve = (x, [b1, b2, b3, b4]) =>
  (b1 as number) / (1 + Math.exp((b2 as number) - (b3 as number) * x)) ** (1 / (b4 as number))
const twoBells: Curve = (x, b) => {
  const [b1, b2, b3, b4, b5, b6, b7, b8] = b as [
    number,
    number,
    number,
    number,
    number,
    number,
    number,
    number,
  ]
  return (
    b1 * Math.exp(-b2 * x) + b3 * Math.exp(-(((x - b4) / b5) ** 2)) + b6 * Math.exp(-(((x - b7) / b8) ** 2))
  )
}
const rational: Curve = (x, [b1, b2, b3, b4]) =>
  ((b1 as number) * (x * x + x * (b2 as number))) / (x * x + x * (b3 as number) + (b4 as number))

/** From both certified starts; the one farther from the row's numbers could not hide behind the other. */
const certified = (curve: Curve) => (inputs: PublishedInputs) => {
  const [far, near] = [inputs.start1, inputs.start2].map((start) =>
    accepted(fitCurve(curve, inputs.x, inputs.y, start)),
  )
  for (const [at, value] of (far?.parameters ?? []).entries())
    if (Math.abs(value - (near?.parameters[at] as number)) > 1e-5 * Math.abs(value))
      throw new Error('The two starts end at different places.')
  return Object.fromEntries([
    ...(far?.parameters ?? []).map((value, at) => [`b${at + 1}`, value]),
    ...(far?.standardErrors ?? []).map((value, at) => [`se_b${at + 1}`, value]),
    ['rss', far?.residualSumOfSquares],
    ['rsd', far?.residualStandardDeviation],
  ])
}

const strains = (
  inputs: PublishedInputs,
  mode: 'hogging' | 'sagging',
  ratio = inputs.delta_m / inputs.L_m,
) => ({
  ...beamStrains(
    { lengthMetres: inputs.L_m, heightMetres: inputs.H_m, stiffnessRatio: inputs['E/G'], mode },
    ratio,
  ),
  ratio,
})
const combined = (inputs: PublishedInputs) => {
  const { bending, diagonal } = withHorizontalStrain(strains(inputs, 'hogging'), inputs.eps_h, inputs['E/G'])
  const critical = Math.max(bending, diagonal)
  return {
    eps_br: bending,
    eps_dr: diagonal,
    critical,
    category: Number(damageCategory(100 * critical).category),
  }
}
const beam = (mode: 'hogging' | 'sagging') => (inputs: PublishedInputs) => {
  const { bending, diagonal, ratio } = strains(inputs, mode)
  return { deflection_ratio: ratio, eps_b: bending, eps_d: diagonal }
}
const extension = ({ eps_L, beta }: PublishedInputs) => principalExtension(eps_L, beta)
const parts = (on: Trough, axisDepthMetres: number, from: number, to: number) => {
  const found = partsOverTrough(on, axisDepthMetres, from, to)
  const [sag, hog] = [
    found.find(({ mode }) => mode === 'sagging'),
    found.find(({ mode }) => mode === 'hogging'),
  ]
  if (!sag || !hog) throw new Error('The building does not lie across the turn of the trough.')
  return { sag, hog }
}

/** Words of a row for an event of the project's list. */
const rowWords: Readonly<Record<string, string>> = { 'first cracking': 'first cracking of panel walls' }

export const tunnels: PublishedTable = {
  area: 'tunnels',
  rows: tunnelRows,
  computed: {
    'TRO-01': (inputs) => trough(inputs).widthMetres,
    'TRO-02': (inputs) => trough(inputs).volumeM3PerMetre,
    'TRO-03': (inputs) => trough(inputs).greatestSettlementMm,
    'TRO-05': settlement,
    'TRO-06': settlement,
    'TRO-08': settlement,
    'TRO-10': settlement,
    'TRO-11': (inputs) => -slopeAt(trough(inputs), trough(inputs).widthMetres) / 1000,
    'TRO-12': (inputs) => {
      const on = trough(inputs)
      return { sag: -curvatureAt(on, 0) / 1000, hog: curvatureAt(on, Math.sqrt(3) * on.widthMetres) / 1000 }
    },
    // The row counts towards the tunnel; the project along the offset.
    'TRO-13': (inputs) => -horizontalDisplacementAt(trough(inputs), inputs.z0_m, inputs.y_m),
    'TRO-14': (inputs) => {
      const on = trough(inputs)
      const strain = (offset: number) => horizontalStrainAt(on, inputs.z0_m, offset) / 1000
      return { compression: strain(0), tension: strain(Math.sqrt(3) * on.widthMetres) }
    },
    'TRO-15': below,
    'TRO-16': below,
    'TRO-17': below,
    'TRO-19': (inputs) => troughBelowGround(drive(inputs), inputs.z_m)?.greatestSettlementMm,
    'LNG-01': share,
    'LNG-02': share,
    'LNG-03': share,
    'LNG-04': share,
    'LNG-05': share,
    'LNG-07': share,
    'LNG-08': share,
    'LNG-09': share,
    'LNG-10': (inputs) =>
      settlementDuringDrive(
        trough(inputs),
        {
          startChainageMetres: inputs.x_point_minus_face - inputs.x_point_minus_start,
          faceChainageMetres: 0,
        },
        inputs.x_point_minus_face,
        inputs.y_m,
      ),
    // Half at the face is an assumption: the project has no share until one is fitted, and without points none is.
    'LNG-12': () => {
      const fit = fitLongitudinalTrough([])
      return fit.ok ? fit.value.shareAtFace : null
    },
    'LNG-11': (inputs) => steepestAlong(trough(inputs)) / 1000,
    // The row's words put the tunnels at −6 and +6.
    'TRO-21': (inputs) => {
      const twins = [-6, 6].map((centreOffsetMetres) => ({ trough: trough(inputs), centreOffsetMetres }))
      return { y0: settlementOfTroughs(twins, 0), y6: settlementOfTroughs(twins, 6) }
    },
    // The row's words put points every 2 m to ±40 m.
    'TRO-22': (inputs) =>
      measuredVolumeM3PerMetre(
        Array.from({ length: 41 }, (_, node) => ({
          offsetMetres: 2 * node - 40,
          settlementMm: settlementAt(trough(inputs), 2 * node - 40),
        })),
      ),
    'TRO-23': () => [1, 2, 2.5, 3].map(shareWithin),
    'FIT-01': (inputs) => {
      const fit = fitted(inputs)
      return {
        Smax_mm: fit.greatestSettlementMm.value,
        i_m: fit.widthMetres.value,
        y0_m: fit.centreOffsetMetres.value,
        RSS: fit.residualSumOfSquares,
        residual_sd: fit.residualStandardDeviationMm,
        se_Smax: fit.greatestSettlementMm.standardError,
        se_i: fit.widthMetres.standardError,
        se_y0: fit.centreOffsetMetres.standardError,
      }
    },
    'FIT-02': (inputs) => {
      const fit = fitted(inputs, 0)
      return {
        Smax_mm: fit.greatestSettlementMm.value,
        i_m: fit.widthMetres.value,
        RSS: fit.residualSumOfSquares,
      }
    },
    'FIT-03': (inputs) => 100 * fitted(inputs).volumeLoss.value,
    'NIST-01': certified(misra),
    'NIST-02': (inputs) =>
      certified(twoBells)({ ...inputs, x: inputs.y.map((_: number, at: number) => at + 1) }),
    'NIST-03': certified(eckerle),
    'NIST-04': certified(ratkowsky),
    'NIST-05': certified(rational),
    'NIST-06': ({ y2, start2, y3, start3 }) => {
      const parameters = (y: readonly number[], [one, two]: readonly (readonly number[])[]) => {
        const x = y.map((_, at) => at + 1)
        const found = certified(twoBells)({ x, y, start1: one, start2: two })
        return Array.from({ length: 8 }, (_, at) => found[`b${at + 1}`])
      }
      return { Gauss2: parameters(y2, start2), Gauss3: parameters(y3, start3) }
    },
    'BLD-01': beam('hogging'),
    'BLD-02': beam('sagging'),
    'BLD-06': combined,
    'BLD-07': combined,
    'BLD-08': combined,
    // The row's signs for the guide's words. It has <=0.1 and >3 where TR-04, of the same text, has <0.1 and >=3.
    'BLD-10': () =>
      Object.fromEntries(
        crackWidthGuide.map((words, category) => [
          category,
          words
            .replace(' mm', '')
            .replace(' mm', '')
            .replace('up to ', '<=')
            .replace('<0.1', '<=0.1')
            .replace('>=3', '>3'),
        ]),
      ),
    'BLD-11': extension,
    'BLD-12': extension,
    'BLD-13': extension,
    'BLD-14': extension,
    // The row states the two limits, not a case: the class that is given below exactly these, in the row's words.
    'BLD-15': ({ settlement_mm, slope }) => {
      const below = riskClasses.find(
        ({ settlementBelowMm, slopeBelowOneIn }) =>
          settlementBelowMm === settlement_mm && slopeBelowOneIn !== null && 1 / slopeBelowOneIn === slope,
      )
      return `below both -> ${below?.name}, may be left out of further assessment`
    },
    'BLD-16': () =>
      Object.fromEntries(skemptonLimits.map(({ event, radians }) => [rowWords[event] ?? event, radians])),
    'BLD-17': ({ x_m, s_mm }) => {
      const found = accepted(
        distortionOf(
          x_m.map((chainageMetres: number, at: number) => ({ chainageMetres, settlementMm: s_mm[at] })),
        ),
      )
      const angular = found.angularDistortionMmPerM.map((value) => value / 1000)
      return {
        tilt: found.tiltMmPerM / 1000,
        slopes: angular.map((value) => value + found.tiltMmPerM / 1000),
        angular_distortion: angular,
        max_angular_distortion: Math.max(...angular.map(Math.abs)),
        relative_deflection_mm: found.deflectionsMm,
        max_relative_deflection_mm: Math.abs(found.greatestDeflectionMm),
        deflection_ratio_whole_chord: found.deflectionRatio,
      }
    },
    'BLD-18': (inputs) => {
      const [from, to] = inputs.building_y_m
      const { sag, hog } = parts(trough(inputs), inputs.z0_m, from, to)
      return {
        hog_L_m: hog.toOffsetMetres - hog.fromOffsetMetres,
        hog_delta_mm: hog.greatestDeflectionMm,
        hog_at_y_m: hog.greatestDeflectionAtMetres,
        sag_L_m: sag.toOffsetMetres - sag.fromOffsetMetres,
        sag_delta_mm: sag.greatestDeflectionMm,
        sag_at_y_m: sag.greatestDeflectionAtMetres,
        mean_horizontal_strain_hog: hog.meanHorizontalStrain,
        mean_horizontal_strain_sag: sag.meanHorizontalStrain,
      }
    },
    // "BLD-18 hogging part": the building and its trough are that row's, the height and stiffness this one's.
    'BLD-19': (inputs) => {
      const over = tunnelRows.find(({ id }) => id === 'BLD-18')?.inputs as PublishedInputs
      const [fromOffsetMetres, toOffsetMetres] = over.building_y_m
      const wall = {
        id: 'BLD-18',
        fromOffsetMetres,
        toOffsetMetres,
        heightMetres: inputs.H_m,
        stiffnessRatio: inputs['E/G'],
      }
      const { parts: found } = accepted(buildingResponse(trough(over), over.z0_m, wall))
      const hog = found.find(({ mode }) => mode === 'hogging')
      if (!hog) throw new Error('No part hogs.')
      return {
        eps_b: hog.strains.bending,
        eps_d: hog.strains.diagonal,
        eps_h: hog.meanHorizontalStrain,
        eps_br: hog.combined.bending,
        eps_dr: hog.combined.diagonal,
        category: Number(hog.guidance.category),
      }
    },
  },
}
