import {
  adjustedLevels,
  allowedMisclosureMm,
  isClosed,
  loopClosures,
  misclosureMetres,
  reducedLevels,
  type Setup,
} from '#domain/levelling/levelling-loop.ts'
import type { PublishedInputs, PublishedTable } from '../published-row.ts'
import { levellingRows } from './rows.ts'

const setups = ({ BS_m, FS_m }: PublishedInputs): readonly Setup[] =>
  BS_m.map((backsightMetres: number, at: number) => ({
    backsightMetres,
    foresightMetres: FS_m[at],
    distanceMetres: null,
  }))

const closureOf = (order: string): number => loopClosures.find((one) => one.order === order)?.k ?? Number.NaN

export const levelling: PublishedTable = {
  area: 'levelling',
  rows: levellingRows,
  computed: {
    'LV-01': (inputs) => reducedLevels(inputs.RL0_m, setups(inputs)),
    'LV-02': (inputs) => {
      const adjusted = adjustedLevels(inputs.RL0_m, setups(inputs), 'setups')
      return {
        misclosure_m: misclosureMetres(inputs.RL0_m, setups(inputs)),
        adjusted_m: adjusted.ok ? adjusted.value : null,
      }
    },
    'LV-03': ({ K_km }) =>
      K_km.map((length: number) => allowedMisclosureMm(closureOf('third order'), length)),
    'LV-04': ({ K_km }) => allowedMisclosureMm(8.4, K_km),
    'LV-05': ({ E_km }) => loopClosures.map(({ k }) => allowedMisclosureMm(k, E_km)),
    'LV-06': ({ misclosure_mm, K_km }) => ({
      k12: isClosed(misclosure_mm, 12, K_km),
      k4: isClosed(misclosure_mm, 4, K_km),
    }),
  },
}
