import {
  drawdownMetres,
  straightLineDrawdown,
  transmissivityOfTwoWells,
  wellArgument,
} from '#domain/ground/groundwater/drawdown.ts'
import { fitStraightLine, fitTheis } from '#domain/ground/groundwater/pumping-test.ts'
import { wellFunction } from '#domain/ground/groundwater/well-function.ts'
import { accepted } from '../accepted.ts'
import type { PublishedInputs, PublishedTable } from '../published-row.ts'
import { wellRows } from './rows.ts'

const aquifer = ({ T_m2s, S }: PublishedInputs) => ({ transmissivity: T_m2s, storativity: S })
const theis = (inputs: PublishedInputs) => ({
  u: wellArgument(aquifer(inputs), inputs.r_m, inputs.t_s),
  s_m: drawdownMetres(aquifer(inputs), inputs.Q_m3s, inputs.r_m, inputs.t_s),
})

/** Minutes of the row as days, the unit of its rate. */
const test = ({ Q_m3_per_d, data_r_t_s }: PublishedInputs, radiusMetres: number, fromMinutes = 0) => ({
  ratePerTime: Q_m3_per_d,
  radiusMetres,
  readings: data_r_t_s[radiusMetres]
    .filter(([minutes]: readonly [number, number]) => minutes >= fromMinutes)
    .map(([minutes, metres]: readonly [number, number]) => ({
      time: minutes / 1440,
      drawdownMetres: metres,
    })),
})
const theisFit = (radiusMetres: number) => (inputs: PublishedInputs) => {
  const found = accepted(fitTheis(test(inputs, radiusMetres)))
  return { T_m2_per_d: found.transmissivity, S: found.storativity, rmse_m: found.rootMeanSquareMetres }
}

export const wells: PublishedTable = {
  area: 'wells',
  rows: wellRows,
  computed: {
    'GWT-01': ({ u }) => u.map(wellFunction),
    'GWT-02': theis,
    'GWT-04': theis,
    'GWT-05': theis,
    // The row's constant is the customary 2.25; GWT-08 has it in full.
    'GWT-07': (inputs) => {
      const line = straightLineDrawdown(aquifer(inputs), inputs.Q_m3s, inputs.r_m, inputs.t_s, 2.25)
      return { s_m: line.drawdownMetres, rel_error: line.departure }
    },
    'GWT-08': ({ u }) =>
      u.map(
        (one: number) => straightLineDrawdown({ transmissivity: 1, storativity: 4 * one }, 1, 1, 1).departure,
      ),
    'GWT-09': ({ Q_m3_per_d, r, s }) =>
      transmissivityOfTwoWells(
        Q_m3_per_d,
        { radiusMetres: r[0], drawdownMetres: s[0] },
        { radiusMetres: r[1], drawdownMetres: s[1] },
      ),
    'GWT-10': theisFit(30),
    'GWT-11': theisFit(90),
    'GWT-13': (inputs) => {
      const found = accepted(fitStraightLine(test(inputs, 30, 10)))
      return {
        drawdown_per_log_cycle_m: (Math.LN10 * inputs.Q_m3_per_d) / (4 * Math.PI * found.transmissivity),
        T_m2_per_d: found.transmissivity,
        S: found.storativity,
      }
    },
  },
}
