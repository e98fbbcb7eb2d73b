import type { CalibrationStep } from '#domain/reduction/chain.ts'
import { reduceValue } from '#domain/reduction/reduce-value.ts'
import { cellRiseMm } from '#domain/reduction/settlement-cell.ts'
import { waterDensity } from '#domain/reduction/water-density.ts'
import { deriveMeasured } from '../derive-measured.ts'
import type { PublishedInputs, PublishedTable } from '../published-row.ts'
import { extensometersRows } from './rows.ts'

const reduce = (raw: number, steps: readonly CalibrationStep[], temperatureDegC: number | null = null) =>
  reduceValue(raw, steps, { temperatureDegC, barometerKpa: null }).value ?? Number.NaN

/** Magnets by tape: depth below the head, zeroed, in mm; positive where magnet and head have come together. */
const closings = ({ depth0_m, depth1_m }: PublishedInputs): number[] =>
  depth0_m.map((zero: number, at: number) =>
    reduce(depth1_m[at], [
      { kind: 'zero', parameters: { value: zero } },
      { kind: 'linear', parameters: { factor: -1000, offset: 0, unit: 'mm' } },
    ]),
  )

const magnets = (inputs: PublishedInputs) =>
  closings(inputs).map((displacement, at) => ({
    id: `M${at}`,
    depthMetres: inputs.depth0_m[at],
    read: { displacement },
  }))

const rods = ({ anchor_depth_m, gap_change_mm }: PublishedInputs) =>
  anchor_depth_m.map((depthMetres: number, at: number) => ({
    id: `A${at + 1}`,
    depthMetres,
    read: { displacement: gap_change_mm[at] },
  }))

/** Change of the length of a steel or invar part, mm, as the thermal step of a calibration. */
export const thermalLength = (lengthMm: number, perDegC: number, warming: number): number =>
  reduce(0, [{ kind: 'thermal', parameters: { factor: lengthMm * perDegC, reference: 0 } }], warming)

const cell = (pressureKpa: number, densityKgPerM3: number, reservoirDropMm = 0) => ({
  pressureKpa,
  densityKgPerM3,
  reservoirDropMm,
})

export const extensometers: PublishedTable = {
  area: 'extensometers',
  rows: extensometersRows,
  computed: {
    'EX-01': (inputs) => {
      const derived = deriveMeasured({
        instrument: { kind: 'extensometer', fixedEnd: 'deepest-anchor', anchorPositive: 'together' },
        points: magnets(inputs),
      })
      // The deepest magnet is the place from which the others are told: it has no series of its own.
      return inputs.depth0_m.map((_: number, at: number) =>
        at === inputs.datum_index ? 0 : derived[`M${at}/relative-displacement`],
      )
    },
    // The mistake of the row: a head that settles 60 mm is entered as surveyed and still.
    'EX-03': (inputs) => {
      const derived = deriveMeasured({
        instrument: {
          kind: 'extensometer',
          fixedEnd: 'surveyed-head',
          anchorPositive: 'together',
          surveyedPoint: 'SP',
          surveyMaximumAgeDays: 7,
        },
        points: magnets(inputs),
        others: [{ id: 'SP', read: { settlement: 0 } }],
      })
      return inputs.depth0_m.map((_: number, at: number) => derived[`M${at}/settlement`])
    },
    'EX-05': ({ L_m, scale }) =>
      reduce(L_m, [
        { kind: 'linear', parameters: { factor: 1 + scale, offset: 0, unit: 'm' } },
        { kind: 'zero', parameters: { value: L_m } },
        { kind: 'unit', parameters: { from: 'm', to: 'mm' } },
      ]),
    'EX-06': (inputs) => {
      const derived = deriveMeasured({
        instrument: { kind: 'extensometer', fixedEnd: 'deepest-anchor', anchorPositive: 'apart' },
        points: rods(inputs),
      })
      return {
        head: derived['I/relative-displacement'],
        anchors: [derived['A1/relative-displacement'], derived['A2/relative-displacement'], 0],
      }
    },
    // The app tells settlements, downwards; the row towards the collar.
    'EX-07': (inputs) => {
      const derived = deriveMeasured({
        instrument: {
          kind: 'extensometer',
          fixedEnd: 'surveyed-head',
          anchorPositive: 'apart',
          surveyedPoint: 'SP',
          surveyMaximumAgeDays: 7,
        },
        points: rods(inputs),
        others: [{ id: 'SP', read: { settlement: -inputs.head_displacement_mm } }],
      })
      return ['A1', 'A2', 'A3'].map((point) => -(derived[`${point}/settlement`] ?? Number.NaN))
    },
    'EX-08': (inputs) => {
      const derived = deriveMeasured({
        instrument: { kind: 'extensometer', fixedEnd: 'head', anchorPositive: 'apart' },
        points: rods(inputs),
      })
      return ['A1', 'A2', 'A3'].map((point) => derived[`${point}/strain`])
    },
    'EX-09': ({ L_m, alpha_per_C, dT_C }) => thermalLength(L_m * 1000, alpha_per_C, dT_C),
    // The app tells settlements, downwards, by the conventional gravity of the row; the row the rise.
    'EX-10': ({ p0_kPa, p1_kPa, rho_kg_m3 }) =>
      -(settlementOfCell([p0_kPa, 15], [p1_kPa, 15], rho_kg_m3) ?? Number.NaN),
    // The mistake of the row: the warm column is reckoned with the temperature, so the density, of the cold one.
    'EX-11': ({ h_m, t0_C, t1_C }) => {
      const [cold, warm] = [waterDensity(t0_C), waterDensity(t1_C)]
      const pressure = (density: number) => (density * 9.80665 * h_m) / 1000
      return settlementOfCell([pressure(cold), t0_C], [pressure(warm), t0_C])
    },
    // What is taken off when the drop of the reservoir is entered.
    'EX-12': ({ reservoir_drop_mm }) =>
      cellRiseMm(cell(20, 1000), cell(20, 1000, 0)) -
      cellRiseMm(cell(20, 1000), cell(20, 1000, reservoir_drop_mm)),
    'EX-13': ({ dp_kPa, rho_kg_m3 }) => cellRiseMm(cell(20 + dp_kPa, rho_kg_m3), cell(20, rho_kg_m3)),
  },
}

/** Settlement of a cell against its reservoir, from pressure (kPa) and temperature (°C); of water, or of a density. */
function settlementOfCell(
  [zeroPressureKpa, zeroTemperatureDegC]: readonly [number, number],
  [pressure, temperature]: readonly [number, number],
  densityKgPerM3: number | null = null,
): number | null | undefined {
  return deriveMeasured({
    instrument: {
      kind: 'settlement-cell',
      liquidDensityKgPerM3: densityKgPerM3,
      liquidExpansionPerKelvin: densityKgPerM3 === null ? null : 0,
    },
    unit: 'kPa',
    points: [
      { id: 'C', zeroPressureKpa, zeroTemperatureDegC, read: { 'liquid-pressure': pressure, temperature } },
    ],
  })['C/relative-settlement']
}
