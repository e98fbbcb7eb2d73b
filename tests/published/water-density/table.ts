import {
  waterDensity as densityOfWater,
  kellWaterDensity,
  normalGravity,
  seaWaterDensity,
} from '#domain/reduction/water-density.ts'
import type { PublishedInputs, PublishedTable } from '../published-row.ts'
import { waterDensityRows } from './rows.ts'

const cipm = ({ t_C }: PublishedInputs) => densityOfWater(t_C)
const sea = ({ S_psu, t68_C }: PublishedInputs) => seaWaterDensity(S_psu, t68_C)
const kell = ({ t68_C }: PublishedInputs) => kellWaterDensity(t68_C)

export const waterDensity: PublishedTable = {
  area: 'water density',
  rows: waterDensityRows,
  computed: {
    'WD-01': cipm,
    'WD-03': cipm,
    'WD-04': cipm,
    'WD-05': cipm,
    'WD-06': cipm,
    'WD-07': cipm,
    'WD-08': cipm,
    'WD-10': kell,
    'WD-13': kell,
    'WD-14': kell,
    // The mistake: the divisor's coefficient as a public copy misprints it.
    'WD-15': ({ t_C }) => kellWaterDensity(t_C, 16.89785e-3),
    'WD-18': ({ lat_deg }) => lat_deg.map(normalGravity),
    'WD-20': sea,
    'WD-21': sea,
    'WD-22': sea,
    'WD-23': sea,
  },
}
